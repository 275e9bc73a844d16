/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The diode curve through short circuit, open circuit and one more point, when there is no more to go by:
 * ideality and shunt are given, the series resistance bends the curve down to the point. Where the curve without
 * series resistance lies below the point already, the ideality is lowered instead.
 */
#include "diode.h"
#include "lanewick/roots.h"

#include <math.h>

typedef struct point {
    double voc_v, isc_a, v, a, shunt_ohm, ideality_v;
} point;

static lw_diode with(const point *p, double ideality_v, double series_ohm)
{
    lw_diode d = {.ideality_v = ideality_v, .series_ohm = series_ohm, .shunt_ohm = p->shunt_ohm};
    const double at_short = expm1(p->isc_a * series_ohm / ideality_v), at_open = expm1(p->voc_v / ideality_v);
    d.saturation_a = (p->isc_a - (p->voc_v - p->isc_a * series_ohm) / p->shunt_ohm) / (at_open - at_short);
    d.photo_a = d.saturation_a * at_open + p->voc_v / p->shunt_ohm;
    return d;
}

/* Current over the diode at the point minus the point's own. */
static double above_by_series(double series_ohm, const void *payload)
{
    const point *p = payload;
    const lw_diode d = with(p, p->ideality_v, series_ohm);
    return lw_diode_junction_a(&d, p->v + p->a * series_ohm) - p->a;
}

static double above_by_ideality(double ideality_v, const void *payload)
{
    const point *p = payload;
    const lw_diode d = with(p, ideality_v, 0.0);
    return lw_diode_junction_a(&d, p->v) - p->a;
}

bool lw_diode_through_point(double voc_v, double isc_a, double point_v, double point_a, double ideality_v,
                            double shunt_ohm, lw_diode *out)
{
    const point p = {voc_v, isc_a, point_v, point_a, shunt_ohm, ideality_v};
    double series_ohm = 0.0;
    if (above_by_series(0.0, &p) >= 0.0) {
        const double most_ohm = 0.999999 * (voc_v - point_v) / point_a;
        if (!lw_root(above_by_series, &p, 0.0, most_ohm, 1e-12, &series_ohm, NULL))
            return false;
    } else if (!lw_root(above_by_ideality, &p, ideality_v / 6.0, ideality_v, 1e-12, &ideality_v, NULL)) {
        return false;
    }
    const lw_diode d = with(&p, ideality_v, series_ohm);
    if (!(d.saturation_a > 0.0) || !isfinite(d.photo_a))
        return false;
    out->photo_a = d.photo_a;
    out->saturation_a = d.saturation_a;
    out->ideality_v = d.ideality_v;
    out->series_ohm = d.series_ohm;
    out->shunt_ohm = d.shunt_ohm;
    return true;
}
