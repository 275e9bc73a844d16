/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ground of a plan: climate of the place, synthetic years, tilt, and the years behind the glass.
 */
#include "plan_work.h"

#include "lanewick/climate.h"
#include "lanewick/weather.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifdef _OPENMP
#include <omp.h>
#endif

enum { SCRATCH_BYTES = 6 << 20, SMALL_BYTES = 24 << 20 };

void lw_work_tell(lw_plan_work *work, double done, const char *what)
{
    if (done > work->done)
        work->done = done;
    if (work->request->progress)
        work->request->progress(work->request->payload, work->done, what);
}

static int threads_of(int wanted)
{
#ifdef _OPENMP
    const int most = wanted > 0 ? wanted : omp_get_max_threads();
    return most < LW_WORK_THREADS ? most : LW_WORK_THREADS;
#else
    (void)wanted;
    return 1;
#endif
}

static bool take_memory(lw_plan_work *work, lw_error *err)
{
    work->threads = threads_of(work->request->threads);
    const size_t drive_bytes = LW_WORK_BLOCKS * sizeof(lw_drive_block);
    work->arena = lw_arena_over(malloc(SMALL_BYTES), SMALL_BYTES);
    work->drive = malloc(drive_bytes);
    bool enough = work->arena.base && work->drive;
    for (int i = 0; i < work->threads; i++) {
        work->scratch[i] = lw_arena_over(malloc(SCRATCH_BYTES), SCRATCH_BYTES);
        enough = enough && work->scratch[i].base;
    }
    return enough || lw_fail(err, LW_STORAGE, "", "There is not enough memory for a plan (about %zu MB).",
                             (SMALL_BYTES + drive_bytes + (size_t)work->threads * SCRATCH_BYTES) >> 20);
}

void lw_work_end(lw_plan_work *work)
{
    free(work->arena.base);
    free(work->drive);
    for (int i = 0; i < LW_WORK_THREADS; i++)
        free(work->scratch[i].base);
    free(work->file_year);
}

static bool read_bytes(const char *path, char **bytes, size_t *length, lw_error *err)
{
    const char *field = "place.weather_file";
    FILE *file = fopen(path, "rb");
    if (!file)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s: %.200s could not be opened.", field, path);
    *bytes = malloc(LW_WEATHER_MAX_BYTES + 1);
    *length = *bytes ? fread(*bytes, 1, LW_WEATHER_MAX_BYTES + 1, file) : 0;
    const bool well = *bytes && ferror(file) == 0;
    (void)fclose(file);
    if (!well)
        return lw_fail(err, LW_STORAGE, field, "%s: %.200s could not be read.", field, path);
    return true;
}

/* A file of another place would quietly make a wrong plan. */
static bool same_place(const lw_place *place, const lw_weather_year *year, lw_error *err)
{
    const double east = fabs(remainder(place->lon_deg - year->lon_deg, 360.0));
    if (fabs(place->lat_deg - year->lat_deg) <= 1.0 && east <= 1.0)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "place.weather_file",
                   "place.weather_file is for %.2f, %.2f and the brief for %.2f, %.2f; they must lie within 1 degree.",
                   year->lat_deg, year->lon_deg, place->lat_deg, place->lon_deg);
}

/* Monthly means of the brief's hourly file. */
static bool climate_of_file(lw_plan_work *work, lw_climate *out, lw_error *err)
{
    const lw_place *place = &work->brief->place;
    char path[1024], *bytes = NULL;
    size_t length = 0;
    const char *folder = work->request->folder ? work->request->folder : ".";
    const bool absolute = place->weather_file[0] == '/';
    (void)snprintf(path, sizeof path, "%s%s%s", absolute ? "" : folder, absolute ? "" : "/", place->weather_file);
    work->file_year = malloc(sizeof *work->file_year);
    const bool read = work->file_year && read_bytes(path, &bytes, &length, err) &&
                      lw_weather_read(bytes, length, work->file_year, err);
    free(bytes);
    if (!read)
        return false;
    if (!same_place(place, work->file_year, err))
        return false;
    double ghi[12], mean[12], range[12], wind[12], rain[12];
    for (int m = 0; m < 12; m++) {
        const lw_weather_month month = lw_weather_mean(work->file_year, m + 1);
        ghi[m] = month.ghi_kwh_m2_day;
        mean[m] = month.air_c;
        range[m] = month.air_range_k;
        wind[m] = month.wind_m_s;
        rain[m] = month.rain_mm;
    }
    return lw_climate_from_means(place->lat_deg, place->lon_deg, place->elev_m, ghi, mean, range, wind,
                                 work->file_year->has_rain ? rain : NULL, out, err);
}

static const double *given(const double values[12])
{
    return isnan(values[0]) ? NULL : values;
}

static bool climate_of_means(const lw_place *place, lw_climate *out, lw_error *err)
{
    lw_error why = {0};
    if (lw_climate_from_means(place->lat_deg, place->lon_deg, place->elev_m, place->ghi_kwh_m2_day,
                              given(place->t_mean_c), given(place->t_range_c), given(place->wind_10m_ms),
                              given(place->rain_mm), out, &why))
        return true;
    char field[sizeof why.field + 16];
    (void)snprintf(field, sizeof field, "place.monthly.%s", why.field);
    return lw_fail(err, why.family, field, "place.monthly.%s", why.message);
}

static bool climate(lw_plan_work *work, lw_climate *out, lw_error *err)
{
    const lw_place *place = &work->brief->place;
    lw_climate_data data;
    if (!lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err))
        return false;
    if (!place->weather_file[0] && !place->monthly)
        return lw_climate_at(&data, place->lat_deg, place->lon_deg, place->elev_m, out, err);
    if (!(place->weather_file[0] ? climate_of_file(work, out, err) : climate_of_means(place, out, err)))
        return false;
    lw_climate_days_near(&data, 0.0, out);
    return true;
}

