/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The weather of an explicit year as one system meets it.
 */
#ifndef LANEWICK_CORE_POWER_DRIVE_H
#define LANEWICK_CORE_POWER_DRIVE_H

#include "lanewick/arena.h"
#include "lanewick/weather.h"
#include "model.h"

typedef struct lw_drive {
    double light_w_m2[LW_HOURS]; /* behind glass and dirt */
    double cell_c[LW_HOURS], pack_c[LW_HOURS];
    double other_w[24];
    double *level_h, *on_h, *dark_h; /* one for each step: hours x level, hours with light, hours of dark */
} lw_drive;
LW_MUST_CHECK bool lw_drive_prepare(const lw_model *model, const lw_weather_year *year, lw_arena *arena, lw_drive *out,
                                    lw_error *err);

/* Level hours, hours with light and dark hours of every step at a place; arrays of 8760 x steps. */
LW_MUST_CHECK bool lw_drive_levels(const lw_system *system, double lat_deg, double lon_deg, double utc_offset_h,
                                   int steps, lw_arena *arena, double **level_h, double **on_h, double **dark_h,
                                   lw_error *err);

/* Month 0..11 of each day. */
void lw_month_of_days(int month[LW_DAYS]);

/* The plane at a latitude: faces the equator when the system says so. */
lw_plane lw_system_plane(const lw_system *system, double lat_deg);

#endif
