/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The electrical side of a planned lamp as the plan carries it: switch made by hand, its minutes, its draw.
 */
#ifndef LANEWICK_WIRED_H
#define LANEWICK_WIRED_H

#include "lanewick/switch_values.h"

/* Minutes that a lamp burns longer than wished at one end of the night, mean over the year, clear sky; below 0:
 * shorter. */
typedef struct lw_minutes {
    double nominal, worst_low, worst_high, p05, p95;
} lw_minutes;

typedef struct lw_dusk_board {
    bool there;
    lw_switch_kind kind;
    lw_switch_values values;
    double wanted_lx;   /* open ground at the wished height of the sun, clear sky */
    double pack_v;      /* half full */
    double on_v, off_v; /* node and reference then, when the lamp goes on and off */
    lw_dusk_spread on, off;
    lw_minutes dusk, dawn;
    double longer_min, spread_min; /* both ends together under average cloud (a third of the light): mean, one sd */
    double dark_cloud_min;         /* both ends together under the darkest cloud (a tenth) */
    double standby_wh_month;
    double own_lx, own_limit_lx; /* the lamp's own light on its sensor; 0.3 of what turns it off */
    bool own_stable, own_good;
} lw_dusk_board;

#endif
