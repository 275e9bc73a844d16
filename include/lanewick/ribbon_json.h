/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The night ribbon of one planned lamp: when each night begins and ends, how bright the lamp should be, and what
 * became of it. The question: {"brief", "kind", "panel", "panels", "cell", "series", "parallel", "charger",
 * "driver", "board", "trimmed", "seed"}, the parts by their names on the shelf, as a plan tells them.
 */
#ifndef LANEWICK_RIBBON_JSON_H
#define LANEWICK_RIBBON_JSON_H

#include "lanewick/nights.h"
#include "lanewick/plan.h"

enum { LW_RIBBON_SLOTS = 12 }; /* of an hour: five minutes */

typedef struct lw_ribbon_request {
    lw_brief brief;
    size_t kind; /* in brief.want.lamp */
    lw_design design;
    uint64_t seed;
} lw_ribbon_request;

/* One simulated year; draw: its number, from 0. Shares of each night's wanted light and of a full pack. */
typedef struct lw_ribbon_year {
    uint32_t draw;
    int dark_nights;
    double missing_share[LW_DAYS], lowest_share[LW_DAYS];
} lw_ribbon_year;

typedef struct lw_ribbon {
    uint32_t years;
    lw_dark_part night[LW_DAYS];
    const double *level_h; /* [8760 x LW_RIBBON_SLOTS] hours of full light wanted in each slot, from 1 January on */
    double dark_share[LW_DAYS]; /* share of the years in which the night was dark */
    lw_dark_band dark;          /* nights a year: mean, 5th and 95th percentile of the years, as the plan tells them */
    lw_ribbon_year middle, worst;
} lw_ribbon;

/* The brief may not name a file. About 40 kB: give it a home that lasts. */
LW_MUST_CHECK bool lw_ribbon_request_from_json(const char *text, size_t length, lw_ribbon_request *out, lw_error *err);
/* free() it. NULL when memory is out. */
LW_MUST_CHECK char *lw_ribbon_to_json(const lw_ribbon *ribbon);

#endif
