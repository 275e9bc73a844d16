/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A table of cells as workshops keep it, with columns under any name: see lanewick/records.h.
 */
#include "lanewick/records.h"

#include "lanewick/figure.h"
#include "lanewick/utc.h"

#include <ctype.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { CODE, MARKING, CLASS, SHAPE, ORIGIN, LOOK, VOLTS, DATE, NOTE, RATED, NAMES = 6 };
/* Our key first, then names that a workshop may use. */
static const char *const names[LW_MAP_KEYS][NAMES] = {
    {"code", "label", "cell", "cell_id", "id", "no"},
    {"marking", "mark", "model", "print", NULL},
    {"class", "voltage_class", "chemistry", NULL},
    {"shape", "size", NULL},
    {"origin", "pack", "from", NULL},
    {"look", "condition", "damage", NULL},
    {"volts", "found_v", "voltage", "v", "u", NULL},
    {"date", "found_at", "found", NULL},
    {"note", "notes", "remark", NULL},
    {"rated", "rated_ah", "new_ah", "nominal_ah", NULL},
};

size_t lw_cell_rows_memory(const char *bytes, size_t length)
{
    const size_t table = lw_csv_memory(bytes, length);
    size_t lines = 2;
    for (size_t i = 0; i < length; i++)
        lines += bytes[i] == '\n' || bytes[i] == '\r';
    return table ? table + 4 * lines * sizeof(char *) + 16384 : 0;
}

static int find_key(const char *text, size_t length)
{
    for (int key = 0; key < LW_MAP_KEYS; key++)
        for (int i = 0; i < NAMES && names[key][i]; i++)
            if (strlen(names[key][i]) == length && strncasecmp(names[key][i], text, length) == 0)
                return key;
    return -1;
}

bool lw_cell_map_read(const char *text, lw_cell_map *map, lw_error *err)
{
    *map = (lw_cell_map){0};
    for (const char *at = text; *at;) {
        const size_t key_length = strcspn(at, "=,");
        const int key = find_key(at, key_length);
        if (key < 0 || at[key_length] != '=')
            return lw_fail(
                err, LW_WRONG_INPUT, "map",
                "The mapping has \"%.*s\"; write OURS=THEIRS with commas between, where OURS is code, marking, "
                "class, shape, origin, look, volts, date, note or rated.",
                (int)(key_length < 40 ? key_length : 40), at);
        const char *theirs = at + key_length + 1;
        const size_t length = strcspn(theirs, ",");
        if (length == 0 || length >= LW_WORD || map->column[key][0])
            return lw_fail(err, LW_WRONG_INPUT, "map", "The mapping of %s must name one column, once.", names[key][0]);
        for (size_t i = 0; i < length; i++)
            map->column[key][i] = (char)tolower((unsigned char)theirs[i]);
        at = theirs + length + (theirs[length] != '\0');
    }
    return true;
}

static bool is_mapped(const lw_cell_rows *rows, int column)
{
    for (int key = 0; key < LW_MAP_KEYS; key++)
        if (rows->column[key] == column)
            return true;
    return false;
}

/* Mapped columns first; then, for the rest of our keys, columns under a usual name that nothing else uses. */
static bool find_columns(lw_cell_rows *rows, const lw_cell_map *map, lw_error *err)
{
    for (int key = 0; key < LW_MAP_KEYS; key++) {
        const char *theirs = map->column[key];
        rows->column[key] = theirs[0] ? lw_csv_column(&rows->csv, theirs) : -1;
        if (theirs[0] && rows->column[key] < 0)
            return lw_fail(err, LW_WRONG_INPUT, "map", "The file has no column \"%.60s\" for %s.", theirs,
                           names[key][0]);
    }
    for (int key = 0; key < LW_MAP_KEYS; key++)
        for (int i = 0; i < NAMES && names[key][i] && rows->column[key] < 0; i++) {
            const int column = lw_csv_column(&rows->csv, names[key][i]);
            if (column >= 0 && !is_mapped(rows, column))
                rows->column[key] = column;
        }
    return true;
}

static bool has_codes(const lw_cell_rows *rows, lw_error *err)
{
    if (rows->column[CODE] >= 0)
        return true;
    char header[200] = "";
    for (size_t i = 0, used = 0; i < rows->csv.columns && used + 2 < sizeof header; i++)
        used += (size_t)snprintf(header + used, sizeof header - used, "%s%s", i ? ", " : "", rows->csv.header[i]);
    header[sizeof header - 1] = '\0';
    return lw_fail(err, LW_WRONG_INPUT, "code",
                   "No column holds the cells' codes; the file has: %.150s. Name one, as in --map code=%.30s.", header,
                   rows->csv.header[0][0] ? rows->csv.header[0] : "label");
}

static void append(char *out, size_t size, const char *format, const char *a, const char *b)
{
    const size_t used = strlen(out);
    char piece[2 * LW_WORD + 16];
    (void)snprintf(piece, sizeof piece, format, used ? ", " : "", a, b);
    if (used + strlen(piece) < size)
        memcpy(out + used, piece, strlen(piece) + 1);
}

