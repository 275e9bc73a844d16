/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables of text: see lanewick/csv.h. One pass counts, one cuts the text into fields in place.
 */
#include "csv_inside.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct cursor {
    char *at;
    int line;
    char separator;
    bool broken; /* there was text after a closing quote */
} cursor;

size_t lw_csv_memory(const char *bytes, size_t length)
{
    if (length > LW_CSV_MAX_BYTES)
        return 0;
    size_t fields = 2, lines = 2;
    for (size_t i = 0; i < length; i++) {
        fields += bytes[i] == ',' || bytes[i] == ';' || bytes[i] == '\t' || bytes[i] == '\n' || bytes[i] == '\r';
        lines += bytes[i] == '\n' || bytes[i] == '\r';
    }
    return 2 * length + (fields + LW_CSV_MAX_COLUMNS) * sizeof(char *) + lines * (sizeof(int) + sizeof(size_t)) + 4096;
}

/* The separator that the first line has most of. */
static char find_separator(const char *text)
{
    const char *candidates = ",;\t";
    size_t most = 0;
    char best = ',';
    const size_t length = strcspn(text, "\n");
    for (const char *c = candidates; *c; c++) {
        size_t count = 0;
        for (size_t i = 0; i < length; i++)
            count += text[i] == *c;
        if (count > most) {
            most = count;
            best = *c;
        }
    }
    return best;
}

static char *trim(char *text)
{
    while (*text == ' ' || *text == '\t')
        text++;
    size_t length = strlen(text);
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t'))
        text[--length] = '\0';
    return text;
}

/* Cuts out the next field; *end tells what followed it: the separator, '\n' or '\0'. */
static bool next_field(cursor *c, char **field, char *end, lw_error *err)
{
    const int line = c->line;
    char *start = c->at, *put;
    while (*start == ' ')
        start++;
    if (*start != '"') {
        put = start + strcspn(start, c->separator == ',' ? ",\n" : c->separator == ';' ? ";\n" : "\t\n");
        *end = *put;
        c->at = *put ? put + 1 : put;
        *put = '\0';
    } else {
        const char *in = start + 1;
        for (put = start; *in && !(*in == '"' && in[1] != '"'); in++) {
            in += *in == '"';
            c->line += *in == '\n';
            *put++ = *in;
        }
        if (!*in)
            return lw_fail(err, LW_WRONG_INPUT, "file", "Line %d: the field that begins with a quote never ends.",
                           line);
        in++;
        while (*in == ' ')
            in++;
        for (; *in && *in != c->separator && *in != '\n'; in++)
            c->broken = true;
        *end = *in;
        c->at = c->at + (in - c->at) + (*in != '\0');
        *put = '\0';
    }
    c->line += *end == '\n';
    *field = trim(start);
    return true;
}

static bool read_header(cursor *c, lw_arena *arena, lw_csv *out, lw_error *err)
{
    out->header = lw_arena_take(arena, LW_CSV_MAX_COLUMNS, sizeof *out->header, err);
    if (!out->header)
        return false;
    char end = c->separator;
    while (end == c->separator) {
        char *name = c->at;
        if (out->columns == LW_CSV_MAX_COLUMNS)
            return lw_fail(err, LW_WRONG_INPUT, "file", "The table has more than %d columns.", LW_CSV_MAX_COLUMNS);
        if (!next_field(c, &name, &end, err))
            return false;
        if (c->broken)
            return lw_fail(err, LW_WRONG_INPUT, "file", "The header has text after a closing quote.");
        for (char *letter = name; *letter; letter++)
            *letter = (char)tolower((unsigned char)*letter);
        if (name[0] && lw_csv_column(out, name) >= 0)
            return lw_fail(err, LW_WRONG_INPUT, name, "The column \"%.40s\" stands twice in the header.", name);
        out->header[out->columns++] = name;
    }
    return true;
}

/* One row as it stands; blank lines are passed over (*filled false), a broken one is left without fields. */
static bool read_row(cursor *c, lw_csv *out, bool *filled, lw_error *err)
{
    char end = c->separator;
    const size_t first = out->start[out->rows];
    size_t count = 0;
    bool blank = true;
    c->broken = false;
    while (end == c->separator) {
        char *text = c->at;
        if (!next_field(c, &text, &end, err))
            return false;
        out->field[first + count++] = text;
        blank = blank && text[0] == '\0';
    }
    *filled = !blank || c->broken;
    out->start[out->rows + 1] = first + (c->broken ? 0 : count);
    return true;
}

bool lw_csv_row_fits(const lw_csv *csv, size_t row, lw_error *err)
{
    const size_t count = csv->start[row + 1] - csv->start[row];
    if (count == csv->columns)
        return true;
    if (count == 0)
        return lw_fail(err, LW_WRONG_INPUT, "file", "Line %d: there is text after the closing quote.", csv->line[row]);
    return lw_fail(err, LW_WRONG_INPUT, "file", "Line %d has %zu fields, the header has %zu.%s", csv->line[row], count,
                   csv->columns,
                   count > csv->columns && csv->separator == ','
                       ? " Decimal commas need semicolons between the fields, or write decimal points."
                       : "");
}

