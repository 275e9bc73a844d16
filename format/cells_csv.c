/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * List of tested cells: see lanewick/cell_csv.h.
 */
#include "lanewick/cell_csv.h"

#include "lanewick/figure.h"
#include "lanewick/stats.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ID, CAPACITY, RESISTANCE, SD, CLASS, VERDICT, MARKING, KNOWN };
static const char *const names[KNOWN] = {"cell_id",       "capacity_ah", "resistance_mohm", "capacity_sd_ah",
                                         "voltage_class", "verdict",     "marking"};

size_t lw_cell_csv_memory(const char *bytes, size_t length)
{
    const size_t table = lw_csv_memory(bytes, length);
    size_t lines = 2;
    for (size_t i = 0; i < length; i++)
        lines += bytes[i] == '\n' || bytes[i] == '\r';
    return table ? table + lines * (sizeof(lw_lot_cell) + 2 * sizeof(double) + sizeof(void *)) + 8192 : 0;
}

static bool find_columns(const lw_csv *csv, int column[KNOWN], lw_error *err)
{
    for (int k = 0; k < KNOWN; k++)
        column[k] = lw_csv_column(csv, names[k]);
    for (int k = 0; k <= RESISTANCE; k++) {
        if (column[k] >= 0)
            continue;
        const char *near = "";
        for (size_t c = 0; c < csv->columns; c++)
            if (lw_spelling_distance(csv->header[c], names[k]) <= 3)
                near = csv->header[c];
        return lw_fail(err, LW_WRONG_INPUT, names[k],
                       near[0] ? "There is no column %s; is \"%.40s\" meant? Rename it, with the values in the unit of "
                                 "the name."
                               : "There is no column %s%.0s; the header must name cell_id, capacity_ah and "
                                 "resistance_mohm.",
                       names[k], near);
    }
    return true;
}

static bool read_number(lw_csv *csv, size_t row, int column, double *x, lw_error *err)
{
    bool given;
    if (!lw_csv_number(csv, row, column, &given, x, err))
        return false;
    if (*x < 0.0)
        return lw_fail(err, LW_WRONG_INPUT, csv->header[column], "Line %d, %.40s: %g is below 0.", csv->line[row],
                       csv->header[column], *x);
    return true;
}

static bool read_cell(lw_csv *csv, size_t row, const int column[KNOWN], lw_lot_cell *cell, lw_error *err)
{
    *cell = (lw_lot_cell){.id = lw_csv_text(csv, row, column[ID]),
                          .voltage_class = lw_csv_text(csv, row, column[CLASS]),
                          .verdict = lw_csv_text(csv, row, column[VERDICT]),
                          .marking = lw_csv_text(csv, row, column[MARKING])};
    if (!cell->id[0])
        return lw_fail(err, LW_WRONG_INPUT, "cell_id", "Line %d has no cell_id.", csv->line[row]);
    if (!read_number(csv, row, column[CAPACITY], &cell->capacity_ah, err) ||
        !read_number(csv, row, column[RESISTANCE], &cell->resistance_mohm, err))
        return false;
    if (column[SD] >= 0 && !read_number(csv, row, column[SD], &cell->capacity_sd_ah, err))
        return false;
    if (cell->capacity_ah > 0.0)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "capacity_ah", "Line %d: cell %.40s has no capacity; test it or leave it out.",
                   csv->line[row], cell->id);
}

typedef struct label {
    const char *id;
    int line;
} label;

static int by_id(const void *a, const void *b)
{
    const label *x = a, *y = b;
    const int ids = strcmp(x->id, y->id);
    return ids ? ids : x->line - y->line;
}

