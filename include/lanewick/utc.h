/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Instants and dates. An instant is a count of days of 86,400 s from 2000-01-01 12:00 UTC (J2000), leap
 * seconds left out; proleptic Gregorian calendar (Meeus 1998, Astronomical Algorithms, chapter 7).
 *
 *     double utc_days;
 *     lw_error err = {0};
 *     if (lw_utc_parse("utc", "2003-10-17T12:30:30-07:00", &utc_days, &err))
 *         printf("%.6f\n", utc_days);
 */
#ifndef LANEWICK_UTC_H
#define LANEWICK_UTC_H

#include "lanewick/error.h"

typedef struct lw_date {
    int year, month, day; /* month 1..12, day 1..31 */
} lw_date;

enum { LW_UTC_TEXT = 32, LW_YEAR_FIRST = 1900, LW_YEAR_LAST = 2199 };

/* ISO 8601: 2026-07-14, 2026-07-14 18:05, 2026-07-14T18:05:30, ...:30.25, then Z, nothing (UTC) or an offset
 * such as +03:00, which is taken off. Years LW_YEAR_FIRST..LW_YEAR_LAST. LW_WRONG_INPUT names field: a date
 * that does not exist, a time outside the day, a leap second (23:59:60), anything after the end. */
LW_MUST_CHECK bool lw_utc_parse(const char *field, const char *text, double *utc_days, lw_error *err);

/* The same for a date alone. */
LW_MUST_CHECK bool lw_date_parse(const char *field, const char *text, lw_date *date, lw_error *err);

/* 2026-07-14T18:05:30Z, rounded to the second. */
void lw_utc_text(double utc_days, char text[LW_UTC_TEXT]);

double lw_date_noon_days(lw_date date);   /* instant of 12:00 UTC on that date */
lw_date lw_date_of_days(double utc_days); /* the UTC date of an instant */
int lw_day_of_year(lw_date date);         /* 1..366 */
bool lw_leap_year(int year);
enum { LW_COMMON_YEAR = 2001 };
int lw_days_in_month(int year, int month);

/* Month 1..12 of day 0..364 of a year without 29 February, and the first day (0..334) of a month 1..12. */
int lw_month_of_day(int day);
int lw_first_day_of_month(int month);

#endif
