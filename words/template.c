/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Compares a sentence with a pattern: see template.h. Numbers are as long as they can be; a text (%s) is as short as
 * the rest allows.
 */
#include "template.h"

#include <string.h>

typedef struct run {
    const char *end;
    long *steps;
    lw_values *values;
} run;

static bool digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

size_t lw_place_read(const char *format, char *kind, int *number)
{
    *kind = '\0';
    *number = 0;
    if (format[0] != '%')
        return 0;
    size_t n = 1;
    if (format[1] == '%') {
        *kind = '%';
        return 2;
    }
    if (format[1] >= '1' && format[1] <= '9' && (format[2] == '$' || (digit(format[2]) && format[3] == '$'))) {
        *number = format[1] - '0';
        if (format[2] != '$')
            *number = 10 * *number + format[2] - '0';
        n = format[2] == '$' ? 3 : 4;
    }
    n += strspn(format + n, "-+0#");
    n += strspn(format + n, "0123456789*");
    if (format[n] == '.')
        n += 1 + strspn(format + n + 1, "0123456789*");
    n += strspn(format + n, "hlzjt");
    if (format[n] == '\0' || !strchr("diuoxXfFeEgGcs", format[n]))
        return 0;
    *kind = format[n];
    return n + 1;
}

static const char *digits_end(const char *at, const char *end)
{
    while (at < end && digit(*at))
        at++;
    return at;
}

/* ".25" and "e-05" behind the first digits of a number. */
static const char *fraction_end(const char *at, const char *end)
{
    if (end - at >= 2 && *at == '.' && digit(at[1]))
        at = digits_end(at + 1, end);
    if (end - at >= 3 && *at == 'e' && strchr("+-", at[1]) && digit(at[2]))
        at = digits_end(at + 2, end);
    return at;
}

/* Where a number that begins at s ends; s itself when none does. */
static const char *number_end(const char *s, const char *end, bool whole)
{
    const char *at = s;
    while (at < end && *at == ' ') /* padded to a width */
        at++;
    at += at < end && (*at == '-' || *at == '+');
    if (end - at >= 3 && (strncmp(at, "nan", 3) == 0 || strncmp(at, "inf", 3) == 0))
        return at + 3;
    const char *first = at;
    at = digits_end(at, end);
    if (at == first)
        return s;
    return whole ? at : fraction_end(at, end);
}

static bool fits(run *r, const char *format, const char *s);

static bool keep(run *r, const char *from, const char *to, bool text)
{
    lw_values *values = r->values;
    if (values->count == LW_PLACES)
        return false;
    values->value[values->count] = (lw_piece){from, (size_t)(to - from)};
    values->text[values->count++] = text;
    return true;
}

/* A text from s on, before the rest of the format. */
static bool text_fits(run *r, const char *rest, const char *s)
{
    const size_t before = r->values->count;
    char kind;
    int number;
    const bool literal = *rest && (lw_place_read(rest, &kind, &number) == 0 || kind == '%');
    for (const char *to = *rest ? s : r->end; to <= r->end; to++) {
        if (literal && to < r->end)
            to = memchr(to, *rest, (size_t)(r->end - to));
        if (!to || --*r->steps < 0)
            return false;
        r->values->count = before;
        if (!keep(r, s, to, true))
            return false;
        if (fits(r, rest, to))
            return true;
    }
    return false;
}

static bool fits(run *r, const char *format, const char *s)
{
    while (*format) {
        char kind;
        int number;
        const size_t n = lw_place_read(format, &kind, &number);
        if (--*r->steps < 0)
            return false;
        if (kind == 's')
            return text_fits(r, format + n, s);
        const char *to = s;
        if (kind == '\0' || kind == '%' || kind == 'c')
            to += s < r->end && (kind == 'c' || *s == *format);
        else
            to = number_end(s, r->end, strchr("diu", kind) != NULL);
        if (to == s || (n > 0 && kind != '%' && !keep(r, s, to, false)))
            return false;
        format += n > 0 ? n : 1;
        s = to;
    }
    return s == r->end;
}

/* The longest stretch without any percent sign. */
static lw_piece longest(const char *format)
{
    lw_piece best = {format, 0};
    while (*format) {
        char kind;
        int number;
        const size_t place = lw_place_read(format, &kind, &number), skip = place > 0 ? place : *format == '%';
        format += skip;
        const size_t n = strcspn(format, "%");
        if (n > best.n)
            best = (lw_piece){format, n};
        format += n;
    }
    return best;
}

const char *lw_piece_find(lw_piece text, lw_piece what)
{
    if (what.n == 0)
        return text.at;
    const char *end = text.at + text.n;
    for (const char *at = text.at; (size_t)(end - at) >= what.n; at++) {
        at = memchr(at, *what.at, (size_t)(end - at) - what.n + 1);
        if (!at || memcmp(at, what.at, what.n) == 0)
            return at;
    }
    return NULL;
}

bool lw_template_fits(const char *format, lw_piece text, long *steps, lw_values *values)
{
    values->count = 0;
    *steps -= 1 + (long)(text.n / 8);
    if (!lw_piece_find(text, longest(format))) /* as good as all templates end here */
        return false;
    run r = {text.at + text.n, steps, values};
    return fits(&r, format, text.at);
}
