/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lanes engine: made ready for a place, fed with blocks of weather, run over the year twice.
 */
#include "drive.h"
#include "lanes.h"
#include "lanewick/hot.h"
#include "lanewick/nights.h"

#include <math.h>

size_t lw_engine_bytes(void)
{
    /* the engine, its plane hours and level hours, and for a while the sun year and the dark shares */
    return sizeof(lw_engine) + LW_HOURS * (sizeof(lw_plane_hour) + sizeof(lw_sun_hour) + sizeof(float)) +
           5 * LW_HOURS * sizeof(double) + 4096;
}

static void ready(lw_engine *engine)
{
    lw_model_prepare(&engine->system, &engine->model);
    lw_lane_model_prepare(&engine->model, &engine->lanes);
    double other_w[24];
    lw_load_other_w(&engine->system.load, other_w);
    for (int h = 0; h < 24; h++)
        engine->other_w[h] = (float)(other_w[h] + engine->system.load.standby_w + engine->system.charger.standby_w);
}

static bool fill_hours(lw_engine *engine, double lat_deg, double lon_deg, double utc_offset_h, lw_arena *arena,
                       lw_plane_hour *plane_hours, float *level, lw_error *err)
{
    lw_sun_hour *sun = lw_arena_take(arena, LW_HOURS, sizeof *sun, err);
    double *level_h, *on_h, *dark_h;
    if (!sun || !lw_sun_year(lat_deg, lon_deg, utc_offset_h, engine->system.sun_method, sun, err) ||
        !lw_drive_levels(&engine->system, lat_deg, lon_deg, utc_offset_h, 1, arena, &level_h, &on_h, &dark_h, err))
        return false;
    lw_plane_prepare(&engine->plane, sun, plane_hours);
    for (int h = 0; h < LW_HOURS; h++)
        level[h] = (float)level_h[h];
    return true;
}

lw_engine *lw_engine_prepare(const lw_system *system, double lat_deg, double lon_deg, double utc_offset_h,
                             lw_arena *arena, lw_error *err)
{
    if (!lw_system_check(system, err))
        return NULL;
    lw_engine *engine = lw_arena_take(arena, 1, sizeof *engine, err);
    lw_plane_hour *plane_hours = engine ? lw_arena_take(arena, LW_HOURS, sizeof *plane_hours, err) : NULL;
    float *level = plane_hours ? lw_arena_take(arena, LW_HOURS, sizeof *level, err) : NULL;
    if (!level)
        return NULL;
    const size_t kept = arena->used;
    engine->system = *system;
    engine->plane = lw_system_plane(system, lat_deg);
    engine->plane_hours = plane_hours;
    engine->level_h = level;
    lw_month_of_days(engine->month);
    const bool done = fill_hours(engine, lat_deg, lon_deg, utc_offset_h, arena, plane_hours, level, err);
    arena->used = kept;
    if (!done)
        return NULL;
    ready(engine);
    return engine;
}

lw_engine *lw_engine_variant(const lw_engine *engine, const lw_system *system, lw_arena *arena, lw_error *err)
{
    if (!lw_system_check(system, err))
        return NULL;
    lw_engine *variant = lw_arena_take(arena, 1, sizeof *variant, err);
    if (!variant)
        return NULL;
    *variant = *engine;
    variant->system = *system;
    ready(variant);
    return variant;
}

/* Light behind glass and dirt, cell temperature. */
static void drive_light(const lw_engine *engine, const lw_weather_block *weather, lw_drive_block *out)
{
    const lw_panel *panel = &engine->system.panel;
    double dust[LW_DAYS][LW_LANES];
    for (int l = 0; panel->dusty && l < LW_LANES; l++) {
        double rain[LW_DAYS], share[LW_DAYS];
        for (int d = 0; d < LW_DAYS; d++)
            rain[d] = weather->rain_mm[d][l];
        lw_dust_year(&panel->dust, rain, share);
        for (int d = 0; d < LW_DAYS; d++)
            dust[d][l] = share[d];
    }
    for (int h = 0; h < LW_HOURS; h++) {
        double on_plane[LW_LANES], absorbed[LW_LANES];
        lw_plane_lanes(&engine->plane, &engine->plane_hours[h], LW_LANES, weather->ghi_w_m2[h], weather->dhi_w_m2[h],
                       weather->dni_w_m2[h], on_plane, absorbed);
        for (int l = 0; l < LW_LANES; l++) {
            const double share = panel->clean_share * (panel->dusty ? dust[h / 24][l] : 1.0);
            out->light_w_m2[h][l] = (float)(absorbed[l] > 0.0 ? absorbed[l] * share : 0.0);
            out->cell_c[h][l] = (float)lw_cell_temperature_c(&engine->plane, weather->air_c[h][l], on_plane[l],
                                                             weather->wind_m_s[h][l]);
        }
    }
}

static void drive_pack(const lw_engine *engine, const lw_weather_block *weather, lw_drive_block *out)
{
    const double share = lw_box_hour_share(&engine->system.box);
    double pack_c[LW_LANES], sum[LW_LANES] = {0.0}, low[LW_LANES], high[LW_LANES];
    for (int l = 0; l < LW_LANES; l++) {
        pack_c[l] = weather->air_c[0][l];
        low[l] = 1e9;
        high[l] = -1e9;
    }
    /* A box forgets within days: begin with the last ten of the year. */
    for (int h = -240; h < LW_HOURS; h++) {
        const int at = h < 0 ? h + LW_HOURS : h;
        for (int l = 0; l < LW_LANES; l++) {
            const double target = lw_box_target_c(&engine->system, engine->model.array_w, weather->air_c[at][l],
                                                  weather->ghi_w_m2[at][l], (double)engine->level_h[at]);
            pack_c[l] += share * (target - pack_c[l]);
            out->pack_c[at][l] = (float)pack_c[l];
            low[l] = pack_c[l] < low[l] ? pack_c[l] : low[l];
            high[l] = pack_c[l] > high[l] ? pack_c[l] : high[l];
            sum[l] += h < 0 ? 0.0 : pack_c[l];
        }
    }
    for (int l = 0; l < LW_LANES; l++) {
        out->pack_low_c[l] = (float)low[l];
        out->pack_high_c[l] = (float)high[l];
        out->pack_mean_c[l] = (float)(sum[l] / LW_HOURS);
    }
    lw_lane_resistance(out);
}

void lw_engine_drive(const lw_engine *engine, const lw_weather_block *weather, lw_drive_block *out)
{
    drive_light(engine, weather, out);
    drive_pack(engine, weather, out);
}
