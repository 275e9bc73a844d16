/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a way of lighting the lane costs: its lamps sized by simulated nights, shared out from the one shelf with the
 * other lamps of the brief. Sizes already found for more or less light narrow the next search, and bound what has not
 * been looked at: more light, or light turned down less, never makes a cheaper lamp of the same kind.
 */
#ifndef LANEWICK_LANE_COST_H
#define LANEWICK_LANE_COST_H

#include "plan_work.h"

enum { LW_LANE_LEVELS = 28, LW_LANE_PRICES = 2000, LW_LANE_SIZES = 40 };

typedef struct lw_lane_cost {
    lw_plan_work *work;
    lw_size_memory memory;
    struct {
        double level;
        lw_engine *engine;
        void *bytes;
    } ready[LW_LANE_LEVELS];
    size_t ready_count;
    struct {
        double head_w, level;
        int64_t least_minor; /* of one lamp without mast and head; INT64_MAX: none keeps the wish */
    } seen[LW_LANE_PRICES];
    size_t seen_count;
    lw_choice_kind kind[LW_BRIEF_KINDS]; /* of the brief; the lane's is filled for each way */
    lw_candidate size[LW_LANE_SIZES];
    int others_without;
    int64_t others_minor, floor_minor;     /* all other lamps; any lamp's least parts */
    int64_t mast_minor[LW_LAYOUT_CHOICES]; /* the cheapest that stands at a height; INT64_MAX: none */
    long sized;
} lw_lane_cost;

/* kinds: the brief's, with candidates of all but the lane's. */
void lw_lane_cost_begin(lw_lane_cost *cost, lw_plan_work *work, const lw_choice_kind *kinds);
void lw_lane_cost_end(lw_lane_cost *cost);
/* The plan cannot cost less than this with the row; INT64_MAX: it cannot be fed. */
int64_t lw_lane_cost_least(const lw_lane_cost *cost, const lw_lane_row *row);
/* Shares the shelf out over sizes of a lane's lamp, in rising cost, and the other lamps. true: every lamp of the lane
 * keeps the wish and no other lamp loses by it. `cheapest`: all lamps could be the cheapest there is, so that no other
 * way of building can help. */
bool lw_lane_cost_share(lw_lane_cost *cost, const lw_lamp_kind *lamp, const lw_candidate *sizes, size_t count,
                        int64_t *total, bool *cheapest);
/* Fills fed and cost_minor by the first draws. */
bool lw_lane_cost_of(lw_lane_cost *cost, lw_lane_row *row, lw_error *err);

#endif