static void tell_columns(lw_cell_rows *rows)
{
    for (size_t column = 0; column < rows->csv.columns; column++) {
        const char *theirs = rows->csv.header[column], *ours = NULL;
        for (int key = 0; key < LW_MAP_KEYS; key++)
            if (rows->column[key] == (int)column)
                ours = names[key][0];
        if (ours)
            append(rows->taken, sizeof rows->taken, "%s%.80s from \"%.80s\"", ours, theirs);
        else
            append(rows->passed, sizeof rows->passed, "%s%.80s%.0s", theirs, "");
    }
}

bool lw_cell_rows_open(const char *bytes, size_t length, const lw_cell_map *map, const lw_cell_record *common,
                       lw_arena *arena, lw_cell_rows *out, lw_error *err)
{
    *out = (lw_cell_rows){.common = *common};
    if (!lw_csv_read_ragged(bytes, length, arena, &out->csv, err) || !find_columns(out, map, err) ||
        !has_codes(out, err))
        return false;
    out->seen_room = 2 * out->csv.rows + 1;
    out->seen = lw_arena_take(arena, out->seen_room, sizeof *out->seen, err);
    if (!out->seen)
        return false;
    tell_columns(out);
    return true;
}

/* False when the code was seen before; letters count alike in both cases, as in the store. */
static bool is_new(lw_cell_rows *rows, const char *code)
{
    uint64_t hash = 14695981039346656037ULL; /* FNV-1a, 64 bits */
    for (const char *c = code; *c; c++)
        hash = (hash ^ (unsigned char)tolower((unsigned char)*c)) * 1099511628211ULL;
    size_t place = (size_t)(hash % rows->seen_room);
    for (; rows->seen[place]; place = (place + 1) % rows->seen_room)
        if (strcasecmp(rows->seen[place], code) == 0)
            return false;
    rows->seen[place] = code;
    return true;
}

static bool take_text(const lw_cell_rows *rows, size_t row, int key, char *out, size_t size, lw_error *err)
{
    const char *text = lw_csv_text(&rows->csv, row, rows->column[key]);
    return text[0] == '\0' || lw_record_text(names[key][0], text, out, size, err);
}

static bool take_numbers(lw_cell_rows *rows, size_t row, lw_cell_record *cell, lw_error *err)
{
    bool given = false;
    double volts = NAN;
    if (rows->column[VOLTS] >= 0 && !lw_csv_number(&rows->csv, row, rows->column[VOLTS], &given, &volts, err))
        return false;
    if (given)
        cell->found_v = volts;
    if (rows->column[RATED] >= 0 && !lw_csv_number(&rows->csv, row, rows->column[RATED], &given, &volts, err))
        return false;
    if (rows->column[RATED] >= 0 && given)
        cell->rated_ah = volts;
    const char *date = lw_csv_text(&rows->csv, row, rows->column[DATE]);
    double days;
    if (!date[0])
        return true;
    if (!lw_utc_parse("date", date, &days, err))
        return false;
    lw_utc_text(days, cell->found_at);
    return true;
}

static bool read_row(lw_cell_rows *rows, size_t row, lw_cell_record *cell, lw_error *err)
{
    const char *class = lw_csv_text(&rows->csv, row, rows->column[CLASS]);
    const char *look = lw_csv_text(&rows->csv, row, rows->column[LOOK]);
    const char *code = lw_csv_text(&rows->csv, row, rows->column[CODE]);
    if (!code[0])
        return lw_fail(err, LW_WRONG_INPUT, "code", "The row has no code.");
    return take_text(rows, row, CODE, cell->code, sizeof cell->code, err) &&
           take_text(rows, row, MARKING, cell->marking, sizeof cell->marking, err) &&
           take_text(rows, row, SHAPE, cell->shape, sizeof cell->shape, err) &&
           take_text(rows, row, ORIGIN, cell->origin, sizeof cell->origin, err) &&
           take_text(rows, row, NOTE, cell->note, sizeof cell->note, err) &&
           (!class[0] || lw_class_read(class, cell->voltage_class, err)) && lw_look_read(look, cell->look, err) &&
           take_numbers(rows, row, cell, err) && lw_cell_check(cell, err) &&
           (is_new(rows, code) ||
            lw_fail(err, LW_WRONG_INPUT, "code", "The code %.40s stands twice in the file.", code));
}

bool lw_cell_rows_next(lw_cell_rows *rows, int *line, lw_cell_record *cell, lw_error *refused)
{
    *refused = (lw_error){0};
    if (rows->at >= rows->csv.rows)
        return false;
    const size_t row = rows->at++;
    *line = rows->csv.line[row];
    *cell = rows->common;
    if (lw_csv_row_fits(&rows->csv, row, refused))
        (void)read_row(rows, row, cell, refused);
    return true;
}
