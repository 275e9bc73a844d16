/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The packs that a plan makes of named cells, read back from its document (format lanewick.plan/1).
 */
#ifndef LANEWICK_PLAN_PACKS_H
#define LANEWICK_PLAN_PACKS_H

#include "lanewick/arena.h"
#include "lanewick/battery.h"
#include "lanewick/brief.h"

typedef struct lw_planned_pack {
    const char *lamp;
    const char *code; /* as on its sheet and label; NULL in a plan that has none */
    const char *voltage_class;
    int series;
    double weakest_ah, guaranteed_ah; /* guaranteed_ah NAN: the cells carry no uncertainty */
    size_t first[LW_MAX_SERIES + 1];  /* group g: cells first[g] .. first[g + 1] - 1 of the plan */
} lw_planned_pack;

typedef struct lw_planned_packs {
    const char *name; /* of the job */
    lw_planned_pack *pack;
    size_t packs;
    const char **cell; /* codes, pack by pack, group by group */
    size_t cells;
} lw_planned_packs;

/* Bytes of arena for a document of this length. */
size_t lw_planned_packs_memory(size_t length);
/* LW_REFUSED: the plan is refused for safety. LW_WRONG_INPUT: no plan, or none that names its cells, or one that names
 * a cell twice. */
LW_MUST_CHECK bool lw_planned_packs_read(const char *text, size_t length, lw_arena *arena, lw_planned_packs *out,
                                         lw_error *err);

#endif
