/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rows of a weather year: each must be the next hour, so that gaps, repeated hours and files that begin or
 * end elsewhere are told at the line where they show.
 */
#include "lanewick/utc.h"
#include "weather_inside.h"

#include <math.h>

const char *const lw_weather_series_name[LW_SERIES] = {"ghi_w_m2", "dhi_w_m2", "dni_w_m2", "air_c", "wind_m_s"};

double *lw_weather_series(lw_weather_year *year, int series)
{
    double *const all[LW_SERIES] = {year->ghi_w_m2, year->dhi_w_m2, year->dni_w_m2, year->air_c, year->wind_m_s};
    return all[series];
}

/* Place of the row in the year, 0..8759, or -1 with an error. */
static int place(lw_weather_reader *r, const lw_weather_row *row)
{
    if (row->month < 1 || row->month > 12) {
        (void)lw_weather_fail(r, "month", "month is %d; it must lie between 1 and 12.", row->month);
        return -1;
    }
    const int days = lw_days_in_month(2024, row->month);
    if (row->day < 1 || row->day > days) {
        (void)lw_weather_fail(r, "day", "day is %d; month %d has 1 to %d.", row->day, row->month, days);
        return -1;
    }
    if (row->hour < 1 || row->hour > 24) {
        (void)lw_weather_fail(r, "hour", "hour is %d; hours run from 1 to 24 and name the end of the hour.", row->hour);
        return -1;
    }
    return 24 * (lw_first_day_of_month(row->month) + row->day - 1) + row->hour - 1;
}

static bool in_order(lw_weather_reader *r, const lw_weather_row *row, int here)
{
    if (here == r->rows)
        return true;
    if (here < r->rows)
        return lw_weather_fail(r, "hour", "hour %d of month %d, day %d comes a second time or too late.", row->hour,
                               row->month, row->day);
    const int missing = r->rows, month = lw_month_of_day(missing / 24);
    return lw_weather_fail(r, "hour",
                           "%d hours are missing before it, from hour %d of month %d, day %d on; a year has "
                           "every hour from 1 January to 31 December.",
                           here - missing, missing % 24 + 1, month, missing / 24 - lw_first_day_of_month(month) + 1);
}

bool lw_weather_add(lw_weather_reader *r, const lw_weather_row *row)
{
    const int here = place(r, row);
    if (here < 0)
        return false;
    if (row->month == 2 && row->day == 29) {
        r->out->leap_rows++;
        return r->out->leap_rows <= 24 || lw_weather_fail(r, "day", "29 February has more than 24 hours.");
    }
    if (!in_order(r, row, here))
        return false;
    for (int k = 0; k < LW_SERIES; k++) {
        const double value = row->value[k];
        if (k <= LW_DNI && value < 0.0)
            return lw_weather_fail(r, lw_weather_series_name[k],
                                   "%s is %g; radiation cannot be negative. Where night values of an instrument lie "
                                   "below 0, set them to 0.",
                                   lw_weather_series_name[k], value);
        lw_weather_series(r->out, k)[here] = value;
    }
    if (row->rain_mm < 0.0 || row->rain_mm > 500.0)
        return lw_weather_fail(r, "rain_mm", "rain is %g mm in an hour; it must lie between 0 and 500.", row->rain_mm);
    if (row->rain_mm > 0.0) {
        r->out->rain_mm[here / 24] += row->rain_mm;
        r->out->has_rain = true;
    }
    r->rows++;
    return true;
}

bool lw_weather_finish(lw_weather_reader *r)
{
    if (r->err && r->err->family != LW_OK)
        return false;
    if (r->rows != LW_HOURS)
        return lw_weather_fail(r, "weather", "the file ends here with %d hours of data; a year has %d.", r->rows,
                               LW_HOURS);
    return lw_weather_fill(r->out, r->err) && lw_weather_judge(r->out, r->err);
}
