/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years of one system, shared out to the threads in blocks of eight. A year's number alone decides its
 * weather, so it does not matter which thread computes it.
 */
#include "lanewick/nights_desk.h"

#include <omp.h>
#include <stdlib.h>

/* The year may come from one of the stations in the tables: its own days must not be known. */
static const double own_station_km = 10.0;

bool lw_desk_climate_of(const lw_weather_year *year, lw_climate *climate, lw_error *err)
{
    lw_climate_data data;
    if (!lw_climate_of_year(year, year->lat_deg, year->lon_deg, year->elev_m, climate, err) ||
        !lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err))
        return false;
    lw_climate_days_near(&data, own_station_km, climate);
    return true;
}

typedef struct work {
    const lw_engine *engine;
    const lw_synth *synth;
    const lw_lane_parts *parts;
    uint32_t years;
    lw_nights_summary *summaries;
} work;

static bool run_blocks(const work *w, int threads, lw_error *err)
{
    const int blocks = (int)((w->years + LW_LANES - 1) / LW_LANES);
    bool done = true;
#pragma omp parallel num_threads(threads)
    {
        const size_t size = lw_nights_draws_bytes();
        lw_arena arena = lw_arena_over(malloc(size), size);
        lw_error mine = {0};
        bool well = arena.base != NULL;
        if (!well)
            (void)lw_fail(&mine, LW_STORAGE, "", "There is not enough memory for the synthetic years.");
#pragma omp for schedule(dynamic, 1)
        for (int b = 0; b < blocks; b++) {
            const uint32_t first = (uint32_t)b * LW_LANES;
            const uint32_t count = w->years - first < LW_LANES ? w->years - first : LW_LANES;
            well = well && lw_nights_draws(w->engine, w->synth, first, count, w->parts + first, &arena,
                                           w->summaries + first, &mine);
        }
#pragma omp critical
        if (!well && done) {
            done = false;
            *err = mine;
        }
        free(arena.base);
    }
    return done;
}

static bool prepare_and_run(const lw_night_draws *r, lw_arena *arena, lw_nights_summary *summaries, lw_dark_band *band,
                            lw_error *err)
{
    const lw_synth_options options = {.seed = r->seed,
                                      .exact_means = r->exact_means,
                                      .climate_uncertainty = r->exact_means ? 0.0 : 1.0,
                                      .day_spread_uncertainty = 1.0,
                                      .sun_method = (int)r->system->sun_method};
    lw_synth *synth = lw_synth_prepare(r->climate, r->utc_offset_h, &options, arena, err);
    lw_engine *engine =
        synth ? lw_engine_prepare(r->system, r->climate->lat_deg, r->climate->lon_deg, r->utc_offset_h, arena, err)
              : NULL;
    lw_lane_parts *parts = engine ? lw_arena_take(arena, r->years, sizeof *parts, err) : NULL;
    if (!parts)
        return false;
    for (uint32_t y = 0; y < r->years; y++)
        parts[y] = lw_parts_draw(r->system, r->seed, y);
    const work w = {engine, synth, parts, r->years, summaries};
    return run_blocks(&w, r->threads > 0 ? r->threads : omp_get_max_threads(), err) &&
           lw_dark_per_year(summaries, r->years, r->confidence, arena, band, err);
}

bool lw_desk_night_draws(const lw_night_draws *request, lw_nights_summary *summaries, lw_dark_band *band, lw_error *err)
{
    if (!lw_in_range(err, "years", request->years, 1.0, 20000.0, "") ||
        !lw_in_range(err, "confidence", request->confidence, 0.01, 0.999, "") ||
        !lw_in_range(err, "threads", request->threads, 0.0, 256.0, ""))
        return false;
    const size_t size = lw_synth_bytes() + lw_engine_bytes() + request->years * (sizeof(lw_lane_parts) + 16) + 65536;
    lw_arena arena = lw_arena_over(malloc(size), size);
    if (!arena.base)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the synthetic years.");
    const bool done = prepare_and_run(request, &arena, summaries, band, err);
    free(arena.base);
    return done;
}
