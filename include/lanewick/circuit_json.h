/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lamp's circuit as a document, format lanewick.circuit/1 (docs/schema/circuit-1.schema.json), and its readings.
 */
#ifndef LANEWICK_CIRCUIT_JSON_H
#define LANEWICK_CIRCUIT_JSON_H

#include "lanewick/lamp_circuit.h"
#include "lanewick/plan.h"

/* Keys left out keep the values of lw_lamp_circuit_default(). */
LW_MUST_CHECK bool lw_lamp_circuit_from_json(const char *text, size_t length, lw_lamp_circuit *out, lw_error *err);

/* conditions{name: {points{name: {expected, low, high}}, text}}, findings[], refused; free() it. */
LW_MUST_CHECK char *lw_lamp_readings_to_json(const lw_lamp_readings *readings);

/* Test points, findings and charging of every design of a plan; free() it. */
LW_MUST_CHECK char *lw_plan_circuits_to_json(const lw_plan *plan);

/* Whether a test point can be measured: not those of a comparator that is part of a bought driver. */
bool lw_test_point_there(lw_test_point point, bool own_switch);

#endif
