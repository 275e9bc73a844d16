/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick circuit: what each test point of a lamp should read, and what would hurt.
 */
#include "cli.h"
#include "plan_load.h"

#include "lanewick/circuit_json.h"
#include "lanewick/desk_trial.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 4 << 20, MAX_BYTES = 4 << 20, DRAWS = 400 };

/* No "-0.000" for what is nothing. */
static double plain(double x)
{
    return x > -5e-5 && x < 5e-5 ? 0.0 : x;
}

/* Each piece is said by itself: a condition has brackets of its own, a text has colons. */
static void print_finding(const lw_lamp_finding *finding)
{
    char said[2 * sizeof finding->text];
    const lw_words *words = lw_cli_words();
    (void)lw_say_sentence(words, finding->text, said, sizeof said);
    (void)printf("%s (%s): %s.\n", lw_say(words, lw_finding_level_text(finding->level)),
                 lw_say(words, lw_lamp_condition_text(finding->condition)), said);
}

static void print_readings(const lw_lamp_readings *r, bool own_switch)
{
    for (int c = 0; c < LW_LAMP_CONDITIONS; c++) {
        lw_cli_print("%s%s\n", c ? "\n" : "", lw_lamp_condition_text((lw_lamp_condition)c));
        for (int p = 0; p < LW_TEST_POINTS; p++) {
            const lw_circuit_reading *one = &r->at[c][p];
            if (!lw_test_point_there((lw_test_point)p, own_switch))
                continue;
            const char *unit = lw_test_point_unit((lw_test_point)p);
            (void)printf("  %-40s %9.4f %s  (%.4f to %.4f)\n",
                         lw_say(lw_cli_words(), lw_test_point_text((lw_test_point)p, r->sensor)), plain(one->expected),
                         unit, plain(one->low), plain(one->high));
        }
    }
    lw_cli_print("\nThe band holds nine of ten lamps built from such parts.\n\n");
    for (size_t i = 0; i < r->finding_count; i++)
        print_finding(&r->findings[i]);
    lw_cli_print(
        "CAUTION: measure volts only while the pack is connected; an ammeter across a pack is a short circuit. "
        "Fuse first, pack last.\n");
}

static int answer(const lw_lamp_readings *readings, bool json)
{
    const lw_lamp_finding *refusal = lw_lamp_refusal(readings);
    if (json) {
        char *text = lw_lamp_readings_to_json(readings);
        (void)puts(text ? text : "");
        free(text);
    } else {
        print_readings(readings, false);
    }
    return refusal ? LW_EXIT_REFUSED : LW_EXIT_DONE;
}

static void print_designs(const lw_plan *plan)
{
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_circuit_card *card = &plan->kind[i].circuit;
        (void)printf("%s== %s\n\n", i ? "\n" : "", plan->brief.want.lamp[plan->kind[i].kind].name);
        if (card->there)
            print_readings(&card->readings, card->own_switch);
        else
            lw_cli_print("No circuit was solved: %s\n", card->why_not);
    }
}

static int answer_plan(const lw_plan *plan, bool json)
{
    char *text = json ? lw_plan_circuits_to_json(plan) : NULL;
    if (json)
        (void)puts(text ? text : "");
    else
        print_designs(plan);
    free(text);
    for (size_t i = 0; i < plan->kind_count; i++)
        if (plan->kind[i].circuit.there && lw_lamp_refusal(&plan->kind[i].circuit.readings))
            return LW_EXIT_REFUSED;
    return LW_EXIT_DONE;
}