static bool check_ids(const lw_csv *csv, const lw_cell_list *list, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    label *labels = lw_arena_take(arena, list->n, sizeof *labels, err);
    if (!labels)
        return false;
    for (size_t i = 0; i < list->n; i++)
        labels[i] = (label){list->cells[i].id, csv->line[i]};
    qsort(labels, list->n, sizeof *labels, by_id);
    for (size_t i = 1; i < list->n; i++)
        if (strcmp(labels[i].id, labels[i - 1].id) == 0)
            return lw_fail(err, LW_WRONG_INPUT, "cell_id", "The cell_id %.40s stands twice, on lines %d and %d.",
                           labels[i].id, labels[i - 1].line, labels[i].line);
    arena->used = used;
    return true;
}

/* Columns in each other's place show in their medians: cells hold 0.1 to 20 Ah and have 5 to 500 mohm. */
static bool check_sense(lw_cell_list *list, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    double *x = lw_arena_take(arena, list->n, sizeof *x, err);
    if (!x)
        return false;
    for (size_t i = 0; i < list->n; i++)
        x[i] = list->cells[i].capacity_ah;
    lw_sort(x, list->n);
    const double capacity = lw_quantile_sorted(x, list->n, 0.5);
    for (size_t i = 0; i < list->n; i++)
        x[i] = list->cells[i].resistance_mohm;
    lw_sort(x, list->n);
    const double resistance = lw_quantile_sorted(x, list->n, 0.5);
    arena->used = used;
    if (capacity > 20.0 && resistance > 0.2 && resistance < 5.0)
        return lw_fail(err, LW_WRONG_INPUT, "capacity_ah",
                       "Half of the cells have more than %.3g Ah and less than %.3g mohm; capacity_ah and "
                       "resistance_mohm seem to stand in each other's column.",
                       capacity, resistance);
    list->doubt = "";
    if (capacity > 400.0)
        list->doubt = "Half of the cells have more than 400 Ah: is the capacity in mAh? It is taken as Ah.";
    else if (resistance > 0.0 && resistance < 1.0)
        list->doubt = "Half of the cells have less than 1 mohm: is the resistance in ohm? It is taken as mohm.";
    for (size_t i = 0; i < list->n && !list->doubt[0]; i++)
        if (capacity > 0.0 && list->cells[i].capacity_ah > 100.0 * capacity)
            list->doubt = "A cell has more than 100 times the capacity of the middle one: mAh typed for Ah, or a point "
                          "forgotten? It is taken as it stands; look at the groups.";
    return true;
}

static const char *passed_over(const lw_csv *csv, lw_arena *arena, lw_error *err)
{
    char text[400] = "";
    size_t used = 0;
    for (size_t c = 0; c < csv->columns; c++) {
        bool known = false;
        for (int k = 0; k < KNOWN; k++)
            known = known || strcmp(csv->header[c], names[k]) == 0;
        if (!known && csv->header[c][0] && used + 44 < sizeof text)
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%.40s", used ? ", " : "", csv->header[c]);
    }
    return lw_arena_text(arena, text, err);
}

bool lw_cell_csv_read(const char *bytes, size_t length, lw_arena *arena, lw_cell_list *out, lw_error *err)
{
    lw_csv csv;
    int column[KNOWN];
    *out = (lw_cell_list){0};
    if (!lw_csv_read(bytes, length, arena, &csv, err) || !find_columns(&csv, column, err))
        return false;
    if (csv.rows == 0)
        return lw_fail(err, LW_WRONG_INPUT, "cells", "The table has a header but no cells.");
    if (csv.rows > LW_MATCH_MAX_CELLS)
        return lw_fail(err, LW_WRONG_INPUT, "cells", "There are %zu cells; the most at once is %d.", csv.rows,
                       LW_MATCH_MAX_CELLS);
    out->n = csv.rows;
    out->cells = lw_arena_take(arena, csv.rows, sizeof *out->cells, err);
    if (!out->cells)
        return false;
    for (size_t row = 0; row < csv.rows; row++)
        if (!read_cell(&csv, row, column, &out->cells[row], err))
            return false;
    out->decimal_commas = csv.commas > 0;
    out->passed_over = passed_over(&csv, arena, err);
    return out->passed_over && check_ids(&csv, out, arena, err) && check_sense(out, arena, err);
}
