/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a plan draws from the place before any lamp is sized: tilt of the panel, life in the box, coldest morning.
 */
#include "lanewick/plan.h"

#include <math.h>
#include <string.h>

static const int month_end[LW_MONTHS] = {31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

static int month_of(int day)
{
    int m = 0;
    while (day >= month_end[m])
        m++;
    return m;
}

/* Light of each month behind the glass, summed over the lanes. */
static void month_light(const lw_plane *plane, const lw_plane_hour *prepared, const lw_weather_block *weather,
                        double light[LW_MONTHS])
{
    memset(light, 0, LW_MONTHS * sizeof light[0]);
    for (int h = 0; h < LW_HOURS; h++) {
        double on_plane[LW_LANES], absorbed[LW_LANES];
        if (!prepared[h].up)
            continue;
        lw_plane_lanes(plane, &prepared[h], LW_LANES, weather->ghi_w_m2[h], weather->dhi_w_m2[h], weather->dni_w_m2[h],
                       on_plane, absorbed);
        const int m = month_of(h / 24);
        for (int i = 0; i < LW_LANES; i++)
            light[m] += fmax(0.0, absorbed[i]);
    }
}

bool lw_plan_tilt(const lw_brief *brief, const lw_weather_block *weather, double facing_deg, lw_arena *arena,
                  double *tilt_deg, lw_error *err)
{
    const size_t used = arena->used;
    const lw_place *place = &brief->place;
    lw_sun_hour *sun = lw_arena_take(arena, LW_HOURS, sizeof *sun, err);
    lw_plane_hour *prepared = lw_arena_take(arena, LW_HOURS, sizeof *prepared, err);
    double *dark = lw_arena_take(arena, LW_HOURS, sizeof *dark, err);
    if (!sun || !prepared || !dark ||
        !lw_sun_year(place->lat_deg, place->lon_deg, place->utc_offset_h, LW_SUN_SPENCER_DAILY, sun, err) ||
        !lw_dark_shares(place->lat_deg, place->lon_deg, place->utc_offset_h, LW_SUN_SPENCER_DAILY,
                        brief->want.dusk_sun_deg, 0, dark, err))
        return false;
    double dark_h[LW_MONTHS] = {0.0}, best = -1.0;
    for (int h = 0; h < LW_HOURS; h++)
        dark_h[month_of(h / 24)] += dark[h];
    for (double tilt = 10.0; tilt <= 60.0; tilt += 5.0) {
        lw_plane plane = lw_plane_default(place->lat_deg);
        plane.tilt_deg = tilt;
        plane.facing_deg = facing_deg;
        plane.albedo = place->albedo;
        memcpy(plane.horizon_deg, place->horizon_deg, sizeof plane.horizon_deg);
        lw_plane_prepare(&plane, sun, prepared);
        double light[LW_MONTHS], poorest = INFINITY, all = 0.0;
        month_light(&plane, prepared, weather, light);
        for (int m = 0; m < LW_MONTHS; m++) {
            poorest = fmin(poorest, dark_h[m] > 0.0 ? light[m] / dark_h[m] : INFINITY);
            all += light[m] / LW_HOURS;
        }
        poorest += 1e-6 * all; /* decides where a month has no sun at all */
        if (poorest > best * 1.001) {
            best = poorest;
            *tilt_deg = tilt;
        }
    }
    arena->used = used;
    return true;
}

double lw_plan_facing_deg(const lw_brief *brief)
{
    const double given = brief->build.facing_deg;
    return isnan(given) ? (brief->place.lat_deg < 0.0 ? 0.0 : 180.0) : given;
}

lw_box_life lw_plan_box_life(const lw_drive_block *drive, size_t blocks)
{
    lw_box_life life = {.coldest_c = INFINITY, .hottest_c = -INFINITY};
    double cold = 0.0, hot = 0.0;
    for (size_t b = 0; b < blocks; b++)
        for (int h = 0; h < LW_HOURS; h++)
            for (int i = 0; i < LW_LANES; i++) {
                if (drive[b].light_w_m2[h][i] < 10.0F)
                    continue;
                const double pack_c = (double)drive[b].pack_c[h][i];
                life.coldest_c = fmin(life.coldest_c, pack_c);
                life.hottest_c = fmax(life.hottest_c, pack_c);
                cold += pack_c < 0.0 ? 1.0 : 0.0;
                hot += pack_c > 45.0 ? 1.0 : 0.0;
            }
    life.cold_h = cold / (double)(blocks * LW_LANES);
    life.hot_h = hot / (double)(blocks * LW_LANES);
    return life;
}

double lw_plan_coldest_c(const lw_climate *climate)
{
    double coldest = INFINITY;
    for (int m = 0; m < LW_MONTHS; m++)
        coldest = fmin(coldest, climate->t_mean_c[m] - 0.5 * climate->t_range_c[m]);
    return coldest - 8.0;
}