static int print_trial(const lw_plan *plan, const char *path, bool json)
{
    lw_error err = {0};
    char *bytes = NULL;
    size_t length = 0;
    bool done = lw_cli_read_file(path, MAX_BYTES, &bytes, &length, &err);
    for (size_t i = 0; done && i < plan->kind_count; i++) {
        const char *lamp = plan->brief.want.lamp[plan->kind[i].kind].name;
        lw_trial_answer a;
        done = lw_desk_trial(plan, i, bytes, length, &a, &err);
        if (done && json)
            (void)printf("%s{\"kind\":%zu,\"efficiency\":%.4f,\"low\":%.4f,\"high\":%.4f,\"planned\":%.4f,\"verdict\":"
                         "\"%s\",\"look_for\":\"%s\"}",
                         i ? "," : "{\"trials\":[", plan->kind[i].kind + 1, a.trial.efficiency, a.verdict.low,
                         a.verdict.high, a.planned, a.verdict.verdict, a.verdict.look_for);
        else if (done)
            lw_cli_print("%s, %s: %.0f %% of the panel's energy reaches the pack (%.0f to %.0f), planned %.0f %%: %s.\n"
                         "  Look for: %s.\n",
                         lamp, a.charger, 100.0 * a.trial.efficiency, 100.0 * a.verdict.low, 100.0 * a.verdict.high,
                         100.0 * a.planned, a.verdict.verdict, a.verdict.look_for);
    }
    free(bytes);
    if (!done)
        return lw_cli_fail(&err, json);
    if (json)
        (void)puts("]}");
    else
        lw_cli_print("CAUTION: measure with the fuse in place; never put an ammeter across the pack.\n");
    return LW_EXIT_DONE;
}

/* A plan or a brief: the readings of every design. */
static int of_plan(const char *path, const char *trial, bool json)
{
    lw_error err = {0};
    lw_plan *plan = malloc(sizeof *plan);
    bool done = plan || lw_fail(&err, LW_STORAGE, "", "There is not enough memory for a plan.");
    done = done && lw_cli_load_plan(path, plan, &err);
    if (done && plan->refused.count > 0)
        done = lw_fail(&err, LW_REFUSED, plan->refused.item[0].id, "This plan is refused: %s %s",
                       plan->refused.item[0].reason, plan->refused.item[0].remedy);
    const int code = !done ? lw_cli_fail(&err, json) : trial ? print_trial(plan, trial, json) : answer_plan(plan, json);
    free(plan);
    return code;
}

static bool is_plan(const char *bytes)
{
    return strstr(bytes, "\"lanewick.circuit/1\"") == NULL &&
           (strstr(bytes, "\"lanewick.plan/1\"") != NULL || strstr(bytes, "\"lanewick.brief/1\"") != NULL);
}

static int run(int argc, char **argv)
{
    static lw_lamp_readings readings;
    lw_error err = {0};
    lw_lamp_circuit lamp;
    char *bytes = NULL;
    size_t length = 0;
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    const char *trial = NULL;
    if (!lw_cli_take_option(&argc, argv, "--trial", &trial, &err) || !lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, json);
    if (argc != 2) {
        (void)lw_fail(&err, LW_WRONG_INPUT, "file",
                      "lanewick circuit needs one circuit document; see lanewick circuit "
                      "--help.");
        return lw_cli_fail(&err, json);
    }
    if (!lw_cli_read_file(argv[1], MAX_BYTES, &bytes, &length, &err))
        return lw_cli_fail(&err, json);
    if (is_plan(bytes)) {
        free(bytes);
        return of_plan(argv[1], trial, json);
    }
    if (trial) {
        free(bytes);
        (void)lw_fail(&err, LW_WRONG_INPUT, "trial", "--trial wants a plan or a brief, to know the charger.");
        return lw_cli_fail(&err, json);
    }
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    const bool done =
        lw_lamp_circuit_from_json(bytes, length, &lamp, &err) && lw_lamp_read(&lamp, DRAWS, 1, &arena, &readings, &err);
    const int code = done ? answer(&readings, json) : lw_cli_fail(&err, json);
    free(bytes);
    free(arena.base);
    return code;
}

const lw_command lw_cmd_circuit = {
    .name = "circuit",
    .summary = "a lamp's test points at named conditions, and what would hurt",
    .usage =
        "lanewick circuit FILE.json     readings by day, night, dusk, empty, torn, shorted, reversed (format\n"
        "                               lanewick.circuit/1); --json for one JSON object; exit 3 when refused\n"
        "lanewick circuit PLAN.json     the same for every design of a plan or a brief; with --trial LOG.csv instead\n"
        "                               its charger as tried in the sun (columns panel_v, panel_a, pack_v, pack_a)\n",
    .run = run,
};
