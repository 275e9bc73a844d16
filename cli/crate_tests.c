/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate test: what was measured, from options or a file.
 */
#include "crate_cli.h"

#include "lanewick/log_csv.h"
#include "lanewick/records_json.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST = 20000 }; /* readings on the command line; a file may have more */

typedef struct lists {
    double *times, *volts, *amps;
    size_t times_n, volts_n, amps_n;
    char *bytes;
    lw_arena arena;
} lists;

static void forget(lists *l)
{
    free(l->times);
    free(l->volts);
    free(l->amps);
    free(l->bytes);
    free(l->arena.base);
}

/* Numbers with commas between (so decimals have a point), or with semicolons (then decimals may have commas). */
static bool read_list(const char *field, const char *text, double **values, size_t *n, lw_error *err)
{
    if (!text)
        return true;
    const char *between = strchr(text, ';') ? ";" : ",";
    *values = calloc(MOST, sizeof **values);
    if (!*values)
        return lw_fail(err, LW_STORAGE, field, "There is not enough memory for the readings.");
    for (const char *at = text; *n < MOST;) {
        char piece[40];
        const size_t length = strcspn(at, between);
        (void)snprintf(piece, sizeof piece, "%.*s", (int)(length < 39 ? length : 39), at);
        if (!lw_number_read(field, piece, &(*values)[(*n)++], err))
            return false;
        if (!at[length])
            return true;
        at += length + 1;
    }
    return lw_fail(err, LW_WRONG_INPUT, field, "%s has more than %d values; put them in a file for --csv.", field,
                   MOST);
}

static bool csv_column(lw_csv *csv, const char *name, double **values, size_t *n, lw_error *err)
{
    const int column = lw_csv_column(csv, name);
    if (column < 0)
        return true;
    *values = calloc(csv->rows + 1, sizeof **values);
    if (!*values)
        return lw_fail(err, LW_STORAGE, name, "There is not enough memory for the readings.");
    for (*n = 0; *n < csv->rows; (*n)++) {
        bool given;
        if (!lw_csv_number(csv, *n, column, &given, &(*values)[*n], err))
            return false;
        if (!given)
            return lw_fail(err, LW_WRONG_INPUT, name, "Line %d has no %s.", csv->line[*n], name);
    }
    return true;
}

/* A table of a test without currents: times_s and volts_v. */
static bool read_table(lists *l, size_t length, lw_error *err)
{
    l->arena = lw_cli_arena(lw_csv_memory(l->bytes, length) + 4096);
    lw_csv csv;
    if (!lw_csv_read(l->bytes, length, &l->arena, &csv, err))
        return false;
    if (lw_csv_column(&csv, "times_s") < 0 || lw_csv_column(&csv, "volts_v") < 0)
        return lw_fail(err, LW_WRONG_INPUT, "csv", "The file must have the columns times_s and volts_v.");
    return csv_column(&csv, "times_s", &l->times, &l->times_n, err) &&
           csv_column(&csv, "volts_v", &l->volts, &l->volts_n, err);
}

static bool keep_list(const double *from, size_t n, double **values, size_t *count, lw_error *err)
{
    *values = malloc(n * sizeof **values);
    if (!*values)
        return lw_fail(err, LW_STORAGE, "csv", "There is not enough memory for the readings.");
    memcpy(*values, from, n * sizeof **values);
    *count = n;
    return true;
}

/* The names of columns are read in lower case. */
static void lower(char *text)
{
    for (; *text; text++)
        *text = (char)tolower((unsigned char)*text);
}

/* "times=Total Time,volts=U,amps=I" into the three columns; map is changed. */
static bool map_columns(char *map, lw_log_columns *columns, lw_error *err)
{
    lower(map);
    while (*map) {
        char *end = map + strcspn(map, ",");
        char *theirs = map + strcspn(map, "=,");
        const bool more = *end == ',';
        const bool named = *theirs == '=';
        *end = '\0';
        *theirs++ = '\0';
        if (!named)
            return lw_fail(err, LW_WRONG_INPUT, "map", "\"%.40s\": write times=COLUMN,volts=COLUMN,amps=COLUMN.", map);
        if (strcmp(map, "times") == 0)
            columns->time = theirs;
        else if (strcmp(map, "volts") == 0)
            columns->volts = theirs;
        else if (strcmp(map, "amps") == 0)
            columns->amps = theirs;
        else
            return lw_fail(err, LW_WRONG_INPUT, "map", "\"%.40s\" is not times, volts or amps.", map);
        map = end + more;
    }
    return true;
}

