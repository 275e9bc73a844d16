/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nights of one system as a user asks for them: synthetic years in parallel, answers as JSON.
 */
#ifndef LANEWICK_NIGHTS_DESK_H
#define LANEWICK_NIGHTS_DESK_H

#include "lanewick/climate.h"
#include "lanewick/error.h"
#include "lanewick/nights.h"

#include <stdbool.h>
#include <stdint.h>

typedef struct lw_night_draws {
    const lw_system *system;
    const lw_climate *climate;
    double utc_offset_h;
    bool exact_means; /* every year has just these monthly means: they are those of one real year */
    uint32_t years;   /* 1..20000 */
    uint64_t seed;
    double confidence; /* two-sided, 0..1 */
    int threads;       /* 0: as many as the machine has */
} lw_night_draws;

/* summaries[years] is the caller's. The same bits whatever the number of threads. */
LW_MUST_CHECK bool lw_desk_night_draws(const lw_night_draws *request, lw_nights_summary *summaries, lw_dark_band *band,
                                       lw_error *err);

/* Climate of a weather year: its own twelve monthly means and position, nothing else. */
LW_MUST_CHECK bool lw_desk_climate_of(const lw_weather_year *year, lw_climate *climate, lw_error *err);

/* One JSON object; free() it. NULL when memory is out. */
LW_MUST_CHECK char *lw_nights_to_json(const lw_system *system, const lw_weather_year *year, const lw_nights *nights);
LW_MUST_CHECK char *lw_night_draws_to_json(const lw_night_draws *request, const lw_nights_summary *summaries,
                                           const lw_dark_band *band);
/* "MM-DD" of a day 0..364. */
void lw_day_text(int day, char out[6]);

#endif
