/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reader of our own tables for the packer; see csv.h.
 */
#include "csv.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void csv_stop(const csv *c, const char *what)
{
    fprintf(stderr, "%s line %zu: %s\n", c->path, c->line, what);
    exit(1);
}

static size_t split(const csv *c, char *text, char **cells)
{
    size_t n = 0;
    text[strcspn(text, "\r\n")] = '\0';
    for (char *p = text; p; n++) {
        if (n == CSV_MAX_COLUMNS)
            csv_stop(c, "too many columns");
        cells[n] = p;
        p = strchr(p, ',');
        if (p)
            *p++ = '\0';
    }
    return n;
}

static int read_line(csv *c, char *text)
{
    if (!fgets(text, CSV_MAX_LINE, c->file))
        return 0;
    c->line++;
    if (!strchr(text, '\n'))
        csv_stop(c, "line too long or cut short");
    return 1;
}

void csv_open(csv *c, const char *path)
{
    memset(c, 0, sizeof *c);
    c->path = path;
    c->file = fopen(path, "r");
    if (!c->file)
        csv_stop(c, "cannot be opened");
    if (!read_line(c, c->header_text))
        csv_stop(c, "is empty");
    c->columns = split(c, c->header_text, c->header);
}

int csv_next(csv *c)
{
    if (!read_line(c, c->row_text)) {
        fclose(c->file);
        return 0;
    }
    if (split(c, c->row_text, c->row) != c->columns)
        csv_stop(c, "has another number of columns than the header");
    return 1;
}

size_t csv_column(const csv *c, const char *name)
{
    for (size_t i = 0; i < c->columns; i++)
        if (strcmp(c->header[i], name) == 0)
            return i;
    csv_stop(c, name);
    return 0;
}

double csv_number(const csv *c, size_t column, double low, double high, double absent)
{
    char *end = NULL;
    const char *text = c->row[column];
    if (*text == '\0' && !isnan(absent))
        return absent;
    const double v = strtod(text, &end);
    if (end == text || *end != '\0' || !(v >= low && v <= high))
        csv_stop(c, c->header[column]);
    return v;
}

void csv_months(const csv *c, const char *name, double low, double high, double out[12])
{
    char column[64];
    for (int m = 0; m < 12; m++) {
        snprintf(column, sizeof column, "%s_%02d", name, m + 1);
        out[m] = csv_number(c, csv_column(c, column), low, high, NAN);
    }
}
