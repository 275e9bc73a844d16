/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head measured by hand: lux readings at a few angles give peak and power of I = peak cos^m. Least squares; for each
 * power the best peak is a ratio of sums, so one dimension is searched (golden section, Kiefer 1953).
 */
#include "lanewick/led.h"
#include "lanewick/light.h"
#include "lanewick/units.h"

#include <math.h>

typedef struct readings {
    const double *angle_deg, *lux_lx;
    size_t count;
    double square_m2;
} readings;

/* Best peak for this power; the sum of squares left over. */
static double best_peak(const readings *r, double power, double *left)
{
    double si = 0.0, ss = 0.0, ii = 0.0;
    for (size_t k = 0; k < r->count; k++) {
        const double shape = pow(cos(r->angle_deg[k] * lw_radian_per_degree), power);
        const double cd = r->lux_lx[k] * r->square_m2;
        si += shape * cd;
        ss += shape * shape;
        ii += cd * cd;
    }
    const double peak = si / ss;
    *left = fmax(0.0, ii - peak * si);
    return peak;
}

static double search_power(const readings *r)
{
    const double golden = 0.6180339887498949;
    double low = 0.0, high = 60.0, left_a, left_b;
    double a = high - golden * (high - low), b = low + golden * (high - low);
    (void)best_peak(r, a, &left_a);
    (void)best_peak(r, b, &left_b);
    for (int i = 0; i < 80; i++) {
        if (left_a < left_b) {
            high = b;
            b = a;
            left_b = left_a;
            a = high - golden * (high - low);
            (void)best_peak(r, a, &left_a);
        } else {
            low = a;
            a = b;
            left_a = left_b;
            b = low + golden * (high - low);
            (void)best_peak(r, b, &left_b);
        }
    }
    return 0.5 * (low + high);
}

/* Curvature of the sum of squares gives the spread of peak and power: covariance = s^2 (J'J)^-1. */
static void spread(const readings *r, double meter_share, double left, lw_beam_fit *out)
{
    double pp = 0.0, pm = 0.0, mm = 0.0, meter = 0.0;
    for (size_t k = 0; k < r->count; k++) {
        const double c = cos(r->angle_deg[k] * lw_radian_per_degree), shape = pow(c, out->cos_power);
        const double dm = c > 0.0 ? out->peak_cd * shape * log(c) : 0.0;
        pp += shape * shape;
        pm += shape * dm;
        mm += dm * dm;
        meter += pow(meter_share * r->lux_lx[k] * r->square_m2, 2.0) / (double)r->count;
    }
    const double scatter = r->count > 2 ? left / (double)(r->count - 2) : 0.0;
    const double variance = fmax(scatter, meter), det = pp * mm - pm * pm;
    const double peak_var = variance * mm / det, power_var = variance * pp / det, both = -variance * pm / det;
    /* flux = 2 pi peak/(m + 1): first-order */
    const double by_peak = 2.0 * lw_pi / (out->cos_power + 1.0), by_power = -out->flux_lm / (out->cos_power + 1.0);
    const double flux_var =
        by_peak * by_peak * peak_var + by_power * by_power * power_var + 2.0 * by_peak * by_power * both;
    /* the meter's own scale error moves all readings alike and is not in the scatter */
    out->flux_sd_lm = sqrt(fmax(0.0, flux_var) + pow(meter_share * out->flux_lm, 2.0));
    out->cos_power_sd = sqrt(power_var);
}

static const double most_misfit = 0.4; /* of the peak, rms: another lamp than this shape (common practice) */

/* Readings that no such lamp gives (lux that rises with the angle): the one furthest from the curve is named. */
static bool surer_than_nothing(const readings *r, const lw_beam_fit *fit, lw_error *err)
{
    size_t worst = 0;
    double most = -1.0, fitted = 0.0;
    if (fit->flux_sd_lm <= fit->flux_lm && fit->misfit <= most_misfit)
        return true;
    for (size_t k = 0; k < r->count; k++) {
        const double lux =
            fit->peak_cd * pow(cos(r->angle_deg[k] * lw_radian_per_degree), fit->cos_power) / r->square_m2;
        if (fabs(r->lux_lx[k] - lux) <= most)
            continue;
        most = fabs(r->lux_lx[k] - lux);
        fitted = lux;
        worst = k;
    }
    return lw_fail(
        err, LW_NOT_COMPUTABLE, "lux_lx",
        "The readings give %.0f lm, give or take %.0f lm: too unsure to use. Lux falls with the angle from "
        "straight below; at %g degree it is %.3g lx where the curve has %.3g lx. Measure there again, in the "
        "dark, the meter facing the head at the same distance; if it stays so, take more angles and \"shape\": "
        "\"as_read\" of a head document.",
        fit->flux_lm, fit->flux_sd_lm, r->angle_deg[worst], r->lux_lx[worst], fitted);
}

bool lw_beam_fit_cosine(const double *angle_deg, const double *lux_lx, size_t count, double distance_m,
                        double meter_share, lw_beam_fit *out, lw_error *err)
{
    if (count < 3)
        return lw_fail(err, LW_WRONG_INPUT, "angle_deg", "angle_deg has %zu values; a fit needs at least 3.", count);
    const readings r = {angle_deg, lux_lx, count, distance_m * distance_m};
    double left = 0.0;
    out->cos_power = search_power(&r);
    out->peak_cd = best_peak(&r, out->cos_power, &left);
    if (!(out->peak_cd > 0.0))
        return lw_fail(err, LW_NOT_COMPUTABLE, "lux_lx", "The readings show no light.");
    if (out->cos_power > 59.0)
        return lw_fail(err, LW_NOT_COMPUTABLE, "lux_lx",
                       "The light falls too fast with the angle for this fit; take readings closer to the axis.");
    out->flux_lm = lw_cosine_flux_lm(out->peak_cd, out->cos_power);
    out->misfit = sqrt(left / (double)count) / out->peak_cd;
    spread(&r, meter_share, left, out);
    return surer_than_nothing(&r, out, err);
}