/* --where COLUMN=VALUE, up to four times; the texts are cut in place. */
static bool take_filters(lw_crate_job *job, char only[LW_LOG_FILTERS][LW_WORD], lw_log_columns *columns, lw_error *err)
{
    for (int i = 0; i < LW_LOG_FILTERS; i++) {
        const char *where;
        const lw_text_option option = {"--where", &where};
        if (!lw_crate_texts(job, &option, 1, err))
            return false;
        if (!where)
            return true;
        char *value = lw_record_text("where", where, only[i], LW_WORD, err) ? strchr(only[i], '=') : NULL;
        if (!value)
            return lw_fail(err, LW_WRONG_INPUT, "where", "--where is \"%.40s\"; write COLUMN=VALUE.", where);
        *value = '\0';
        lower(only[i]);
        columns->where[i] = only[i];
        columns->is[i] = value + 1;
    }
    return true;
}

static bool read_log(lw_crate_job *job, lists *l, size_t length, lw_error *err)
{
    const char *map;
    char text[400] = "", only[LW_LOG_FILTERS][LW_WORD];
    lw_log log;
    lw_log_columns columns = {.charge_positive = lw_cli_take_switch(&job->argc, job->argv, "--charge-positive")};
    const lw_text_option option = {"--map", &map};
    if (!lw_crate_texts(job, &option, 1, err) || (map && !lw_record_text("map", map, text, sizeof text, err)) ||
        !map_columns(text, &columns, err) || !take_filters(job, only, &columns, err))
        return false;
    l->arena = lw_cli_arena(lw_log_csv_memory(l->bytes, length) + 4096);
    return lw_log_csv_read(l->bytes, length, &columns, &l->arena, &log, err) &&
           keep_list(log.times_s, log.n, &l->times, &l->times_n, err) &&
           keep_list(log.volts_v, log.n, &l->volts, &l->volts_n, err) &&
           keep_list(log.amps_a, log.n, &l->amps, &l->amps_n, err);
}

static bool take_readings(lw_crate_job *job, const char *method, lists *l, lw_error *err)
{
    const char *times, *volts, *amps, *csv;
    size_t length;
    const lw_text_option texts[] = {{"--times", &times}, {"--volts", &volts}, {"--amps", &amps}, {"--csv", &csv}};
    if (!lw_crate_texts(job, texts, 4, err))
        return false;
    if (!csv)
        return read_list("times", times, &l->times, &l->times_n, err) &&
               read_list("volts", volts, &l->volts, &l->volts_n, err) &&
               read_list("amps", amps, &l->amps, &l->amps_n, err);
    if (!lw_cli_read_file(csv, LW_CSV_MAX_BYTES, &l->bytes, &length, err))
        return false;
    const bool log = strcmp(method, "log") == 0 || strcmp(method, "pulse") == 0;
    return log ? read_log(job, l, length, err) : read_table(l, length, err);
}

static bool use_readings(const lists *l, lw_cell_test *test, lw_error *err)
{
    if (strcmp(test->method, "two_pulse") == 0) {
        if (l->volts_n != 2 || l->amps_n != 2)
            return lw_fail(err, LW_WRONG_INPUT, "volts", "two_pulse needs --volts U1,U2 and --amps I1,I2.");
        memcpy(test->pulse_v, l->volts, sizeof test->pulse_v);
        memcpy(test->pulse_a, l->amps, sizeof test->pulse_a);
        return true;
    }
    if (strcmp(test->method, "hold") == 0 && !l->times) {
        test->volts_v = l->volts;
        test->n = l->volts_n;
        return true;
    }
    if (l->times_n != l->volts_n || (l->amps && l->amps_n != l->volts_n))
        return lw_fail(err, LW_WRONG_INPUT, "times",
                       "There are %zu times, %zu voltages and %zu currents; every reading needs its own. Here commas "
                       "part the readings and decimals have points: 4.02,3.80.",
                       l->times_n, l->volts_n, l->amps_n);
    test->times_s = l->times;
    test->volts_v = l->volts;
    test->amps_a = l->amps;
    test->n = l->volts_n;
    return true;
}

static bool take_test(lw_crate_job *job, lw_cell_test *test, lw_error *err)
{
    double before = NAN, after = NAN;
    test->open_after_s = 60.0;
    const lw_text_option texts[] = {{"--meter", &test->meter},
                                    {"--resistor", &test->resistor},
                                    {"--at", &test->at},
                                    {"--flag", &test->flag},
                                    {"--note", &test->note}};
    const lw_number_option numbers[] = {{"--load", &test->load_ohm, 0.01, 1e5, "ohm"},
                                        {"--lead", &test->lead_ohm, 0.0, 10.0, "ohm"},
                                        {"--end", &test->end_v, 0.0, 5.0, "V"},
                                        {"--temp", &test->temp_c, -40.0, 80.0, "degC"},
                                        {"--capacity", &test->capacity_ah, 0.01, 1e6, "Ah"},
                                        {"--current", &test->current_a, 0.001, 1e6, "A"},
                                        {"--open-before", &before, 0.0, 1e6, "V"},
                                        {"--open-after", &after, 0.0, 1e6, "V"},
                                        {"--open-after-s", &test->open_after_s, 0.0, 1e7, "s"}};
    if (!lw_crate_texts(job, texts, sizeof texts / sizeof texts[0], err) ||
        !lw_crate_numbers(job, numbers, sizeof numbers / sizeof numbers[0], err) ||
        !lw_crate_words(job, 1, 1, "CELL", err))
        return false;
    test->open_before_v = (lw_reading){!isnan(before), before};
    test->open_after_v = (lw_reading){!isnan(after), after};
    return true;
}

