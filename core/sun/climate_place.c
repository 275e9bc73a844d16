/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Climate of any position from the packed tables: clearness by sunshine, residuals of measured neighbours,
 * spread from cross-validation (data/climate/fit/fit_spread.py), days.
 */
#include "climate_inner.h"
#include "lanewick/extraterrestrial.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

bool lw_climate_place(double lat_deg, double lon_deg, double elev_m, lw_climate *out, lw_error *err)
{
    if (!lw_in_range(err, "lat_deg", lat_deg, -90.0, 90.0, "degrees") ||
        !lw_in_range(err, "lon_deg", lon_deg, -180.0, 360.0, "degrees"))
        return false;
    if (!isnan(elev_m) && !lw_in_range(err, "elev_m", elev_m, -430.0, 8850.0, "m"))
        return false;
    memset(out, 0, sizeof *out);
    out->lat_deg = lat_deg;
    out->lon_deg = lon_deg > 180.0 ? lon_deg - 360.0 : lon_deg;
    out->elev_m = elev_m;
    return true;
}

static double clamp(double x, double low, double high)
{
    return x < low ? low : (x > high ? high : x);
}

/* Measured: grows with cloud and low sun, and with the variance left by the neighbours (of which 0.6 is
 * believed). By judgement, beyond the reach of the tables: far from any normals station 5 % a 500 km, at most 10 %;
 * poleward of 55 degrees 0.6 % a degree. */
static double spread_pct(double lat_deg, int month, double clearness, double variance, double normals_km)
{
    const double cloud = clamp(0.65 - clearness, 0.0, 0.4);
    const double low_sun = clamp((0.75 - lw_noon_height(lat_deg, month)) / 0.4, 0.0, 1.2);
    const double base = 0.020 + 0.31 * cloud + 0.035 * low_sun;
    const double alone = 0.05 * clamp((normals_km - 100.0) / 500.0, 0.0, 2.0);
    const double polar = 0.006 * fmax(fabs(lat_deg) - 55.0, 0.0);
    return 100.0 * sqrt(base * base + 0.6 * variance + alone * alone + polar * polar);
}

static void say_basis(lw_climate *c, const lw_climate_normals *n, const lw_climate_residual *r)
{
    const char *remark = "";
    if (n->nearest_km > 200.0)
        remark = "; far from any station, wide spread";
    else if (fabs(c->lat_deg) > 58.0)
        remark = "; no measured radiation so near the pole, wide spread";
    else if (r->nearest_km > 1000.0)
        remark = "; sunshine formula alone";
    snprintf(c->basis, sizeof c->basis,
             "sunshine normals 1961-1990, nearest station %.0f km; measured radiation, nearest %.0f km%s",
             n->nearest_km, r->nearest_km, remark);
}

bool lw_climate_at_without(const lw_climate_data *data, double lat_deg, double lon_deg, double elev_m,
                           const lw_climate_skip *skip, lw_climate *out, lw_error *err)
{
    if (!lw_climate_place(lat_deg, lon_deg, elev_m, out, err))
        return false;
    double x[3];
    lw_unit_vector(lat_deg, lon_deg, x);
    lw_climate_normals n;
    lw_climate_normals_at(data, x, elev_m, &n);
    out->elev_m = n.elev_m;
    lw_climate_residual r;
    lw_climate_residual_at(data, x, n.elev_m, skip, &r);
    for (int m = 0; m < 12; m++) {
        const double h0 = lw_h0_month_kwh_m2(lat_deg, m + 1);
        const double kt = clamp(lw_clearness_by_sunshine(lat_deg, m, &n) * exp(r.log_clearness[m]), 0.10, 0.83);
        out->clearness[m] = h0 > 0.0 ? kt : 0.0;
        out->ghi_kwh_m2_day[m] = kt * h0;
        out->ghi_spread_pct[m] = h0 > 0.0 ? spread_pct(lat_deg, m, kt, r.variance, n.nearest_km) : 0.0;
        out->t_mean_c[m] = n.t_c[m];
        out->t_range_c[m] = n.range_k[m];
        out->wind_10m_ms[m] = n.wind_ms[m];
        out->rain_mm[m] = n.rain_mm[m];
        lw_climate_days(out, m, r.log_day_sd, r.day_variance);
    }
    say_basis(out, &n, &r);
    return true;
}

bool lw_climate_at(const lw_climate_data *data, double lat_deg, double lon_deg, double elev_m, lw_climate *out,
                   lw_error *err)
{
    return lw_climate_at_without(data, lat_deg, lon_deg, elev_m, NULL, out, err);
}
