/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The search for the smallest pack of each way of building a lamp. A plain energy balance drops panels that cannot feed
 * the lamp in a mean year; then each way gets the smallest pack that keeps the wish, by simulation of the cell model
 * over the first draws.
 */
#ifndef LANEWICK_PLAN_LINES_H
#define LANEWICK_PLAN_LINES_H

#include "plan_work.h"

#include "lanewick/sizing.h"

typedef struct lw_size_search {
    lw_plan_work *work;
    size_t kind;
    lw_design design[LW_WORK_DESIGNS];
    lw_sizing_line line[LW_WORK_DESIGNS];
    lw_nights_summary life[LW_WORK_DESIGNS]; /* how the pack of a line lives, from its first trial */
    int life_parallel[LW_WORK_DESIGNS];      /* with so many cells in parallel; 0: not yet known */
    size_t line_count;
    const lw_other_light *other; /* NULL: the brief's */
    lw_breadth breadth;
    lw_candidate tried[LW_WORK_POINTS];
    size_t tried_count;
    lw_trial trial[LW_WORK_DESIGNS];
    lw_sizing_ask ask[LW_WORK_DESIGNS];
} lw_size_search;

/* Lines from the designs that a mean year can feed; when none can, the strongest panel of each is kept (with another
 * light than the brief's: none). */
bool lw_lines_begin(lw_size_search *s, const lw_design *designs, size_t count, bool trimmed, lw_error *err);
/* Until each line has its answer or is of no use. */
bool lw_lines_converge(lw_size_search *s, lw_error *err);

#endif