static void print_results(const lw_crate_job *job, const lw_result_record *results, int count)
{
    if (job->json)
        (void)printf("{\"cell\":\"%s\",\"results\":[", job->argv[1]);
    for (int i = 0; i < count; i++) {
        const lw_result_record *r = &results[i];
        if (job->json) {
            char *text = lw_result_to_json(r);
            (void)printf("%s%s", i ? "," : "", text ? text : "{}");
            free(text);
            continue;
        }
        (void)printf("%-20s %.4g", r->kind, r->value);
        if (!isnan(r->sd))
            (void)printf(" +- %.2g", r->sd);
        lw_cli_print("%s%s\n", r->note[0] ? "   " : "", r->note);
    }
    if (job->json)
        (void)printf("]}\n");
    else
        lw_cli_print("recorded for %s; `lanewick crate judge` puts all its tests together\n", job->argv[1]);
}

/* What can hurt in each way of testing; common practice, with the floors of docs/safety.md. */
static const char *method_caution(const char *method)
{
    static const char discharge[] =
        "a resistor gets hot and a forgotten one kills the cell: stay with it, use the cut-off, never below 2.5 V (LFP "
        "2.0 V), not where people sleep.";
    static const char charge[] =
        "charge attended only, between 0 and 45 degC, on a surface that cannot burn, not where "
        "people sleep. Above 45 degC: out of the house, scrap.";
    static const char step[] = "a large load heats wire and clips: a few seconds, then take it off.";
    static const char rest[] = "rest cells with the ends taped, apart from one another, cool, where nobody sleeps.";
    static const char *const of[][2] = {{"resistor", discharge}, {"log", discharge}, {"charger", charge},
                                        {"hold", charge},        {"flag", charge},   {"pulse", step},
                                        {"two_pulse", step},     {"rest", rest}};
    for (size_t i = 0; i < sizeof of / sizeof of[0]; i++)
        if (strcmp(method, of[i][0]) == 0)
            return of[i][1];
    return NULL;
}

/* A discharge that went below the floor of docs/safety.md: the jig let it. */
static void print_floor(const lw_cell_test *test, const char *voltage_class)
{
    const double floor_v = strcmp(voltage_class, "lfp") == 0 ? 2.0 : 2.5;
    double lowest_v = INFINITY;
    for (size_t i = 0; i < test->n; i++)
        lowest_v = fmin(lowest_v, test->volts_v[i]);
    if (lowest_v < floor_v)
        lw_cli_print("CAUTION: it went down to %.3g V, below %.1f V: the cut-off did not open. Mend the jig before the "
                     "next cell. Read this one again in an hour: below 2.0 V scrap, never charge it; else at 0.05 C at "
                     "most, watched, until 3.0 V.\n",
                     lowest_v, floor_v);
}

static void print_cautions(lw_crate_job *job, const lw_cell_test *test)
{
    lw_cell_record cell;
    lw_error ignored = {0};
    bool found = false;
    if (lw_store_get(job->store, LW_CELLS, "code", test->cell, &cell, &found, &ignored) && found)
        for (size_t i = 0; lw_found_caution(&cell, i); i++)
            lw_cli_print("CAUTION: %s\n", lw_found_caution(&cell, i));
    if (found && (strcmp(test->method, "resistor") == 0 || strcmp(test->method, "log") == 0))
        print_floor(test, cell.voltage_class);
    if (test->flag && strcmp(test->flag, "hot_on_charge") == 0)
        lw_cli_print(
            "CAUTION: a hot cell is scrap: carry it outside in the sand box, away from people; do not press or "
            "open it.\n");
    if (method_caution(test->method))
        lw_cli_print("CAUTION: %s\n", method_caution(test->method));
}

bool lw_crate_test(lw_crate_job *job, lw_error *err)
{
    lw_cell_test test = lw_cell_test_blank();
    lists l = {0};
    lw_result_record results[LW_TEST_RESULTS];
    int count;
    const lw_text_option method = {"--method", &test.method};
    bool done = lw_crate_texts(job, &method, 1, err) &&
                (test.method ||
                 lw_fail(err, LW_WRONG_INPUT, "method",
                         "Name the test: --method resistor, log, pulse, two_pulse, rest, hold, charger or flag.")) &&
                take_readings(job, test.method, &l, err) && take_test(job, &test, err) && use_readings(&l, &test, err);
    test.cell = done ? job->argv[1] : NULL;
    done = done && lw_crate_open(job, false, err) && lw_desk_test(job->store, &test, results, &count, err);
    if (done)
        print_results(job, results, count);
    if (done && !job->json)
        print_cautions(job, &test);
    forget(&l);
    return done;
}
