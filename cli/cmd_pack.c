/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick pack: placing tested cells in packs.
 */
#include "cli.h"
#include "pack_duty.h"
#include "pack_nights.h"

#include "lanewick/desk_pack.h"
#include "lanewick/duty_json.h"
#include "lanewick/match_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct job {
    bool json, count;
    double need_ah;
    lw_match_ask ask;
    lw_duty_ask duty; /* load_a 0: not asked */
    lw_cell_list list;
    lw_arena arena;
    char *bytes;
    size_t length;
} job;

static bool take_number(int *argc, char **argv, const char *name, double *x, lw_error *err)
{
    const char *text;
    if (!lw_cli_take_option(argc, argv, name, &text, err))
        return false;
    if (!text)
        return true;
    char *end;
    *x = strtod(text, &end);
    if (*text && !*end && *x > -1e9 && *x < 1e15)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, name + 2, "%s is \"%.40s\"; it must be a number.", name, text);
}

static bool take_whole(int *argc, char **argv, const char *name, double low, double *x, lw_error *err)
{
    const double before = *x;
    if (!take_number(argc, argv, name, x, err))
        return false;
    if (*x != before && (*x < low || *x > 1e6 || *x != (double)(long)*x))
        return lw_fail(err, LW_WRONG_INPUT, name + 2, "%s is %g; it must be a whole number from %g.", name, *x, low);
    return true;
}

static bool take_numbers(int *argc, char **argv, job *j, lw_error *err)
{
    double series = 0.0, parallel = 0.0, packs = 1.0, seed = 1.0, holder_mohm = 0.0;
    j->ask.confidence = 0.9;
    j->duty.cell_limit_a = 1.0; /* of a reclaimed 18650 (common practice) */
    if (!take_whole(argc, argv, "--series", 1.0, &series, err) ||
        !take_whole(argc, argv, "--parallel", 1.0, &parallel, err) ||
        !take_whole(argc, argv, "--packs", 1.0, &packs, err) || !take_number(argc, argv, "--seed", &seed, err) ||
        !take_number(argc, argv, "--need-ah", &j->need_ah, err) ||
        !take_number(argc, argv, "--load-a", &j->duty.load_a, err) ||
        !take_number(argc, argv, "--charge-a", &j->duty.charge_a, err) ||
        !take_number(argc, argv, "--cell-limit-a", &j->duty.cell_limit_a, err) ||
        !take_number(argc, argv, "--holder-mohm", &holder_mohm, err) ||
        !take_number(argc, argv, "--confidence", &j->ask.confidence, err) ||
        !take_number(argc, argv, "--tolerance", &j->ask.tolerance_pct, err))
        return false;
    j->duty.path_ohm = holder_mohm / 1000.0;
    j->ask.series = (int)series;
    j->ask.parallel = (int)parallel;
    j->ask.packs = (int)packs;
    j->ask.seed = (uint64_t)(seed > 0.0 ? seed : 0.0);
    return true;
}

static bool take_options(int *argc, char **argv, job *j, lw_error *err)
{
    j->json = lw_cli_take_switch(argc, argv, "--json");
    if (!take_numbers(argc, argv, j, err) || !lw_cli_no_more_options(*argc, argv, err))
        return false;
    if (*argc != 3)
        return lw_fail(err, LW_WRONG_INPUT, "",
                       "Give match, count or nights and one file of cells; see lanewick pack --help.");
    j->count = strcmp(argv[1], "count") == 0;
    if (!j->count && strcmp(argv[1], "match") != 0)
        return lw_fail(err, LW_WRONG_INPUT, "", "\"%.40s\" is not known here; it is match, count or nights.", argv[1]);
    if (j->ask.series < 1)
        return lw_fail(err, LW_WRONG_INPUT, "series", "--series is missing: the number of groups in series.");
    if (j->count && j->need_ah <= 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "need_ah", "--need-ah is missing: the Ah that every group must hold.");
    return true;
}

static bool read_file(const char *path, job *j, lw_error *err)
{
    if (!lw_cli_read_file(path, LW_CSV_MAX_BYTES, &j->bytes, &j->length, err))
        return false;
    j->arena = lw_cli_arena(lw_desk_pack_memory(j->bytes, j->length));
    return true;
}

static void say_notes(const lw_cell_list *list)
{
    if (list->passed_over && list->passed_over[0])
        lw_cli_tell("lanewick: columns not used: %s\n", list->passed_over);
    if (list->doubt && list->doubt[0])
        lw_cli_tell("lanewick: %s\n", list->doubt);
}

static void print_groups(const job *j, const lw_match *m)
{
    for (int g = 0; g < m->groups; g++) {
        if (m->groups > j->ask.series && g % j->ask.series == 0)
            lw_cli_print("pack %d\n", g / j->ask.series + 1);
        lw_cli_print("group %d  %.3f Ah", g % j->ask.series + 1, m->capacity_ah[g]);
        if (m->guaranteed_ah)
            lw_cli_print(" (at least %.3f)", m->guaranteed_ah[g]);
        if (m->group_mohm[g] > 0.0)
            lw_cli_print("  %.1f mohm", m->group_mohm[g]);
        (void)printf(" ");
        for (size_t i = 0; i < j->list.n; i++)
            if (m->group[i] == g)
                (void)printf(" %s", j->list.cells[i].id);
        (void)putchar('\n');
    }
    if (m->left_out == 0)
        return;
    lw_cli_print("left out");
    for (size_t i = 0; i < j->list.n; i++)
        if (m->group[i] < 0)
            (void)printf(" %s", j->list.cells[i].id);
    (void)putchar('\n');
}