/* All rows, or with `strict` up to the first that does not fit. */
static bool read_rows(cursor *c, size_t lines, size_t separators, bool strict, lw_arena *arena, lw_csv *out,
                      lw_error *err)
{
    out->field = lw_arena_take(arena, lines + separators, sizeof *out->field, err);
    out->line = lw_arena_take(arena, lines, sizeof *out->line, err);
    out->start = lw_arena_take(arena, lines + 1, sizeof *out->start, err);
    if (!out->field || !out->line || !out->start)
        return false;
    size_t fit = 0;
    lw_error first = {0};
    while (*c->at) {
        bool filled;
        if (out->rows == LW_CSV_MAX_ROWS)
            return lw_fail(err, LW_WRONG_INPUT, "file", "The table has more than %d rows.", LW_CSV_MAX_ROWS);
        out->line[out->rows] = c->line;
        if (!read_row(c, out, &filled, err))
            return false;
        const bool fits = !filled || lw_csv_row_fits(out, out->rows, &first);
        if (!fits && strict)
            return lw_fail(err, first.family, first.field, "%s", first.message);
        fit += fits && filled;
        out->rows += filled;
    }
    if (out->rows > 0 && fit == 0) /* not a row, but the whole table is wrong */
        return lw_fail(err, first.family, first.field, "%s", first.message);
    return true;
}

static bool read_table(const char *bytes, size_t length, bool strict, lw_arena *arena, lw_csv *out, lw_error *err)
{
    *out = (lw_csv){0};
    if (length > LW_CSV_MAX_BYTES)
        return lw_fail(err, LW_WRONG_INPUT, "file", "The file has %zu bytes; the most is %d.", length,
                       LW_CSV_MAX_BYTES);
    size_t made;
    char *text = lw_csv_to_text(bytes, length, arena, &made, err);
    if (!text)
        return false;
    cursor c = {.at = text, .line = 1};
    while (*c.at == '\n' || *c.at == ' ') {
        c.line += *c.at == '\n';
        c.at++;
    }
    if (!*c.at)
        return lw_fail(err, LW_WRONG_INPUT, "file",
                       "The file is empty; it needs a header line and one line for each row.");
    c.separator = out->separator = find_separator(c.at);
    /* a field ends at a line end or a separator */
    size_t lines = 1, separators = 0;
    for (const char *t = c.at; *t; t++) {
        lines += *t == '\n';
        separators += *t == c.separator;
    }
    return read_header(&c, arena, out, err) && read_rows(&c, lines, separators, strict, arena, out, err);
}

bool lw_csv_read(const char *bytes, size_t length, lw_arena *arena, lw_csv *out, lw_error *err)
{
    return read_table(bytes, length, true, arena, out, err);
}

bool lw_csv_read_ragged(const char *bytes, size_t length, lw_arena *arena, lw_csv *out, lw_error *err)
{
    return read_table(bytes, length, false, arena, out, err);
}

int lw_csv_column(const lw_csv *csv, const char *name)
{
    for (size_t i = 0; i < csv->columns; i++)
        if (strcmp(csv->header[i], name) == 0)
            return (int)i;
    return -1;
}

const char *lw_csv_text(const lw_csv *csv, size_t row, int column)
{
    const size_t place = csv->start[row] + (size_t)(column < 0 ? 0 : column);
    return column < 0 || place >= csv->start[row + 1] ? "" : csv->field[place];
}

bool lw_csv_number(lw_csv *csv, size_t row, int column, bool *given, double *x, lw_error *err)
{
    const char *text = lw_csv_text(csv, row, column);
    *given = text[0] != '\0';
    *x = 0.0;
    if (!*given)
        return true;
    char plain[64];
    const char *name = csv->header[column];
    const size_t length = strlen(text);
    const char *comma = strchr(text, ','), *point = strchr(text, '.');
    const bool shape = length < sizeof plain && strspn(text, "+-.,0123456789eE") == length && !(comma && point) &&
                       (!comma || !strchr(comma + 1, ','));
    if (shape) {
        memcpy(plain, text, length + 1);
        if (comma)
            plain[comma - text] = '.';
        char *end;
        *x = strtod(plain, &end);
        if (*end == '\0' && end != plain && isfinite(*x)) {
            csv->points += point != NULL;
            csv->commas += comma != NULL;
            if (csv->points && csv->commas)
                return lw_fail(err, LW_WRONG_INPUT, name,
                               "Line %d, %.40s: \"%.40s\"; the table mixes decimal points and decimal commas. Use one.",
                               csv->line[row], name, text);
            return true;
        }
    }
    return lw_fail(err, LW_WRONG_INPUT, name, "Line %d, %.40s: \"%.40s\" is not a number.", csv->line[row], name, text);
}
