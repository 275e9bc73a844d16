/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Logs of a cell: see lanewick/log_csv.h.
 */
#include "lanewick/log_csv.h"

#include "json_help.h"

#include <string.h>

/* Usual names of the three columns, most telling first. */
static const char *const time_names[] = {"time_s", "times_s", "seconds", "time", "t_s", "t", NULL};
static const char *const volt_names[] = {"volts_v", "voltage_v", "volts", "voltage", "u_v", "v", NULL};
static const char *const amp_names[] = {
    "amps_a", "discharge_current_a", "current_a", "amperes", "amps", "current", "i_a", "i", NULL};

size_t lw_log_csv_memory(const char *bytes, size_t length)
{
    const size_t table = lw_csv_memory(bytes, length);
    size_t lines = 2;
    for (size_t i = 0; i < length; i++)
        lines += bytes[i] == '\n' || bytes[i] == '\r';
    return table ? table + lines * 3 * sizeof(double) + 4096 : 0;
}

static bool find(const lw_csv *csv, const char *asked, const char *const *usual, const char *what, int *column,
                 lw_error *err)
{
    if (asked) {
        *column = lw_csv_column(csv, asked);
        return *column >= 0 ||
               lw_fail(err, LW_WRONG_INPUT, what, "There is no column \"%.60s\" for the %s.", asked, what);
    }
    for (; *usual; usual++)
        if ((*column = lw_csv_column(csv, *usual)) >= 0)
            return true;
    return lw_fail(err, LW_WRONG_INPUT, what, "No column looks like the %s; name it with --%s COLUMN.", what, what);
}

static bool find_filters(const lw_csv *csv, const lw_log_columns *columns, int where[LW_LOG_FILTERS], lw_error *err)
{
    for (int k = 0; k < LW_LOG_FILTERS && columns->where[k]; k++) {
        where[k] = lw_csv_column(csv, columns->where[k]);
        if (where[k] < 0)
            return lw_fail(err, LW_WRONG_INPUT, "where", "There is no column \"%.60s\" to choose rows by.",
                           columns->where[k]);
    }
    return true;
}

static bool chosen(const lw_csv *csv, size_t row, const lw_log_columns *columns, const int where[LW_LOG_FILTERS])
{
    for (int k = 0; k < LW_LOG_FILTERS && columns->where[k]; k++)
        if (strcmp(lw_csv_text(csv, row, where[k]), columns->is[k]) != 0)
            return false;
    return true;
}

static bool read_row(lw_csv *csv, size_t row, const int column[3], double *const list[3], size_t n, lw_error *err)
{
    for (int c = 0; c < 3; c++) {
        bool given;
        if (!lw_csv_number(csv, row, column[c], &given, &list[c][n], err))
            return false;
        if (!given)
            return lw_fail(err, LW_WRONG_INPUT, csv->header[column[c]], "Line %d has no %.40s.", csv->line[row],
                           csv->header[column[c]]);
    }
    return true;
}

bool lw_log_csv_read(const char *bytes, size_t length, const lw_log_columns *columns, lw_arena *arena, lw_log *out,
                     lw_error *err)
{
    lw_csv csv;
    int column[3], where[LW_LOG_FILTERS] = {0};
    *out = (lw_log){0};
    if (!lw_csv_read(bytes, length, arena, &csv, err) ||
        !find(&csv, columns->time, time_names, "time", &column[0], err) ||
        !find(&csv, columns->volts, volt_names, "volts", &column[1], err) ||
        !find(&csv, columns->amps, amp_names, "amps", &column[2], err) || !find_filters(&csv, columns, where, err))
        return false;
    double *list[3];
    for (int c = 0; c < 3; c++)
        if (!(list[c] = lw_arena_take(arena, csv.rows + 1, sizeof *list[c], err)))
            return false;
    size_t n = 0;
    for (size_t row = 0; row < csv.rows; row++) {
        if (!chosen(&csv, row, columns, where))
            continue;
        if (!read_row(&csv, row, column, list, n, err))
            return false;
        if (columns->charge_positive)
            list[2][n] = -list[2][n];
        n++;
    }
    if (n == 0)
        return lw_fail(err, LW_WRONG_INPUT, "where", "No row of the log is left%s.",
                       columns->where[0] ? " after choosing" : "");
    *out = (lw_log){list[0], list[1], list[2], n};
    return true;
}

static void put(json_t *object, const char *key, bool given, double x)
{
    json_object_set_new(object, key, given ? lw_json_number(x) : json_null());
}

char *lw_log_answer_json(const lw_log_answer *answer)
{
    json_t *object = json_object();
    const lw_log_charge *c = &answer->charge;
    json_object_set_new(object, "samples", json_integer((json_int_t)answer->samples));
    put(object, "drawn_ah", true, c->drawn_ah);
    put(object, "drawn_wh", true, c->drawn_wh);
    put(object, "mean_a", true, c->mean_a);
    put(object, "end_s", true, c->end_s);
    json_object_set_new(object, "reached", json_boolean(c->reached));
    if (answer->pulsed) {
        const lw_pulse *p = &answer->pulse;
        put(object, "resistance_ohm", true, p->resistance_ohm);
        put(object, "resistance_2s_ohm", p->at_2s_ohm.given, p->at_2s_ohm.value);
        put(object, "resistance_10s_ohm", p->at_10s_ohm.given, p->at_10s_ohm.value);
        put(object, "resistance_20s_ohm", p->at_20s_ohm.given, p->at_20s_ohm.value);
        put(object, "r0_ohm", p->fitted, p->r0_ohm);
        put(object, "r1_ohm", p->fitted, p->r1_ohm);
        put(object, "tau_s", p->fitted, p->tau_s);
    }
    char *text = object ? json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS)) : NULL;
    json_decref(object);
    return text;
}
