/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Voltage classes: finding one, reading its curve, and what temperature does to capacity and resistance.
 */
#include "lanewick/cell_class.h"

#include "lanewick/stats.h"
#include "lanewick/units.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

const lw_cell_class *lw_cell_class_find(const char *name)
{
    static const lw_cell_class *const classes[] = {&lw_class_4v2, &lw_class_4v35, &lw_class_lfp};
    for (size_t i = 0; i < sizeof classes / sizeof classes[0]; i++)
        if (strcmp(classes[i]->name, name) == 0)
            return classes[i];
    return NULL;
}

double lw_ocv_at(const lw_ocv *ocv, double charge)
{
    return lw_interpolate(ocv->charge, ocv->v, (size_t)ocv->n, charge);
}

double lw_ocv_charge(const lw_ocv *ocv, double v)
{
    return lw_interpolate(ocv->v, ocv->charge, (size_t)ocv->n, v);
}

double lw_ocv_mean_v(const lw_ocv *ocv, double from, double to)
{
    if (!(to > from))
        return lw_ocv_at(ocv, from);
    double area = 0.0, at = from, v = lw_ocv_at(ocv, from);
    for (int i = 0; i <= ocv->n; i++) {
        const double next = i < ocv->n ? fmin(fmax(ocv->charge[i], from), to) : to;
        const double next_v = lw_ocv_at(ocv, next);
        area += 0.5 * (v + next_v) * (next - at);
        at = next;
        v = next_v;
    }
    return area / (to - from);
}

double lw_cell_capacity_share(double cell_c)
{
    static const double at_c[] = {-20.0, -10.0, 0.0, 10.0, 25.0};
    static const double share[] = {0.60, 0.75, 0.85, 0.93, 1.00};
    return lw_interpolate(at_c, share, 5, cell_c);
}

double lw_cell_resistance_share(double cell_c)
{
    const double activation_j_mol = 25e3;
    const double t = fmax(cell_c, -60.0) + lw_zero_celsius_k;
    return exp(activation_j_mol / 8.314 * (1.0 / t - 1.0 / 298.15));
}
