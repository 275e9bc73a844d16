/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Calendar: Gregorian dates and days from J2000 (2000-01-01 12:00). Days are counted from 1 March of a
 * 400-year cycle, so that the leap day stands last (Meeus 1998, Astronomical Algorithms, chapter 7).
 */
#include "lanewick/utc.h"

#include <math.h>

static const int first_day[13] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

/* Whole days from 2000-01-01 to the date, negative before. */
static long days_from_2000(lw_date date)
{
    const long year = date.month > 2 ? date.year : date.year - 1;
    const long from_march = (date.month + 9) % 12;
    const long day = 365 * year + year / 4 - year / 100 + year / 400 + (153 * from_march + 2) / 5 + date.day - 1;
    return day - 730425; /* that count on 2000-01-01 */
}

double lw_date_noon_days(lw_date date)
{
    return (double)days_from_2000(date);
}

lw_date lw_date_of_days(double utc_days)
{
    const double limit = 400.0 * 365.0; /* keeps the count of days positive and small for any input */
    const long count = (long)floor(fmin(fmax(utc_days, -limit), limit) + 0.5) + 730425;
    const long cycle = count / 146097, in_cycle = count % 146097;
    const long year = (in_cycle - in_cycle / 1460 + in_cycle / 36524 - in_cycle / 146096) / 365;
    const long in_year = in_cycle - (365 * year + year / 4 - year / 100);
    const long from_march = (5 * in_year + 2) / 153;
    const int month = (int)(from_march < 10 ? from_march + 3 : from_march - 9);
    return (lw_date){.year = (int)(cycle * 400 + year + (month <= 2)),
                     .month = month,
                     .day = (int)(in_year - (153 * from_march + 2) / 5 + 1)};
}

bool lw_leap_year(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

int lw_days_in_month(int year, int month)
{
    return first_day[month] - first_day[month - 1] + (month == 2 && lw_leap_year(year));
}

int lw_day_of_year(lw_date date)
{
    return first_day[date.month - 1] + date.day + (date.month > 2 && lw_leap_year(date.year));
}

int lw_first_day_of_month(int month)
{
    return first_day[month - 1];
}

int lw_month_of_day(int day)
{
    int month = 1;
    while (month < 12 && day >= first_day[month])
        month++;
    return month;
}
