/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick cell: what the log of one cell tells.
 */
#include "cli.h"

#include "lanewick/desk_cell.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct wish {
    bool json;
    double end_v, at_s;
    lw_log_columns columns;
    char lower[3][80]; /* names of columns as the header keeps them */
} wish;

static bool take_number(int *argc, char **argv, const char *name, double low, double high, double *x, lw_error *err)
{
    const char *text;
    if (!lw_cli_take_option(argc, argv, name, &text, err))
        return false;
    if (!text)
        return true;
    char *end;
    *x = strtod(text, &end);
    if (!*text || *end)
        return lw_fail(err, LW_WRONG_INPUT, name + 2, "%s is \"%.40s\"; it must be a number.", name, text);
    return lw_in_range(err, name + 2, *x, low, high, "");
}

static const char *lower(const char *text, char *room, size_t size)
{
    size_t n = 0;
    for (; text[n] && n + 1 < size; n++)
        room[n] = (char)(text[n] >= 'A' && text[n] <= 'Z' ? text[n] + 32 : text[n]);
    room[n] = '\0';
    return room;
}

static bool take_columns(int *argc, char **argv, wish *w, lw_error *err)
{
    static const char *const options[] = {"--time", "--volts", "--amps"};
    const char **names[] = {&w->columns.time, &w->columns.volts, &w->columns.amps};
    for (int k = 0; k < 3; k++) {
        const char *text;
        if (!lw_cli_take_option(argc, argv, options[k], &text, err))
            return false;
        *names[k] = text ? lower(text, w->lower[k], sizeof w->lower[k]) : NULL;
    }
    for (int k = 0; k < LW_LOG_FILTERS; k++) {
        const char *text;
        if (!lw_cli_take_option(argc, argv, "--where", &text, err))
            return false;
        if (!text)
            break;
        char *equals = strchr(text, '=');
        if (!equals)
            return lw_fail(err, LW_WRONG_INPUT, "where", "--where is \"%.40s\"; write COLUMN=VALUE.", text);
        *equals = '\0';
        w->columns.where[k] = text;
        w->columns.is[k] = equals + 1;
    }
    return true;
}

static void print_answer(const lw_log_answer *a)
{
    lw_cli_print("charge           %.4f Ah %s\n", a->charge.drawn_ah, a->charge.drawn_ah < 0.0 ? "(charged)" : "drawn");
    lw_cli_print("energy           %.4f Wh\n", a->charge.drawn_wh);
    lw_cli_print("mean current     %.4f A\n", a->charge.mean_a);
    lw_cli_print("end voltage      %s\n", a->charge.reached ? "reached" : "not reached: the charge is a lower bound");
    lw_cli_print("samples          %zu\n", a->samples);
    if (!a->pulsed)
        return;
    lw_cli_print("resistance       %.2f mohm\n", 1000.0 * a->pulse.resistance_ohm);
    if (a->pulse.fitted)
        lw_cli_print("RC pair          %.2f mohm at once, %.2f mohm with %.1f s\n", 1000.0 * a->pulse.r0_ohm,
                     1000.0 * a->pulse.r1_ohm, a->pulse.tau_s);
}

static int answer(const char *path, const wish *w)
{
    lw_error err = {0};
    lw_log_answer a;
    char *bytes = NULL;
    size_t length = 0;
    if (!lw_cli_read_file(path, LW_CSV_MAX_BYTES, &bytes, &length, &err))
        return lw_cli_fail(&err, w->json);
    lw_arena arena = lw_cli_arena(lw_log_csv_memory(bytes, length));
    int code = LW_EXIT_DONE;
    if (!lw_desk_cell_log(bytes, length, &w->columns, w->end_v, w->at_s, &arena, &a, &err)) {
        code = lw_cli_fail(&err, w->json);
    } else if (w->json) {
        char *text = lw_log_answer_json(&a);
        (void)puts(text ? text : "");
        free(text);
    } else {
        print_answer(&a);
    }
    free(bytes);
    free(arena.base);
    return code;
}

static int run(int argc, char **argv)
{
    wish w = {.end_v = 3.0};
    lw_error err = {0};
    w.json = lw_cli_take_switch(&argc, argv, "--json");
    w.columns.charge_positive = lw_cli_take_switch(&argc, argv, "--charge-positive");
    if (!take_columns(&argc, argv, &w, &err) || !take_number(&argc, argv, "--end-v", 1.0, 4.6, &w.end_v, &err) ||
        !take_number(&argc, argv, "--at", 0.001, 3600.0, &w.at_s, &err) || !lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, w.json);
    if (argc != 3 || strcmp(argv[1], "log") != 0) {
        (void)lw_fail(&err, LW_WRONG_INPUT, "", "Give log and one file; see lanewick cell --help.");
        return lw_cli_fail(&err, w.json);
    }
    return answer(argv[2], &w);
}

const lw_command lw_cmd_cell = {
    .name = "cell",
    .summary = "what the log of one cell tells: charge, energy, resistance",
    .usage = "lanewick cell log FILE.csv [--end-v V] [--at SECONDS]\n"
             "        charge and energy to the end voltage (3.0 V); with --at the resistance that long after the step\n"
             "--time COLUMN --volts COLUMN --amps COLUMN   where they stand, if the names are unusual\n"
             "--where COLUMN=VALUE   only these rows; up to four times\n"
             "--charge-positive      the log counts charging as positive\n"
             "--json                 one JSON object\n",
    .run = run,
};
