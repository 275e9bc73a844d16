/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ground of a plan: climate of the place, synthetic years, tilt, and the years behind the glass.
 */
#include "brief_climate.h"
#include "plan_work.h"

#include "lanewick/climate.h"

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
        work->log[i] = malloc(sizeof *work->log[i]);
        enough = enough && work->scratch[i].base && work->log[i];
    }
    return enough ||
           lw_fail(err, LW_STORAGE, "", "There is not enough memory for a plan (about %zu MB).",
                   (SMALL_BYTES + drive_bytes + (size_t)work->threads * (SCRATCH_BYTES + sizeof(lw_run_log))) >> 20);
}

void lw_work_end(lw_plan_work *work)
{
    free(work->arena.base);
    free(work->drive);
    for (int i = 0; i < LW_WORK_THREADS; i++) {
        free(work->scratch[i].base);
        free(work->log[i]);
    }
    free(work->file_year);
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
    plan->facing_deg = lw_plan_facing_deg(work->brief);
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

/* Whether a driver lights the head from some pack of the shelf; else why not. *tried: whether any pack goes with it. */
static bool lights(const lw_shelf *shelf, size_t driver, bool *tried, lw_error *why)
{
    for (size_t i = 0; i < shelf->charger_count; i++)
        for (int series = shelf->charger[i].series_min; series <= shelf->charger[i].series_max; series++)
            for (size_t c = 0; c < shelf->cell_count; c++) {
                const bool lfp = shelf->cell[c].voltage_class == LW_SHELF_LFP;
                if (series < shelf->driver[driver].series_min || series > shelf->driver[driver].series_max)
                    continue;
                *tried = true;
                if (lw_driver_lights(shelf, (int)driver, series, lfp, why))
                    return true;
            }
    return false;
}

/* Whether no driver that goes with a pack of the shelf lights the head. */
static bool no_light(const lw_shelf *shelf, lw_error *why)
{
    bool tried = false;
    for (size_t d = 0; d < shelf->driver_count; d++)
        if (lights(shelf, d, &tried, why))
            return false;
    return tried;
}

/* Names the drivers that were passed over, however cheap they are. */
static void tell_dark_drivers(const lw_shelf *shelf, lw_assumptions *assumed)
{
    for (size_t d = 0; d < shelf->driver_count; d++) {
        bool tried = false;
        char key[40];
        (void)snprintf(key, sizeof key, "shelf.drivers[%zu]", d + 1);
        if (!lights(shelf, d, &tried, NULL) && tried)
            lw_assume(assumed, key, "not used: no pack of this shelf lights a white LED through it", "%.39s",
                      shelf->driver[d].name);
    }
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
    lw_error dark = {0};
    if (no_light(&work->brief->shelf, &dark)) {
        *err = dark;
        return false;
    }
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
        !lw_brief_climate(&work->brief->place, work->request->folder, &work->file_year, &plan->climate, err))
        return false;
    work->synth = lw_synth_prepare(&plan->climate, work->brief->place.utc_offset_h, &options, &work->arena, err);
    if (!work->synth || !set_tilt(work, err))
        return false;
    assume_place(work);
    lw_work_tell(work, 0.05, "weather");
    lw_design design;
    if (!any_design(work, &design, err) || plan->refused.count > 0)
        return plan->refused.count > 0;
    tell_dark_drivers(&work->brief->shelf, &plan->brief.assumed);
    if (!lw_work_engine(work, 0, false, &design, err) || !drive(work, work->engine[0][0], err))
        return false;
    plan->box = lw_plan_box_life(work->drive, LW_WORK_BLOCKS);
    lw_work_tell(work, 0.25, "search");
    return true;
}
