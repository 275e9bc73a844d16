/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matched packs in their duty: how the cells of each group share the night's load and the charge, what joining them may
 * do, and what the protection must keep. docs/models/pack-sharing.md.
 */
#ifndef LANEWICK_DUTY_H
#define LANEWICK_DUTY_H

#include "lanewick/match.h"
#include "lanewick/sharing.h"

typedef struct lw_duty_ask {
    double load_a, charge_a; /* of the pack: night load, > 0; charge, 0: not told */
    double cell_limit_a;     /* what one cell may carry */
    double path_ohm;         /* holder contact or wire of each cell */
} lw_duty_ask;

typedef struct lw_duty_run {
    double share, most_a; /* largest current of a cell over an equal share; and itself */
    size_t cell;          /* in the list */
    bool within;          /* the limit */
} lw_duty_run;

typedef struct lw_duty_group {
    int cells;
    lw_duty_run load, charge; /* charge.share 0: not told */
    double join_v, join_a;    /* difference allowed when its two lowest resistances are joined, and the current then */
} lw_duty_group;

typedef struct lw_duty {
    lw_duty_group *group; /* [match.groups] */
    double largest_share, largest_a, join_v;
    bool within;
    int fewest; /* cells of the smallest group */
    const lw_cell_class *class;
    lw_protection protection; /* of the pack with the weakest group */
} lw_duty;

/* LW_WRONG_INPUT: a resistance is not known, a group of more than LW_GROUP_CELLS. LW_REFUSED: as
 * lw_protection_limits(). */
LW_MUST_CHECK bool lw_pack_duty(const lw_match_ask *ask, const lw_match *match, const lw_duty_ask *duty,
                                lw_arena *arena, lw_duty *out, lw_error *err);

#endif
