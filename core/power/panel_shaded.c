/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One shaded cell in a string without bypass diodes: all cells carry the same current, so the shaded one limits
 * it and, pushed by the others, takes reverse voltage and heats. Each cell is the panel's diode curve divided by
 * the number of cells; the reverse voltage of a cell is held at 15 V (typical breakdown 10 to 20 V, from memory).
 */
#include "diode.h"
#include "lanewick/roots.h"

#include <math.h>

typedef struct string {
    lw_diode lit, shaded; /* one cell each */
    double others, v;
} string;

/* Voltage of a cell that carries a current: u falls with the current, bracketed between breakdown and open. */
static double cell_v(const lw_diode *d, double current)
{
    double low = -15.0, high = d->ideality_v * log1p((d->photo_a + fabs(current)) / d->saturation_a);
    for (int i = 0; i < 80; i++) {
        const double middle = 0.5 * (low + high);
        if (lw_diode_junction_a(d, middle) > current)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high) - current * d->series_ohm;
}

static double missing_v(double current, const void *payload)
{
    const string *s = payload;
    return s->others * cell_v(&s->lit, current) + cell_v(&s->shaded, current) - s->v;
}

bool lw_diode_shaded_cell_a(const lw_diode *d, double share, double v, double *a, lw_error *err)
{
    if (d->cells < 1)
        return lw_fail(err, LW_WRONG_INPUT, "cells",
                       "The number of cells in series must be known to shade one of them.");
    if (!lw_in_range(err, "share", share, 0.0, 1.0, ""))
        return false;
    const double n = d->cells;
    lw_diode cell = *d;
    cell.ideality_v /= n;
    cell.series_ohm /= n;
    cell.shunt_ohm /= n;
    string s = {.lit = cell, .shaded = cell, .others = n - 1.0, .v = v};
    s.shaded.photo_a *= share;
    const double most = d->photo_a;
    if (missing_v(0.0, &s) <= 0.0) {
        *a = 0.0; /* the string does not even reach this voltage */
        return true;
    }
    if (missing_v(most, &s) >= 0.0) {
        *a = most;
        return true;
    }
    return lw_root(missing_v, &s, 0.0, most, 1e-9, a, err);
}
