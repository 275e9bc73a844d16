/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Many synthetic years of one system, LW_LANES at a time, and the band of their dark nights.
 */
#include "lanewick/nights.h"
#include "lanewick/rng.h"
#include "lanewick/stats.h"

#include <math.h>

lw_lane_parts lw_parts_draw(const lw_system *system, uint64_t seed, uint32_t draw)
{
    const lw_tolerances *t = &system->tolerances;
    lw_rng rng = lw_rng_stream(seed, draw, 0x70617274); /* a stream of its own, apart from the weather's */
    const double panel = lw_rng_normal(&rng), capacity = lw_rng_normal(&rng), resistance = lw_rng_normal(&rng);
    const double load = lw_rng_normal(&rng), dusk = lw_rng_normal(&rng);
    /* The switch moves both ends of a night of about twelve hours. */
    const double longer = 1.0 + 2.0 * system->load.dusk_scatter_min / 60.0 * dusk / 12.0;
    return (lw_lane_parts){.panel_factor = exp(0.01 * t->panel_pct * panel),
                           .capacity_factor = exp(0.01 * t->capacity_pct * capacity),
                           .resistance_factor = exp(0.01 * t->resistance_pct * resistance),
                           .load_factor = exp(0.01 * t->load_pct * load) * (longer > 0.1 ? longer : 0.1)};
}

lw_lane_parts lw_parts_scaled(const lw_lane_parts *parts, double panel, double pack, double load)
{
    return (lw_lane_parts){.panel_factor = parts->panel_factor * panel,
                           .capacity_factor = parts->capacity_factor * pack,
                           .resistance_factor = parts->resistance_factor / pack,
                           .load_factor = parts->load_factor * load};
}

size_t lw_nights_draws_bytes(void)
{
    return sizeof(lw_weather_block) + sizeof(lw_drive_block) + sizeof(lw_run_log) + 1024;
}

bool lw_nights_draws(const lw_engine *engine, const lw_synth *synth, uint32_t first, uint32_t count,
                     const lw_lane_parts *parts, lw_arena *arena, lw_nights_summary *out, lw_error *err)
{
    const size_t used = arena->used;
    lw_weather_block *weather = lw_arena_take(arena, 1, sizeof *weather, err);
    lw_drive_block *drive = weather ? lw_arena_take(arena, 1, sizeof *drive, err) : NULL;
    lw_run_log *log = drive ? lw_arena_take(arena, 1, sizeof *log, err) : NULL;
    for (uint32_t done = 0; log && done < count; done += LW_LANES) {
        lw_lane_parts mine[LW_LANES];
        lw_nights_summary results[LW_LANES];
        for (uint32_t l = 0; l < LW_LANES; l++)
            mine[l] = parts && done + l < count ? parts[done + l] : (lw_lane_parts){1.0, 1.0, 1.0, 1.0};
        lw_synth_block(synth, first + done, weather);
        lw_engine_drive(engine, weather, drive);
        lw_engine_run(engine, drive, mine, log, results);
        for (uint32_t l = 0; l < LW_LANES && done + l < count; l++)
            out[done + l] = results[l];
    }
    arena->used = used;
    return log != NULL;
}

bool lw_dark_per_year(const lw_nights_summary *draws, size_t count, double confidence, lw_arena *arena,
                      lw_dark_band *out, lw_error *err)
{
    if (count < 1)
        return lw_fail(err, LW_WRONG_INPUT, "years", "There are no years to count dark nights in.");
    if (!lw_in_range(err, "confidence", confidence, 0.0, 0.999999, ""))
        return false;
    const size_t used = arena->used;
    double *nights = lw_arena_take(arena, count, sizeof *nights, err);
    if (!nights)
        return false;
    for (size_t i = 0; i < count; i++)
        nights[i] = draws[i].dark_nights;
    lw_sort(nights, count);
    out->mean = lw_mean(nights, count);
    out->low = lw_quantile_sorted(nights, count, 0.5 - 0.5 * confidence);
    out->high = lw_quantile_sorted(nights, count, 0.5 + 0.5 * confidence);
    arena->used = used;
    return true;
}
