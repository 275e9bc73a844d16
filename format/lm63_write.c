/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writer of LM-63-2019 files: see lanewick/lm63.h.
 */
#include "lanewick/lm63.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WIDTH = 132 };

typedef struct writer {
    char *text;
    size_t size, length; /* length counts also what found no room */
    size_t column;
} writer;

static void put(writer *w, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void put(writer *w, const char *format, ...)
{
    char piece[400];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(piece, sizeof piece, format, arguments);
    va_end(arguments);
    for (const char *c = piece; *c; c++) {
        const unsigned char byte = (unsigned char)*c;
        if ((byte & 0xC0U) == 0x80U)
            continue; /* the standard knows ASCII only: a letter of several bytes becomes one question mark */
        if (w->length + 1 < w->size)
            w->text[w->length] = byte < 0x80U ? *c : '?';
        w->length++;
    }
}

static void number(writer *w, double x, int digits)
{
    char piece[32];
    const int length = snprintf(piece, sizeof piece, "%.*g", digits, x);
    if (w->column && w->column + (size_t)length + 1 > WIDTH) {
        put(w, "\r\n");
        w->column = 0;
    }
    put(w, "%s%s", w->column ? " " : "", piece);
    w->column += (size_t)length + (w->column ? 1 : 0);
}

enum { CANDELA_DIGITS = 4, ANGLE_DIGITS = 9 }; /* angles must come back as they were: a step can be small */

static void group(writer *w, const double *x, size_t n, int digits)
{
    w->column = 0;
    for (size_t i = 0; i < n; i++)
        number(w, x[i], digits);
    put(w, "\r\n");
}

/* Planes of a table from 90 to 270, which only files of 1995 may have, written as the whole circle: 0, the mirror
 * images of those between 90 and 180, all of them, the images of those between 180 and 270, 360. */
static size_t circle_planes(const lw_intensity *t)
{
    size_t between = 0;
    for (size_t h = 1; h + 1 < t->horizontal_count; h++)
        between += t->horizontal_deg[h] != 180.0;
    return 2 + between + t->horizontal_count;
}

static double circle_plane_deg(const lw_intensity *t, size_t i)
{
    const double *deg = t->horizontal_deg;
    const size_t n = t->horizontal_count;
    size_t before = 0; /* planes between 90 and 180 */
    while (deg[before + 1] < 180.0)
        before++;
    if (i == 0 || i + 1 == circle_planes(t))
        return i ? 360.0 : 0.0;
    if (i <= before)
        return 180.0 - deg[before + 1 - i];
    if (i <= before + n)
        return deg[i - before - 1];
    return 540.0 - deg[2 * n + before - 1 - i];
}

static void circle(writer *w, const lw_intensity *t)
{
    const size_t planes = circle_planes(t);
    w->column = 0;
    for (size_t i = 0; i < planes; i++)
        number(w, circle_plane_deg(t, i), ANGLE_DIGITS);
    put(w, "\r\n");
    for (size_t i = 0; i < planes; i++) {
        w->column = 0;
        for (size_t v = 0; v < t->vertical_count; v++)
            number(w, lw_intensity_cd(t, circle_plane_deg(t, i), t->vertical_deg[v]), CANDELA_DIGITS);
        put(w, "\r\n");
    }
}

static void planes(writer *w, const lw_intensity *t)
{
    static const double only[] = {0.0}; /* one plane stands for all */
    group(w, t->horizontal_count == 1 ? only : t->horizontal_deg, t->horizontal_count, ANGLE_DIGITS);
    for (size_t h = 0; h < t->horizontal_count; h++)
        group(w, t->candela + h * t->vertical_count, t->vertical_count, CANDELA_DIGITS);
}

/* [NAME] text, continued by [MORE] lines so that no line passes 132 characters. */
static void keyword(writer *w, const char *name, const char *text)
{
    size_t left = strlen(text);
    do {
        const size_t room = WIDTH - strlen(name) - 3;
        size_t part = left < room ? left : room;
        while (left > room && part > room / 2 && text[part - 1] != ' ')
            part--;
        if (left > room && text[part - 1] != ' ')
            part = room; /* one long word is cut */
        put(w, "[%s] %.*s\r\n", name, (int)part, text);
        text += part;
        left -= part;
        name = "MORE";
    } while (left);
}

size_t lw_lm63_write(const lw_intensity *table, double watts, const char *luminaire, const char *date_iso,
                     const char *note, char *text, size_t size)
{
    static const char *const months[] = {"JAN", "FEB", "MAR", "APR", "MAY", "JUN",
                                         "JUL", "AUG", "SEP", "OCT", "NOV", "DEC"};
    writer w = {text, size, 0, 0};
    char *rest = NULL;
    const long year = strtol(date_iso, &rest, 10), month = *rest ? strtol(rest + 1, &rest, 10) : 1;
    const long day = *rest ? strtol(rest + 1, &rest, 10) : 1;
    put(&w, "IES:LM-63-2019\r\n");
    keyword(&w, "TEST", "none");
    keyword(&w, "TESTLAB", "none");
    put(&w, "[ISSUEDATE] %02ld-%s-%04ld\r\n", day, months[month >= 1 && month <= 12 ? month - 1 : 0], year);
    keyword(&w, "MANUFAC", "made by hand");
    keyword(&w, "LUMINAIRE", luminaire);
    keyword(&w, "OTHER", note);
    put(&w, "TILT=NONE\r\n");
    const bool half = table->symmetry == LW_SYMMETRY_MIRROR_90;
    put(&w, "1 -1 1 %zu %zu 1 2 0 0 0\r\n1 1.00001 %.4g\r\n", table->vertical_count,
        half ? circle_planes(table) : table->horizontal_count, watts);
    group(&w, table->vertical_deg, table->vertical_count, ANGLE_DIGITS);
    if (half)
        circle(&w, table);
    else
        planes(&w, table);
    if (size)
        text[w.length < size ? w.length : size - 1] = '\0';
    return w.length;
}
