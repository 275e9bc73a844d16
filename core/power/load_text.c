/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Moments of the night and whole schedules as a person types them.
 */
#include "lanewick/load.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Hours after "dusk" or "dawn": "", "+3.5", "-1h". */
static bool offset(const char *text, double *hours)
{
    char *end;
    *hours = 0.0;
    if (text[0] == '\0')
        return true;
    *hours = strtod(text, &end);
    if (*end == 'h')
        end++;
    return (text[0] == '+' || text[0] == '-') && *end == '\0' && fabs(*hours) <= 24.0;
}

static bool dusk_or_dawn(const char *text, lw_moment *out)
{
    const bool dawn = strncmp(text, "dawn", 4) == 0;
    double hours;
    if ((!dawn && strncmp(text, "dusk", 4) != 0) || !offset(text + 4, &hours))
        return false;
    if (dawn)
        *out = (lw_moment){hours == 0.0 ? LW_AT_DAWN : LW_BEFORE_DAWN, -hours};
    else
        *out = (lw_moment){hours == 0.0 ? LW_AT_DUSK : LW_AFTER_DUSK, hours};
    return out->value >= 0.0 || hours == 0.0;
}

static bool clock_or_share(const char *text, lw_moment *out)
{
    char *end;
    const double first = strtod(text, &end);
    if (end == text || !(first >= 0.0))
        return false;
    if (strcmp(end, "%") == 0 || strcmp(end, " %") == 0) {
        *out = (lw_moment){LW_AT_NIGHT_SHARE, first / 100.0};
        return first <= 100.0;
    }
    if (*end != ':' || first != floor(first) || first > 23.0 || strlen(end) != 3)
        return false;
    char *last;
    const long minutes = strtol(end + 1, &last, 10);
    *out = (lw_moment){LW_AT_CLOCK, first + (double)minutes / 60.0};
    return *last == '\0' && minutes >= 0 && minutes < 60;
}

bool lw_moment_from_text(const char *text, lw_moment *out)
{
    return dusk_or_dawn(text, out) || clock_or_share(text, out);
}

/* The next word of a text, up to a space or the semicolon; false: there is none or it is too long. */
static bool next_word(const char **at, char *out, size_t size)
{
    *at += strspn(*at, " ");
    const size_t length = strcspn(*at, " ;");
    if (length == 0 || length >= size)
        return false;
    memcpy(out, *at, length);
    out[length] = '\0';
    *at += length;
    return true;
}

/* "dusk 22:30 1" up to the semicolon or the end. */
static bool next_span(const char **at, lw_span *out)
{
    char from[32], until[32], level[32], *end;
    if (!next_word(at, from, sizeof from) || !next_word(at, until, sizeof until) || !next_word(at, level, sizeof level))
        return false;
    *at += strspn(*at, " ");
    out->level = strtod(level, &end);
    return *end == '\0' && out->level >= 0.0 && out->level <= 1.0 && lw_moment_from_text(from, &out->from) &&
           lw_moment_from_text(until, &out->until) && (**at == ';' || **at == '\0');
}

bool lw_spans_from_text(const char *text, const char *field, lw_span *out, size_t room, size_t *count, lw_error *err)
{
    const char *at = text;
    *count = 0;
    do {
        if (*count >= room)
            return lw_fail(err, LW_WRONG_INPUT, field, "%s has more than %zu spans.", field, room);
        const char *begin = at;
        if (!next_span(&at, &out[*count]))
            return lw_fail(err, LW_WRONG_INPUT, field,
                           "%s has \"%.40s\"; write from, to and level of each span, spans apart by a semicolon: "
                           "\"dusk 22:30 1; 22:30 dawn 0.35\".",
                           field, begin);
        (*count)++;
    } while (*at++ == ';');
    return true;
}
