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

static void number(writer *w, double x)
{
    char piece[32];
    const int length = snprintf(piece, sizeof piece, "%.4g", x);
    if (w->column && w->column + (size_t)length + 1 > WIDTH) {
        put(w, "\r\n");
        w->column = 0;
    }
    put(w, "%s%s", w->column ? " " : "", piece);
    w->column += (size_t)length + (w->column ? 1 : 0);
}

static void group(writer *w, const double *x, size_t n)
{
    w->column = 0;
    for (size_t i = 0; i < n; i++)
        number(w, x[i]);
    put(w, "\r\n");
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
    put(&w, "1 -1 1 %zu %zu 1 2 0 0 0\r\n1 1.00001 %.4g\r\n", table->vertical_count, table->horizontal_count, watts);
    group(&w, table->vertical_deg, table->vertical_count);
    group(&w, table->horizontal_deg, table->horizontal_count);
    for (size_t h = 0; h < table->horizontal_count; h++)
        group(&w, table->candela + h * table->vertical_count, table->vertical_count);
    if (size)
        text[w.length < size ? w.length : size - 1] = '\0';
    return w.length;
}
