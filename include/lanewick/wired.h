/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The electrical side of a planned lamp as the plan carries it: switch made by hand, its minutes, its draw.
 */
#ifndef LANEWICK_WIRED_H
#define LANEWICK_WIRED_H

#include "lanewick/lamp_circuit.h"
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
    double wanted_lx;                 /* open ground at the wished height of the sun, clear sky */
    double pack_v;                    /* half full */
    double on_v, off_v;               /* node and reference then, when the lamp goes on and off */
    lw_dusk_spread on, off;           /* at the empty pack, where the comparator's offset weighs most */
    lw_dusk_spread on_full, off_full; /* at the full pack */
    lw_minutes dusk, dawn;            /* at the full pack, as a day leaves it; at the empty one */
    double longer_min, spread_min;    /* both ends together under average cloud (a third of the light): mean, one sd */
    double dark_cloud_min;            /* both ends together under the darkest cloud (a tenth) */
    double standby_wh_month;
    double own_lx, own_limit_lx; /* the lamp's own light on its sensor; 0.3 of what turns it off */
    /* own light below 0.3 of switch-off; below the step from on to off, so that it never blinks at dusk; so great that
     * one lamp of twenty or more goes off by it in the darkest night */
    bool own_good, own_stable, own_blinks;
} lw_dusk_board;

/* Whether the panel fills the pack in every month. */
typedef struct lw_charge_month {
    double panel_v, pack_v; /* best working volts on a hot noon behind diode or charger; what the full pack needs */
    double amps; /* into the full pack at that noon; a tracking charger: into the pack at its nominal volts */
} lw_charge_month;

typedef struct lw_charge_year {
    lw_charge_month month[12];
    bool fills;              /* on the hot noon of every month */
    double back_ma;          /* from the full pack into the dark panel */
    double ice_ohm, hot_ohm; /* thermistor 10 kohm, B 3950 K, at 0 and 45 degC */
    double long_life_v;      /* of a cell, the setting for long life */
    double bleed_h;          /* a board that bleeds 50 mA takes so long for 1 % of a group's charge; 0: one group */
} lw_charge_year;

/* The whole lamp solved as a circuit. */
typedef struct lw_circuit_card {
    bool there;
    char why_not[200];
    bool own_switch; /* the driver has its own: nothing to measure at a comparator */
    lw_lamp_circuit parts;
    lw_lamp_readings readings;
    lw_charge_year charge;
} lw_circuit_card;

#endif
