/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A wired charger tried in the sun, against what the plan counts on.
 */
#ifndef LANEWICK_DESK_TRIAL_H
#define LANEWICK_DESK_TRIAL_H

#include "lanewick/charging.h"
#include "lanewick/plan.h"

typedef struct lw_trial_answer {
    lw_charger_trial trial;
    lw_trial_verdict verdict;
    double planned; /* a tracking charger: its efficiency; else pack volts over panel volts, all that a linear one can
                       do */
    const char *charger;
} lw_trial_answer;

/* The log's text (lanewick/trial_csv.h) against the charger of one design of the plan; meters of 1 %. */
LW_MUST_CHECK bool lw_desk_trial(const lw_plan *plan, size_t kind, const char *bytes, size_t length,
                                 lw_trial_answer *out, lw_error *err);

#endif
