/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long a cell goes on in a lamp: the ageing models of lanewick/ageing.h, entered at the cell's present state, with
 * a band for what they do not know. docs/models/cell-verdict.md.
 */
#ifndef LANEWICK_FORECAST_H
#define LANEWICK_FORECAST_H

#include "lanewick/ageing.h"
#include "lanewick/verdict.h"

typedef struct lw_life_ask {
    lw_ageing_model model;
    lw_stress stress;        /* the lamp's duty */
    lw_estimate capacity_ah; /* now */
    double new_ah;           /* when new: the rated capacity, or a guess that is said to be one */
    double needed_ah;        /* the lamp is no longer served below this */
} lw_life_ask;

typedef struct lw_life {
    double years, low_years, high_years; /* until needed_ah; low and high: 90 % band. LW_LIFE_MOST: longer than told */
    double health;                       /* capacity now over new_ah */
    bool past_knee;                      /* below 80 % of new: fade speeds up, the band is wide */
} lw_life;
#define LW_LIFE_MOST 20.0

/* Errors: nothing left above needed_ah (LW_NOT_COMPUTABLE), capacities not above 0. */
LW_MUST_CHECK bool lw_remaining_life(const lw_life_ask *ask, lw_life *out, lw_error *err);

#endif
