/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is known of a cell by its voltage class: open voltage against charge, limits, the change of capacity
 * and resistance with temperature. One class a file (core/cell/class_*.c).
 */
#ifndef LANEWICK_CELL_CLASS_H
#define LANEWICK_CELL_CLASS_H

#include <stdbool.h>

enum { LW_OCV_POINTS = 24 };
/* Open voltage [V] against share of charge (0..1, rising from 0 to 1), linear between the points. */
typedef struct lw_ocv {
    int n;
    double charge[LW_OCV_POINTS], v[LW_OCV_POINTS];
} lw_ocv;
double lw_ocv_at(const lw_ocv *ocv, double charge);              /* clamped to 0..1 */
double lw_ocv_charge(const lw_ocv *ocv, double v);               /* inverse, clamped to 0..1 */
double lw_ocv_mean_v(const lw_ocv *ocv, double from, double to); /* mean over a range of charge */

typedef struct lw_cell_class {
    const char *name;    /* 4v2, 4v35, lfp */
    const char *meaning; /* chemistries */
    const char *source;  /* of the curve */
    lw_ocv ocv;
    double limit_v;   /* hard ceiling in use (refusal above) */
    double ceiling_v; /* suggested end of charge for reclaimed cells */
    double floor_v;   /* hard floor in use (refusal below) */
    double cutoff_v;  /* suggested lamp cut-off under load */
    double nominal_v;
} lw_cell_class;
extern const lw_cell_class lw_class_4v2, lw_class_4v35, lw_class_lfp;
const lw_cell_class *lw_cell_class_find(const char *name); /* NULL when there is none */

/* Share of the 25 degC capacity that can be drawn at a cell temperature: -20 degC 0.60, -10 0.75, 0 0.85,
 * 10 0.93, 25 and above 1 (defaults from memory). */
double lw_cell_capacity_share(double cell_c);
/* R(T) / R(25 degC) = exp(Ea/R (1/T - 1/298.15)), Ea = 25 kJ/mol (from memory, 20..40 usual). */
double lw_cell_resistance_share(double cell_c);

#endif
