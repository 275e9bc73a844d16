/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Open voltage curves and what a test must know of a voltage class.
 */
#include "curve_table.h"

#include <string.h>

enum { LAST = LW_CLASS_POINTS - 1 };

/* Slope of the last tenth of the curve [V per full charge]: the very last points of a measured curve still hold
 * relaxation and would be too steep. */
static double top_slope(const lw_cell_curve *curve)
{
    int k = LAST;
    while (k > 0 && curve->points[k].charge > 0.9)
        k--;
    return (curve->points[LAST].v - curve->points[k].v) / (curve->points[LAST].charge - curve->points[k].charge);
}

double lw_curve_charge(const lw_cell_curve *curve, double open_v)
{
    if (open_v <= curve->points[0].v)
        return 0.0;
    if (open_v >= curve->points[LAST].v)
        return 1.0 + (open_v - curve->points[LAST].v) / top_slope(curve);
    int k = 1;
    while (curve->points[k].v < open_v)
        k++;
    const double low = curve->points[k - 1].v, high = curve->points[k].v;
    return curve->points[k - 1].charge +
           (curve->points[k].charge - curve->points[k - 1].charge) * (open_v - low) / (high - low);
}

double lw_curve_v(const lw_cell_curve *curve, double charge)
{
    if (charge <= 0.0)
        return curve->points[0].v;
    if (charge >= 1.0)
        return curve->points[LAST].v + (charge - 1.0) * top_slope(curve);
    int k = 1;
    while (curve->points[k].charge < charge)
        k++;
    const double low = curve->points[k - 1].charge, high = curve->points[k].charge;
    return curve->points[k - 1].v + (curve->points[k].v - curve->points[k - 1].v) * (charge - low) / (high - low);
}

/* Voltages: data sheets of 18650 cells and LFP cells; 3.0 V is a common end of discharge. High-voltage cells are
 * charged to 4.20 V here like all others, so their capacity is counted from there (common practice). */
static const lw_test_class classes[] = {
    {.name = "4v2",
     .full_v = 4.20,
     .end_v = 3.0,
     .floor_v = 2.5,
     .curves = {&lw_curve_nmc, &lw_curve_lco, &lw_curve_ni},
     .curve_count = 3},
    {.name = "4v35", .full_v = 4.20, .end_v = 3.0, .floor_v = 2.5, .curves = {&lw_curve_lco}, .curve_count = 1},
    {.name = "lfp",
     .full_v = 3.65,
     .end_v = 2.5,
     .floor_v = 2.0,
     .flat_low_v = 3.20,
     .flat_high_v = 3.345,
     .curves = {&lw_curve_lfp},
     .curve_count = 1},
};

const lw_test_class *lw_test_class_find(const char *name)
{
    for (size_t i = 0; i < sizeof classes / sizeof classes[0]; i++)
        if (strcmp(classes[i].name, name) == 0)
            return &classes[i];
    return NULL;
}
