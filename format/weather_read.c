/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which of the three layouts a weather file has, told by its first two lines.
 */
#include "weather_inside.h"

#include <stdio.h>
#include <string.h>

/* The start of line number `wanted` (0, 1), cut to a short text. */
static void peek(const lw_weather_reader *r, int wanted, char *text, size_t room)
{
    const char *at = r->at;
    for (int i = 0; i < wanted && at < r->end; i++) {
        const char *stop = memchr(at, '\n', (size_t)(r->end - at));
        at = stop ? stop + 1 : r->end;
    }
    size_t length = 0;
    while (length + 1 < room && at + length < r->end && at[length] != '\n' && at[length] != '\r')
        length++;
    memcpy(text, at, length);
    text[length] = '\0';
}

bool lw_weather_read(const char *bytes, size_t length, lw_weather_year *out, lw_error *err)
{
    lw_error inner = {0};
    lw_error *told = err ? err : &inner; /* the reader stops at the first error, so it needs one to look at */
    lw_weather_reader reader;
    char first[64], second[64];
    if (!lw_weather_open(bytes, length, out, &reader, told))
        return false;
    peek(&reader, 0, first, sizeof first);
    peek(&reader, 1, second, sizeof second);
    if (strncmp(first, "LOCATION,", 9) == 0)
        return lw_weather_read_epw(&reader);
    if (strncmp(second, "Date (MM/DD/YYYY)", 17) == 0)
        return lw_weather_read_tmy3(&reader);
    if (first[0] == '#' || strncmp(first, "month", 5) == 0)
        return lw_weather_read_csv(&reader);
    for (char *c = first; *c; c++)
        if (*c < ' ' || *c > '~')
            *c = '?';
    return lw_fail(
        told, LW_WRONG_INPUT, "weather",
        "The weather file begins with \"%.40s\"; it must be our CSV (lines beginning with #), EPW (first line "
        "LOCATION) or TMY3.",
        first);
}
