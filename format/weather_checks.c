/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A weather year as a whole: single missing values filled, then what must be true of any real year: radiation
 * in the unit it should have, values in their ranges, no sunshine at night.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/sun.h"
#include "lanewick/utc.h"
#include "weather_inside.h"

#include <math.h>
#include <stdio.h>

enum { LONGEST_GAP = 3 };

static void when(int hour, char text[48])
{
    const int month = lw_month_of_day(hour / 24);
    (void)snprintf(text, 48, "month %d, day %d, hour %d", month, hour / 24 - lw_first_day_of_month(month) + 1,
                   hour % 24 + 1);
}

/* Linear between the neighbours, the year closed to a ring. */
static bool fill_series(lw_weather_year *year, int series, lw_error *err)
{
    double *x = lw_weather_series(year, series);
    for (int i = 0; i < LW_HOURS; i++) {
        if (!isnan(x[i]))
            continue;
        int length = 1;
        while (length <= LONGEST_GAP && isnan(x[(i + length) % LW_HOURS]))
            length++;
        const double before = x[(i + LW_HOURS - 1) % LW_HOURS], after = x[(i + length) % LW_HOURS];
        year->filled += length;
        if (length > LONGEST_GAP || isnan(before) || year->filled > LW_WEATHER_MAX_FILLED) {
            char at[48];
            when(i, at);
            return lw_fail(err, LW_WRONG_INPUT, lw_weather_series_name[series],
                           "%s has too many missing values, from %s on; at most %d in a row and %d in all are filled.",
                           lw_weather_series_name[series], at, LONGEST_GAP, LW_WEATHER_MAX_FILLED);
        }
        for (int k = 0; k < length; k++)
            x[(i + k) % LW_HOURS] = before + (after - before) * (k + 1) / (length + 1);
    }
    return true;
}

bool lw_weather_fill(lw_weather_year *year, lw_error *err)
{
    for (int k = 0; k < LW_SERIES; k++)
        if (!fill_series(year, k, err))
            return false;
    return true;
}

static double total(const double *x)
{
    double sum = 0.0;
    for (int i = 0; i < LW_HOURS; i++)
        sum += x[i];
    return sum;
}

/* A year's global radiation is 20 to 75 % of the extraterrestrial; other units lie far outside. */
static bool right_unit(const lw_weather_year *year, lw_error *err)
{
    double above_air = 0.0;
    for (int month = 1; month <= 12; month++)
        above_air += lw_h0_month_kwh_m2(year->lat_deg, month) / 12.0;
    const double mean = total(year->ghi_w_m2) / 1000.0 / LW_DAYS, ratio = mean / above_air;
    if (ratio >= 0.05 && ratio <= 0.95)
        return true;
    static const struct {
        double below;
        const char *guess;
    } units[] = {{0.0001, "the file seems to hold no radiation"},
                 {0.001, "that is near 1,000 times too little, as if it were in kW/m2"},
                 {0.004, "that looks like MJ/m2 in the hour"},
                 {0.95, "that is far too little"},
                 {4.0, "that looks like kJ/m2 in the hour"},
                 {200.0, "that is far too much"},
                 {1000.0, "that is near 1,000 times too much"},
                 {HUGE_VAL, "that is far too much"}};
    size_t i = 0;
    while (ratio >= units[i].below && i + 1 < sizeof units / sizeof units[0])
        i++;
    return lw_fail(err, LW_WRONG_INPUT, "ghi_w_m2",
                   "ghi_w_m2 adds up to %.3g kWh/m2 a day, above the air there are %.3g; %s. Give the mean of each "
                   "hour in W/m2.",
                   mean, above_air, units[i].guess);
}

static bool in_ranges(lw_weather_year *year, lw_error *err)
{
    static const struct {
        double low, high;
        const char *unit;
    } ranges[LW_SERIES] = {
        {0.0, 1600.0, "W/m2"}, {0.0, 1000.0, "W/m2"}, {0.0, 1400.0, "W/m2"}, {-90.0, 65.0, "degC"}, {0.0, 90.0, "m/s"}};
    for (int k = 0; k < LW_SERIES; k++) {
        const double *x = lw_weather_series(year, k);
        for (int i = 0; i < LW_HOURS; i++) {
            if (x[i] >= ranges[k].low && x[i] <= ranges[k].high)
                continue;
            char at[48];
            when(i, at);
            return lw_fail(err, LW_WRONG_INPUT, lw_weather_series_name[k],
                           "%s is %g %s in %s; it must lie between %g and %g %s.", lw_weather_series_name[k], x[i],
                           ranges[k].unit, at, ranges[k].low, ranges[k].high, ranges[k].unit);
        }
    }
    return true;
}

/* Diffuse and direct must be of the same unit as global. */
static bool parts_fit(const lw_weather_year *year, lw_error *err)
{
    const double ghi = total(year->ghi_w_m2), dhi = total(year->dhi_w_m2), dni = total(year->dni_w_m2);
    if (dhi > 1.1 * ghi || dhi < 0.05 * ghi)
        return lw_fail(err, LW_WRONG_INPUT, "dhi_w_m2",
                       "dhi_w_m2 adds up to %.3g of ghi_w_m2 over the year; it must lie between 0.05 and 1.1.",
                       dhi / ghi);
    if (dni < ghi - dhi - 0.1 * ghi)
        return lw_fail(err, LW_WRONG_INPUT, "dni_w_m2",
                       "dni_w_m2 adds up to less than ghi_w_m2 minus dhi_w_m2 over the year; it must be normal to the "
                       "beam and in W/m2.");
    return true;
}

/* A clock that is some hours off (wrong zone, UTC instead of standard time) puts sunshine into the night. */
static bool right_clock(const lw_weather_year *year, lw_error *err)
{
    double dark[LW_HOURS], at_night = 0.0;
    if (!lw_dark_shares(year->lat_deg, year->lon_deg, year->utc_offset_h, LW_SUN_SPENCER_DAILY, -3.0, 0, dark, err))
        return false;
    for (int i = 0; i < LW_HOURS; i++)
        at_night += dark[i] >= 1.0 ? year->ghi_w_m2[i] : 0.0;
    const double share = at_night / total(year->ghi_w_m2);
    return share < 0.02 || lw_fail(err, LW_WRONG_INPUT, "utc_offset_h",
                                   "%.0f %% of the radiation falls at night; the longitude (%g) or the offset of the "
                                   "clock from UTC (%g h) is wrong, or the hours are not local standard time.",
                                   100.0 * share, year->lon_deg, year->utc_offset_h);
}

bool lw_weather_judge(lw_weather_year *year, lw_error *err)
{
    return right_unit(year, err) && in_ranges(year, err) && parts_fit(year, err) && right_clock(year, err);
}
