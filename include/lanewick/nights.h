/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nights: one lamp system through years of hourly weather. A night counts from noon to noon and is dark when
 * more than system.dark_limit of its wanted light is missing. docs/models/nights.md.
 *
 * Two engines compute the same model: the explicit one (double precision, one year, any step) and the lanes
 * (float, LW_LANES years or parts side by side, steps of an hour).
 *
 *     lw_engine *engine = lw_engine_prepare(&system, lat, lon, utc_offset_h, &arena, &err);
 *     lw_nights_draws(engine, synth, 0, 200, NULL, &arena, summaries, &err);     200 synthetic years
 */
#ifndef LANEWICK_NIGHTS_H
#define LANEWICK_NIGHTS_H

#include "lanewick/arena.h"
#include "lanewick/system.h"
#include "lanewick/weather.h"
#include "lanewick/years.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* One explicit year. Night d runs from the noon of day d to the next noon; the last wraps to 1 January. */
typedef struct lw_nights {
    int dark_nights, by_month[LW_MONTHS];
    bool dark[LW_DAYS];
    double wanted_wh[LW_DAYS], missing_wh[LW_DAYS]; /* at the pack, by night */
    double wanted_h[LW_DAYS], missing_h[LW_DAYS];   /* hours of light; missing: share of each hour's light not given */
    double lowest_share[LW_DAYS];                   /* of charge in the night */
    double unserved_share;                          /* missing / wanted over the year */
    double lowest_charge_share;                     /* of the year */
    double other_missing_wh;                        /* other loads and standby that could not be fed */
    double dimmed_wh;                               /* light saved by dimming, not counted as missing */
    double panel_wh[LW_MONTHS];                     /* given to the pack side; limited by the end of charge */
    double panel_ah[LW_MONTHS];                     /* packs of cells; 0 for a bucket */
    double load_wh[LW_MONTHS];                      /* light, standby and other loads served */
    double spilled_wh[LW_MONTHS];                   /* could have been made, found no room */
    double panel_year_wh, panel_year_ah;
    double cold_h, hot_h; /* hours in which the panel could charge but the pack was below or above its limits */
    double pack_low_c, pack_high_c, pack_mean_c;
    double mean_charge_share;
    double full_cycles; /* charge taken out / capacity, in the year */
    double mean_depth;  /* of a day's swing, share of capacity */
} lw_nights;

/* The store starts as battery.start_share on 1 January; the year runs twice and the second run counts. About 3 MB of
 * arena, given back. */
LW_MUST_CHECK bool lw_nights_explicit(const lw_system *system, const lw_weather_year *year, lw_arena *arena,
                                      lw_nights *out, lw_error *err);

/* ---- lanes ---- */

/* How one lamp's parts differ from the system as stated; 1 = as stated. */
typedef struct lw_lane_parts {
    double panel_factor, capacity_factor, resistance_factor, load_factor;
} lw_lane_parts;
/* Parts of draw number `draw`: lognormal with the system's tolerances and the dusk switch's scatter; NULL-free,
 * the same bits for the same seed and draw. */
lw_lane_parts lw_parts_draw(const lw_system *system, uint64_t seed, uint32_t draw);
/* With so many times the panel, the pack (cells side by side: less resistance) and the load. */
lw_lane_parts lw_parts_scaled(const lw_lane_parts *parts, double panel, double pack, double load);

typedef struct lw_nights_summary {
    uint16_t dark_nights;
    uint8_t by_month[LW_MONTHS];
    float unserved_share, lowest_charge_share;
    float wanted_wh, load_wh, panel_wh, spilled_wh; /* of the year */
    float cold_h, hot_h;
    float pack_low_c, pack_high_c, pack_mean_c;
    float mean_charge_share, full_cycles;
    float panel_month_wh[LW_MONTHS], load_month_wh[LW_MONTHS], spilled_month_wh[LW_MONTHS];
} lw_nights_summary;

/* A system made ready for a place: sun, plane, load, tables. Only read afterwards; threads may share it. */
typedef struct lw_engine lw_engine;
size_t lw_engine_bytes(void);
LW_MUST_CHECK lw_engine *lw_engine_prepare(const lw_system *system, double lat_deg, double lon_deg, double utc_offset_h,
                                           lw_arena *arena, lw_error *err);
/* The same place, plane and load hours with another panel, charger, battery: cheap, for searching sizes. The
 * system must agree with the engine's in plane, sun method, dust, box and schedule; head_w, driver and standby may
 * differ. It points into the first engine, which must outlive it. */
LW_MUST_CHECK lw_engine *lw_engine_variant(const lw_engine *engine, const lw_system *system, lw_arena *arena,
                                           lw_error *err);

/* LW_LANES years after plane, glass and dirt: shared by all variants of an engine. */
typedef struct lw_drive_block {
    float light_w_m2[LW_HOURS][LW_LANES]; /* effective, after glass and dirt */
    float cell_c[LW_HOURS][LW_LANES];
    float pack_c[LW_HOURS][LW_LANES];
    float resistance[LW_HOURS][LW_LANES]; /* of cells at pack_c, as a share of that at 25 degC */
    float pack_low_c[LW_LANES], pack_high_c[LW_LANES], pack_mean_c[LW_LANES];
} lw_drive_block;
void lw_engine_drive(const lw_engine *engine, const lw_weather_block *weather, lw_drive_block *out);
/* Working space of a run, the caller's; one for each thread. Nothing in it need be kept. */
typedef struct lw_run_log {
    float noon[LW_DAYS][LW_LANES]; /* state at each noon */
    float missing[LW_DAYS][LW_LANES], wanted[LW_DAYS][LW_LANES], lowest[LW_DAYS][LW_LANES];
    float panel[LW_DAYS][LW_LANES], load[LW_DAYS][LW_LANES], spilled[LW_DAYS][LW_LANES];
    float taken[LW_DAYS][LW_LANES], charge[LW_DAYS][LW_LANES];
    float cold[LW_DAYS][LW_LANES], hot[LW_DAYS][LW_LANES];
} lw_run_log;
/* parts: LW_LANES of them or NULL. The year runs twice and the second run counts (it ends early where its state
 * meets that of the first). */
void lw_engine_run(const lw_engine *engine, const lw_drive_block *drive, const lw_lane_parts *parts, lw_run_log *log,
                   lw_nights_summary out[LW_LANES]);

/* Synthetic years first..first+count-1, draw i with parts[i] (NULL: as stated); out[count]. A caller that has
 * threads gives each its own range and arena (lw_nights_draws_bytes): the results are the same bits. */
size_t lw_nights_draws_bytes(void);
LW_MUST_CHECK bool lw_nights_draws(const lw_engine *engine, const lw_synth *synth, uint32_t first, uint32_t count,
                                   const lw_lane_parts *parts, lw_arena *arena, lw_nights_summary *out, lw_error *err);

/* Mean and two-sided band of the dark nights a year over the draws; confidence 0..1. */
typedef struct lw_dark_band {
    double mean, low, high;
} lw_dark_band;
LW_MUST_CHECK bool lw_dark_per_year(const lw_nights_summary *draws, size_t count, double confidence, lw_arena *arena,
                                    lw_dark_band *out, lw_error *err);

#endif