static void assume_place(lw_plan_work *work)
{
    lw_plan *plan = work->plan;
    lw_assumptions *assumed = &plan->brief.assumed;
    plan->coldest_c = work->brief->place.coldest_c;
    if (isnan(plan->coldest_c)) {
        plan->coldest_c = lw_plan_coldest_c(&plan->climate);
        lw_assume(assumed, "place.coldest_c", "8 K below the mean minimum of the coldest month", "%.1f degC",
                  plan->coldest_c);
    }
    if (isnan(work->brief->build.tilt_deg))
        lw_assume(assumed, "build.tilt_deg", "the tilt that makes the poorest month richest", "%.0f degrees",
                  plan->tilt_deg);
    if (isnan(work->brief->build.facing_deg))
        lw_assume(assumed, "build.facing_deg", "to the equator", "%s", plan->facing_deg < 90.0 ? "north" : "south");
}

/* The synthetic years of a block behind the glass, in threads; each thread its own weather. */
static bool drive(lw_plan_work *work, const lw_engine *engine, lw_error *err)
{
    bool enough = true;
#ifdef _OPENMP
#pragma omp parallel num_threads(work->threads)
#endif
    {
        lw_weather_block *weather = malloc(sizeof *weather);
        if (!weather) {
#ifdef _OPENMP
#pragma omp critical
#endif
            enough = false;
        }
#ifdef _OPENMP
#pragma omp barrier
#pragma omp for schedule(static)
#endif
        for (int b = 0; b < LW_WORK_BLOCKS; b++)
            if (enough) {
                lw_synth_block(work->synth, (uint32_t)(b * LW_LANES), weather);
                lw_engine_drive(engine, weather, &work->drive[b]);
            }
        free(weather);
    }
    return enough || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the weather of a plan.");
}

static bool set_tilt(lw_plan_work *work, lw_error *err)
{
    const lw_build *build = &work->brief->build;
    lw_plan *plan = work->plan;
    plan->facing_deg = isnan(build->facing_deg) ? (work->brief->place.lat_deg < 0.0 ? 0.0 : 180.0) : build->facing_deg;
    plan->tilt_deg = build->tilt_deg;
    if (!isnan(build->tilt_deg))
        return true;
    lw_weather_block *weather = malloc(sizeof *weather);
    if (!weather)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the weather of a plan.");
    lw_synth_block(work->synth, 0, weather);
    const bool done = lw_plan_tilt(work->brief, weather, plan->facing_deg, &work->arena, &plan->tilt_deg, err);
    free(weather);
    return done;
}

bool lw_work_engine(lw_plan_work *work, size_t kind, bool trimmed, const lw_design *design, lw_error *err)
{
    const lw_brief *brief = work->brief;
    const lw_worn fresh = {1.0, 1.0, 1.0};
    if (work->engine[kind][trimmed])
        return true;
    lw_system *system = lw_arena_take(&work->arena, 1, sizeof *system, err);
    lw_design with = *design;
    with.trimmed = trimmed;
    with.parallel = with.parallel > 0 ? with.parallel : 1;
    if (!system || !lw_plan_system(brief, &brief->want.lamp[kind], &with, &fresh, work->plan->tilt_deg,
                                   work->plan->facing_deg, system, err))
        return false;
    work->engine[kind][trimmed] = lw_engine_prepare(system, brief->place.lat_deg, brief->place.lon_deg,
                                                    brief->place.utc_offset_h, &work->arena, err);
    return work->engine[kind][trimmed] != NULL;
}

/* A design to begin with, whatever the box does. */
static bool any_design(lw_plan_work *work, lw_design *out, lw_error *err)
{
    const lw_box_life mild = {20.0, 20.0, 0.0, 0.0};
    lw_refusals refused = {0};
    for (size_t k = 0; k < work->brief->want.lamp_count; k++)
        if (lw_plan_designs(work->brief, &work->brief->want.lamp[k], work->plan->coldest_c, &mild, out, 1, &refused))
            return true;
    for (size_t i = 0; i < refused.count; i++)
        lw_refuse(&work->plan->refused, &refused.item[i]);
    if (refused.count > 0)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "shelf",
                   "The parts of the shelf do not go together: no charger with this voltage fits a panel, a number of "
                   "cells in series and a driver (series of chargers and drivers must overlap, the charger must bear "
                   "the panel's watts, and a schedule of levels needs a driver that dims).");
}

bool lw_work_begin(lw_plan_work *work, lw_error *err)
{
    lw_plan *plan = work->plan;
    const lw_synth_options options = {
        .seed = work->request->seed, .climate_uncertainty = 1.0, .day_spread_uncertainty = 1.0};
    if (!take_memory(work, err) || !lw_plan_switching(&plan->brief, &work->scratch[0], err) ||
        !climate(work, &plan->climate, err))
        return false;
    work->synth = lw_synth_prepare(&plan->climate, work->brief->place.utc_offset_h, &options, &work->arena, err);
    if (!work->synth || !set_tilt(work, err))
        return false;
    assume_place(work);
    lw_work_tell(work, 0.05, "weather");
    lw_design design;
    if (!any_design(work, &design, err) || plan->refused.count > 0)
        return plan->refused.count > 0;
    if (!lw_work_engine(work, 0, false, &design, err) || !drive(work, work->engine[0][0], err))
        return false;
    plan->box = lw_plan_box_life(work->drive, LW_WORK_BLOCKS);
    lw_work_tell(work, 0.25, "search");
    return true;
}
