/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matched cells as the pack of a lamp: its dark nights today and in the years ahead, beside those of the same cells
 * wired in the order in which they come. docs/models/pack-matching.md.
 */
#ifndef LANEWICK_PACK_NIGHTS_H
#define LANEWICK_PACK_NIGHTS_H

#include "lanewick/cell_csv.h"
#include "lanewick/nights_desk.h"

enum { LW_PACK_YEARS = 15 };

typedef struct lw_pack_nights_ask {
    const lw_system *system;      /* battery of kind cells with as many groups as match.series; they are replaced */
    const lw_weather_year *hours; /* one real year of hours; NULL: made years of `draws` */
    lw_night_draws draws;         /* its system is not looked at */
    lw_match_ask match;           /* one pack */
    int planned_years;            /* 0..LW_PACK_YEARS; 0: today alone */
    double health;                /* capacity now / when new, 0.3..1: how fast the cells age from here */
} lw_pack_nights_ask;

/* One wiring of the cells. */
typedef struct lw_pack_wiring {
    lw_group group[LW_MAX_SERIES]; /* as stated, 25 degC, today */
    double weakest_ah;
    double capacity_share[LW_PACK_YEARS + 1]; /* of today, in the middle of each year; [0] is today */
    lw_dark_band dark[LW_PACK_YEARS + 1];     /* nights a year; from hours: one count, no band */
} lw_pack_wiring;

typedef struct lw_pack_nights {
    lw_match match;
    lw_pack_wiring matched, as_they_come;
    int years;         /* entries beyond today */
    bool system_mohm;  /* a resistance was not told: the system's own group resistances stand in */
    bool system_class; /* the list tells no voltage class: taken to be that of the system */
} lw_pack_nights;

/* The keys of lw_match_to_json and pack_nights; free() it. NULL when memory is out. */
LW_MUST_CHECK char *lw_pack_nights_to_json(const lw_pack_nights_ask *ask, const lw_cell_list *list,
                                           const lw_pack_nights *nights);

#endif
