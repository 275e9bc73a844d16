/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines, fields and numbers of a weather file. Bytes in, values out; nothing is read beyond the end.
 */
#include "weather_inside.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool lw_weather_fail(lw_weather_reader *r, const char *field, const char *format, ...)
{
    char sentence[320];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(sentence, sizeof sentence, format, arguments);
    va_end(arguments);
    return lw_fail(r->err, LW_WRONG_INPUT, field, "Line %d of the weather file: %s", r->line, sentence);
}

bool lw_weather_open(const char *bytes, size_t length, lw_weather_year *out, lw_weather_reader *r, lw_error *err)
{
    memset(r, 0, sizeof *r);
    memset(out, 0, sizeof *out);
    r->at = bytes;
    r->end = bytes + length;
    r->out = out;
    r->err = err;
    if (length == 0)
        return lw_fail(err, LW_WRONG_INPUT, "weather", "The weather file is empty.");
    if (length > LW_WEATHER_MAX_BYTES)
        return lw_fail(err, LW_WRONG_INPUT, "weather", "The weather file has %zu bytes; the most is %d.", length,
                       LW_WEATHER_MAX_BYTES);
    const size_t start = length < 64 ? length : 64;
    const bool mark = length >= 2 && (memcmp(bytes, "\xff\xfe", 2) == 0 || memcmp(bytes, "\xfe\xff", 2) == 0);
    if (mark || memchr(bytes, '\0', start))
        return lw_fail(err, LW_WRONG_INPUT, "weather",
                       "The weather file is UTF-16 or not text at all; save it as plain text (UTF-8 or ASCII).");
    if (length >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0)
        r->at += 3;
    return true;
}

bool lw_weather_line(lw_weather_reader *r)
{
    if (r->at >= r->end)
        return false;
    r->line++;
    const size_t left = (size_t)(r->end - r->at);
    const char *stop = memchr(r->at, '\n', left);
    size_t length = stop ? (size_t)(stop - r->at) : left;
    const char *start = r->at;
    r->at = stop ? stop + 1 : r->end;
    if (length && start[length - 1] == '\r')
        length--;
    if (length >= sizeof r->text)
        return lw_weather_fail(r, "weather", "it is longer than %zu characters.", sizeof r->text - 1);
    if (memchr(start, '\0', length))
        return lw_weather_fail(r, "weather", "it holds a zero byte; the file is not plain text.");
    memcpy(r->text, start, length);
    r->text[length] = '\0';
    return true;
}

static char *trimmed(char *text)
{
    while (isspace((unsigned char)*text))
        text++;
    size_t length = strlen(text);
    while (length && isspace((unsigned char)text[length - 1]))
        text[--length] = '\0';
    if (length >= 2 && text[0] == '"' && text[length - 1] == '"') {
        text[length - 1] = '\0';
        text++;
    }
    return text;
}

void lw_weather_split(lw_weather_reader *r)
{
    char *start = r->text;
    bool quoted = false;
    r->fields = 0;
    for (char *c = r->text;; c++) {
        if (*c == '"')
            quoted = !quoted;
        if (*c && (quoted || *c != ','))
            continue;
        const bool last = *c == '\0';
        *c = '\0';
        if (r->fields < LW_WEATHER_FIELDS)
            r->field[r->fields++] = trimmed(start);
        if (last)
            return;
        start = c + 1;
    }
}

bool lw_weather_number(lw_weather_reader *r, int i, const char *name, double *value)
{
    *value = NAN;
    if (i >= r->fields)
        return true;
    const char *text = r->field[i];
    if (text[0] == '\0' || strcmp(text, "nan") == 0 || strcmp(text, "NaN") == 0 || strcmp(text, "NA") == 0)
        return true;
    char *end = NULL;
    const double number = strtod(text, &end);
    if (strspn(text, "+-.0123456789eE") != strlen(text) || *end || !isfinite(number))
        return lw_weather_fail(r, name, "%s is \"%.24s\"; it must be a number with a decimal point.", name, text);
    *value = number;
    return true;
}

bool lw_weather_need(lw_weather_reader *r, int i, const char *name, double low, double high, double *value)
{
    if (!lw_weather_number(r, i, name, value))
        return false;
    if (isnan(*value))
        return lw_weather_fail(r, name, "%s is missing.", name);
    if (*value < low || *value > high)
        return lw_weather_fail(r, name, "%s is %g; it must lie between %g and %g.", name, *value, low, high);
    return true;
}

void lw_weather_station(lw_weather_reader *r, const char *name)
{
    char *put = r->out->station;
    size_t room = sizeof r->out->station - 1;
    for (const char *c = name; *c && room; c++, room--)
        *put++ = isprint((unsigned char)*c) ? *c : ' ';
    *put = '\0';
}