static void print_match(const job *j, const lw_match *m, const lw_duty *duty)
{
    print_groups(j, m);
    lw_cli_print("\nweakest group    %.3f Ah; no placing passes %.3f Ah%s\n", m->weakest_ah, m->bound_ah,
                 m->proven ? " (this one is proven the best)" : "");
    if (m->guaranteed_ah)
        lw_cli_print("at %.0f %%          %.3f Ah; no placing passes %.3f Ah\n", 100.0 * j->ask.confidence,
                     m->guaranteed_weakest_ah, m->guaranteed_bound_ah);
    lw_cli_print("spread           %.3f %% between the groups\n", m->spread_pct);
    if (m->resistance_spread_pct > 0.0)
        lw_cli_print("resistances      differ by up to %.0f %% inside a group%s\n", m->resistance_spread_pct,
                     m->resistance_spread_pct > 30.0 ? ": more than 30 %, look at the current sharing" : "");
    if (duty)
        lw_cli_print_duty(&j->list, &j->ask, m, &j->duty, duty);
    else
        (void)putchar('\n');
    for (size_t i = 0; lw_pack_caution(i); i++)
        lw_cli_print("CAUTION: %s\n", lw_pack_caution(i));
}

static int answer_match(job *j, lw_error *err)
{
    lw_match match;
    lw_duty duty;
    const bool with_duty = j->duty.load_a != 0.0 || j->duty.charge_a != 0.0;
    const bool done = lw_desk_pack_match(j->bytes, j->length, &j->ask, &j->arena, &j->list, &match, err) &&
                      (!with_duty || lw_desk_pack_duty(&j->ask, &match, &j->duty, &j->arena, &duty, err));
    say_notes(&j->list);
    if (!done)
        return lw_cli_fail(err, j->json);
    if (!j->json) {
        print_match(j, &match, with_duty ? &duty : NULL);
        return LW_EXIT_DONE;
    }
    char *text = with_duty ? lw_match_duty_to_json(&j->list, &j->ask, &match, &duty)
                           : lw_match_to_json(&j->list, &j->ask, &match);
    (void)puts(text ? text : "");
    free(text);
    return LW_EXIT_DONE;
}

static int answer_count(job *j, lw_error *err)
{
    lw_count count;
    const bool done = lw_desk_pack_count(j->bytes, j->length, &j->ask, j->need_ah, &j->arena, &j->list, &count, err);
    say_notes(&j->list);
    if (!done)
        return lw_cli_fail(err, j->json);
    if (j->json) {
        char *text = lw_count_to_json(&j->list, &j->ask, j->need_ah, &count);
        (void)puts(text ? text : "");
        free(text);
        return LW_EXIT_DONE;
    }
    lw_cli_print("%d packs of %d groups with at least %g Ah each; no placing gives more than %d\n\n", count.packs,
                 j->ask.series, j->need_ah, count.upper_bound);
    if (count.packs > 0)
        print_match(j, &count.match, NULL);
    return LW_EXIT_DONE;
}

static int run(int argc, char **argv)
{
    job j = {0};
    lw_error err = {0};
    int code;
    if (argc > 1 && strcmp(argv[1], "nights") == 0)
        return lw_cli_pack_nights(argc, argv);
    if (take_options(&argc, argv, &j, &err) && read_file(argv[2], &j, &err))
        code = j.count ? answer_count(&j, &err) : answer_match(&j, &err);
    else
        code = lw_cli_fail(&err, j.json);
    free(j.bytes);
    free(j.arena.base);
    return code;
}

const lw_command lw_cmd_pack = {
    .name = "pack",
    .summary = "place tested cells in packs: strongest weakest group, most packs",
    .usage =
        "lanewick pack match CELLS.csv --series S [--parallel P] [--packs N]\n"
        "        places the cells so that the weakest group is as strong as possible, then the groups\n"
        "        alike, then resistances inside a group; without --parallel the groups may have unequal counts\n"
        "lanewick pack count CELLS.csv --series S --need-ah X [--parallel P]\n"
        "        the most packs of S groups with at least X Ah each, and what no placing can pass\n"
        "lanewick pack nights CELLS.csv --series S --lamp SYSTEM.json (--place LAT,LON | --weather FILE)\n"
        "        the lamp's dark nights with the pack that these cells make, today and in each planned year,\n"
        "        beside the same cells wired as they come\n"
        "columns: cell_id, capacity_ah, resistance_mohm; may be there: capacity_sd_ah, voltage_class,\n"
        "verdict, marking\n"
        "--confidence C   of the guaranteed capacity where capacity_sd_ah is given (0.9)\n"
        "--tolerance PCT  of the weakest group that may be given up for like resistances (0)\n"
        "--load-a A       of match: the night's current of the pack (and --charge-a A): how the cells of each group\n"
        "                 share it, what joining them may do, what board, fuse and strips must keep;\n"
        "                 --cell-limit-a A a cell may carry (1), --holder-mohm R of each cell's contact (0)\n"
        "--seed N         of the search and of the weather (1)\n"
        "of nights alone: --planned-years Y (5), --years N of made weather (200), --elev M and --utc-offset H of\n"
        "the place, --threads T, --health SHARE of the capacity when new that is left today (0.75)\n"
        "--json           one JSON object\n",
    .run = run,
};
