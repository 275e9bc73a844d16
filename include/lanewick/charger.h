/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands between panel and pack. Three kinds (docs/models/charger.md):
 *   direct    the panel works at pack voltage + blocking drop + drop in the wires; charging ends at full_v
 *   linear    as direct, but the panel is held at or above input_floor_v and the rest is burnt
 *   tracking  the panel works at its maximum power point; tracking share and conversion efficiency
 */
#ifndef LANEWICK_CHARGER_H
#define LANEWICK_CHARGER_H

#include <stdbool.h>

typedef enum lw_charger_kind { LW_CHARGER_DIRECT, LW_CHARGER_LINEAR, LW_CHARGER_TRACKING } lw_charger_kind;

enum { LW_CURVE_POINTS = 8 };
/* y linear between points, x rising; beyond the ends the end value. n = 1: a constant. */
typedef struct lw_curve {
    int n;
    double x[LW_CURVE_POINTS], y[LW_CURVE_POINTS];
} lw_curve;
double lw_curve_at(const lw_curve *curve, double x);

typedef struct lw_charger {
    lw_charger_kind kind;
    double blocking_v;     /* direct, linear: diode 0.3..0.5 V, transistor 0.02..0.1 V */
    double wire_ohm;       /* direct, linear: there and back */
    double full_v;         /* end of charge of the pack [V]; 0: the upper limit of its cells */
    bool end_by_start;     /* simple form: the end of charge is judged by the voltage at the start of each step */
    double most_a;         /* highest charging current [A]; 0: no limit */
    double input_floor_v;  /* linear: the charger holds the panel at or above this */
    double wire_share;     /* tracking: what the wires let through, 0.98 */
    double tracking_share; /* tracking: 0.98 */
    lw_curve efficiency;   /* tracking: conversion against panel power [W] */
    double start_w;        /* tracking: below this panel power [W] it does not start; 0 */
    double standby_w;      /* always drawn from the pack */
    bool charge_cutoff;    /* stops charging outside the pack's charging temperatures */
    double input_limit_v;  /* highest open voltage it bears [V]; 0: not stated */
} lw_charger;
lw_charger lw_charger_default(lw_charger_kind kind);

#endif
