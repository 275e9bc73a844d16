/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of a plan as JSON values.
 */
#ifndef LANEWICK_PLAN_JSON_H
#define LANEWICK_PLAN_JSON_H

#include "lanewick/mast_check.h"
#include "lanewick/plan.h"

#include <jansson.h>

json_t *lw_json_band(const lw_dark_band *band);
json_t *lw_json_money(const lw_shelf *shelf, int64_t minor);
/* What lanewick mast --json tells. */
json_t *lw_json_mast_check(const lw_mast_wish *wish, const lw_mast_result *result);
/* Adds the keys of the bill to the plan's cost. */
void lw_bill_to_json(const lw_plan *plan, json_t *cost);
json_t *lw_plan_lamp_json(const lw_plan *plan, const lw_plan_kind *kind, int number, int of_entry);
json_t *lw_lamp_readings_json(const lw_lamp_readings *readings, bool own_switch);
/* Test points, findings and charging of every design: one entry each. */
json_t *lw_plan_circuits_json(const lw_plan *plan);
json_t *lw_plan_switch_json(const lw_dusk_board *dusk);
/* The lane: masts, light by step and hour, what more of each thing buys. */
json_t *lw_plan_lane_json(const lw_plan *plan);
json_t *lw_plan_option_json(const lw_plan *plan, size_t kind, const lw_option *option);

/* LW_WRONG_INPUT: a key that a plan does not have, or a sum that is not that of its lines. */
LW_MUST_CHECK bool lw_plan_adds_up(const json_t *plan, lw_error *err);

#endif
