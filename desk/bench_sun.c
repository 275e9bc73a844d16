/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sun of a bench, day by day through synthetic years. See lanewick/desk_bench.h.
 */
#include "lanewick/desk_bench.h"

#include "brief_climate.h"

#include "lanewick/plane.h"
#include "lanewick/stats.h"
#include "lanewick/years.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double reaches_bench = 0.75, poor_share = 0.2;
static const int days_in[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
enum { MONTH_DAYS = 31 * LW_LANES };

typedef struct room {
    lw_weather_block weather;
    lw_sun_hour sun[LW_HOURS];
    lw_plane_hour prepared[LW_HOURS];
    double day[LW_DAYS][LW_LANES]; /* kWh/m2 behind the glass */
} room;

static void add_up(const lw_plane *plane, room *r)
{
    memset(r->day, 0, sizeof r->day);
    for (int h = 0; h < LW_HOURS; h++) {
        double on_plane[LW_LANES], absorbed[LW_LANES];
        if (!r->prepared[h].up)
            continue;
        lw_plane_lanes(plane, &r->prepared[h], LW_LANES, r->weather.ghi_w_m2[h], r->weather.dhi_w_m2[h],
                       r->weather.dni_w_m2[h], on_plane, absorbed);
        for (int i = 0; i < LW_LANES; i++)
            r->day[h / 24][i] += fmax(0.0, absorbed[i]) / 1000.0;
    }
}

static void months(const room *r, double panel_w, lw_bench_sun *out)
{
    int first = 0;
    for (int m = 0; m < 12; m++) {
        double all[MONTH_DAYS], sum = 0.0;
        size_t n = 0;
        for (int d = first; d < first + days_in[m]; d++)
            for (int i = 0; i < LW_LANES; i++) {
                all[n++] = r->day[d][i];
                sum += r->day[d][i];
            }
        first += days_in[m];
        lw_sort(all, n);
        out->kwh_m2_day[m] = sum / (double)n;
        /* rated watts give their number of watt-hours for each kWh/m2 */
        out->wh_day[m] = out->kwh_m2_day[m] * panel_w * reaches_bench;
        out->poor_wh[m] = lw_quantile_sorted(all, n, poor_share) * panel_w * reaches_bench;
    }
}

static bool compute(const lw_climate *climate, double panel_w, room *r, lw_arena *arena, lw_bench_sun *out,
                    lw_error *err)
{
    const double offset_h = round(climate->lon_deg / 15.0);
    const lw_synth_options options = {.seed = 1};
    const lw_plane plane = lw_plane_default(climate->lat_deg);
    const lw_synth *synth = lw_synth_prepare(climate, offset_h, &options, arena, err);
    if (!synth || !lw_sun_year(climate->lat_deg, climate->lon_deg, offset_h, LW_SUN_SPENCER_DAILY, r->sun, err))
        return false;
    lw_synth_block(synth, 0, &r->weather);
    lw_plane_prepare(&plane, r->sun, r->prepared);
    add_up(&plane, r);
    out->tilt_deg = plane.tilt_deg;
    out->facing_deg = plane.facing_deg;
    (void)snprintf(out->basis, sizeof out->basis, "%s", climate->basis);
    months(r, panel_w, out);
    return true;
}

bool lw_desk_bench_sun(const lw_place *place, const char *folder, double panel_w, lw_bench_sun *out, lw_error *err)
{
    lw_climate climate;
    lw_weather_year *file_year = NULL;
    *out = (lw_bench_sun){0};
    if (!lw_in_range(err, "latitude", place->lat_deg, -90.0, 90.0, "degree") ||
        !lw_in_range(err, "longitude", place->lon_deg, -180.0, 360.0, "degree") ||
        !lw_in_range(err, "panel", panel_w, 1.0, 2000.0, "W"))
        return false;
    const bool known = lw_brief_climate(place, folder, &file_year, &climate, err);
    free(file_year);
    if (!known)
        return false;
    room *r = malloc(sizeof *r);
    lw_arena arena = lw_arena_over(malloc(lw_synth_bytes()), lw_synth_bytes());
    const bool done = r && arena.base ? compute(&climate, panel_w, r, &arena, out, err)
                                      : lw_fail(err, LW_STORAGE, "", "There is not enough memory for the sun.");
    free(arena.base);
    free(r);
    return done;
}
