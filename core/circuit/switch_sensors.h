/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The part of a switch that tells day from night, with its values.
 */
#ifndef LANEWICK_SWITCH_SENSORS_H
#define LANEWICK_SWITCH_SENSORS_H

#include "lanewick/switch_values.h"

/* Fills the sensor's resistors, levels, delay and standby_a. LW_NOT_COMPUTABLE says what would help. */
LW_MUST_CHECK bool lw_switch_sensor_for(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                                        lw_error *err);

#endif
