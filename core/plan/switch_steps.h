/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lamp's schedule as a circuit that counts from dusk sees it.
 */
#ifndef LANEWICK_SWITCH_STEPS_H
#define LANEWICK_SWITCH_STEPS_H

#include "lanewick/brief.h"

/* Hours (0: until dawn) and level of each of the lamp's spans; LW_WRONG_INPUT when one needs a clock. */
LW_MUST_CHECK bool lw_switch_steps(const lw_lamp_kind *lamp, const char *circuit, double hours[LW_BRIEF_STEPS],
                                   double levels[LW_BRIEF_STEPS], lw_error *err);

#endif
