/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Instants as text: ISO 8601 in, ISO 8601 out.
 */
#include "lanewick/utc.h"

#include <math.h>
#include <stdio.h>

/* Reads exactly `digits` digits; -1 when they are not there. */
static int read_digits(const char **text, int digits)
{
    int value = 0;
    for (int i = 0; i < digits; i++) {
        const char c = (*text)[i];
        if (c < '0' || c > '9')
            return -1;
        value = 10 * value + (c - '0');
    }
    *text += digits;
    return value;
}

static bool skip(const char **text, char c)
{
    if (**text != c)
        return false;
    (*text)++;
    return true;
}

static bool read_date(const char *field, const char *whole, const char *example, const char **text, lw_date *date,
                      lw_error *err)
{
    date->year = read_digits(text, 4);
    const bool first = date->year >= 0 && skip(text, '-');
    date->month = first ? read_digits(text, 2) : -1;
    const bool second = date->month >= 0 && skip(text, '-');
    date->day = second ? read_digits(text, 2) : -1;
    if (date->day < 0)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s\"; write the date as in %s.", field, whole, example);
    if (date->year < LW_YEAR_FIRST || date->year > LW_YEAR_LAST)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is in the year %d; it must lie between %d and %d.", field,
                       date->year, LW_YEAR_FIRST, LW_YEAR_LAST);
    if (date->month < 1 || date->month > 12)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s\"; the month must lie between 01 and 12.", field,
                       whole);
    const int last = lw_days_in_month(date->year, date->month);
    if (date->day < 1 || date->day > last)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s\"; month %d of %d has the days 01 to %d.", field,
                       whole, date->month, date->year, last);
    return true;
}

/* hh:mm with optional :ss and a decimal fraction of the second, into a share of the day. */
static bool read_time(const char *field, const char *whole, const char **text, double *share, lw_error *err)
{
    const int hour = read_digits(text, 2);
    const int minute = hour >= 0 && skip(text, ':') ? read_digits(text, 2) : -1;
    const bool has_second = minute >= 0 && skip(text, ':');
    const int second = has_second ? read_digits(text, 2) : 0;
    if (minute < 0 || second < 0)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s\"; write the time as in 18:05 or 18:05:30.", field,
                       whole);
    if (second == 60)
        return lw_fail(err, LW_WRONG_INPUT, field,
                       "%s is \"%.40s\"; leap seconds are not counted here, so the seconds end at 59.", field, whole);
    if (hour > 23 || minute > 59 || second > 60)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s\"; a time lies between 00:00:00 and 23:59:59.", field,
                       whole);
    double fraction = 0.0, place = 0.1;
    if (has_second && skip(text, '.'))
        for (; **text >= '0' && **text <= '9'; (*text)++, place /= 10.0)
            fraction += place * (**text - '0');
    *share = (3600.0 * hour + 60.0 * minute + second + fraction) / 86400.0;
    return true;
}

/* Z, nothing, or +hh:mm / -hh:mm / +hhmm / +hh, into days. */
static bool read_offset(const char *field, const char *whole, const char **text, double *days, lw_error *err)
{
    *days = 0.0;
    const char sign = **text;
    if (sign == 'Z' || sign == 'z')
        (*text)++;
    if (sign != '+' && sign != '-')
        return true;
    (*text)++;
    const int hour = read_digits(text, 2);
    (void)skip(text, ':');
    const int minute = **text ? read_digits(text, 2) : 0;
    if (hour < 0 || minute < 0 || minute > 59 || hour > 14)
        return lw_fail(err, LW_WRONG_INPUT, field,
                       "%s is \"%.40s\"; an offset from UTC lies within 14:00, as in +03:00.", field, whole);
    *days = (sign == '-' ? -1.0 : 1.0) * (60.0 * hour + minute) / 1440.0;
    return true;
}

static bool nothing_left(const char *field, const char *whole, const char *text, lw_error *err)
{
    return *text == '\0' || lw_fail(err, LW_WRONG_INPUT, field,
                                    "%s is \"%.40s\"; \"%.20s\" at its end is not understood. Write it as in "
                                    "2026-07-14T18:05:30Z.",
                                    field, whole, text);
}

bool lw_utc_parse(const char *field, const char *text, double *utc_days, lw_error *err)
{
    const char *rest = text;
    lw_date date = {0};
    double share = 0.0, offset = 0.0;
    if (!read_date(field, text, "2026-07-14T18:05:30Z", &rest, &date, err))
        return false;
    if (*rest && (skip(&rest, 'T') || skip(&rest, 't') || skip(&rest, ' ')) &&
        !(read_time(field, text, &rest, &share, err) && read_offset(field, text, &rest, &offset, err)))
        return false;
    if (!nothing_left(field, text, rest, err))
        return false;
    *utc_days = lw_date_noon_days(date) - 0.5 + share - offset;
    return true;
}

bool lw_date_parse(const char *field, const char *text, lw_date *date, lw_error *err)
{
    const char *rest = text;
    return read_date(field, text, "2026-07-14", &rest, date, err) && nothing_left(field, text, rest, err);
}

void lw_utc_text(double utc_days, char text[LW_UTC_TEXT])
{
    const double midnight = floor(utc_days + 0.5);
    long second = lround((utc_days + 0.5 - midnight) * 86400.0);
    const lw_date date = lw_date_of_days(midnight + (second == 86400));
    second %= 86400;
    (void)snprintf(text, LW_UTC_TEXT, "%04d-%02d-%02dT%02ld:%02ld:%02ldZ", date.year, date.month, date.day,
                   second / 3600, second / 60 % 60, second % 60);
}
