/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate judge, use, free.
 */
#include "crate_cli.h"

#include "lanewick/match_json.h"
#include "lanewick/records_json.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void print_judged(const lw_judged_cell *c)
{
    (void)printf("%-10s %-7s", c->cell.code, c->standing.verdict);
    if (!isnan(c->standing.capacity_ah))
        (void)printf(" %.2f +- %.2f Ah", c->standing.capacity_ah, c->standing.capacity_sd_ah);
    if (!isnan(c->standing.capacity_ah) && !isnan(c->cell.rated_ah))
        lw_cli_print(", %.0f +- %.0f %% of new", 100.0 * c->standing.capacity_ah / c->cell.rated_ah,
                     100.0 * c->standing.capacity_sd_ah / c->cell.rated_ah);
    if (!isnan(c->standing.resistance_ohm))
        lw_cli_print("  %.0f +- %.0f mohm", 1000.0 * c->standing.resistance_ohm,
                     1000.0 * c->standing.resistance_sd_ohm);
    for (size_t i = 0; i < c->judgement.reason_count; i++)
        lw_cli_print("\n    %s", c->judgement.reasons[i].text);
    if (c->standing.next_test[0])
        lw_cli_print("\n    next: %s", c->standing.next_test);
    (void)putchar('\n');
}

static void print_verdicts(const lw_crate_job *job, const lw_judged_cell *cells, size_t n)
{
    int count[LW_SCRAP + 1] = {0};
    if (job->json)
        (void)printf("{\"cells\":[");
    for (size_t i = 0; i < n; i++) {
        count[cells[i].judgement.verdict]++;
        if (!job->json) {
            print_judged(&cells[i]);
            continue;
        }
        char *text = lw_cell_to_json(&cells[i].cell, &cells[i].standing, job->argv[1], "");
        (void)printf("%s%s", i ? ",\n" : "", text ? text : "{}");
        free(text);
    }
    if (job->json) {
        (void)printf("],\"sound\":%d,\"tired\":%d,\"unsure\":%d,\"scrap\":%d}\n", count[LW_SOUND], count[LW_TIRED],
                     count[LW_UNSURE], count[LW_SCRAP]);
        return;
    }
    lw_cli_print("\n%d sound, %d tired, %d unsure, %d scrap\n", count[LW_SOUND], count[LW_TIRED], count[LW_UNSURE],
                 count[LW_SCRAP]);
    if (count[LW_SCRAP] > 0)
        lw_cli_print("CAUTION: scrap cells: both ends taped, in the sand box, out of the house. Do not post or fly "
                     "them; battery waste and transport by local rules.\n");
}

bool lw_crate_judge(lw_crate_job *job, lw_error *err)
{
    lw_arena arena = {0};
    lw_judged_cell *cells;
    size_t n;
    const bool done = lw_crate_words(job, 1, 1, "CRATE", err) && lw_crate_judged(job, &arena, &cells, &n, err);
    if (done)
        print_verdicts(job, cells, n);
    free(arena.base);
    return done;
}

static bool take_use(lw_crate_job *job, lw_use_request *request, char class[12], lw_error *err)
{
    const char *text;
    double seed = 1.0, series = 0.0, parallel = 0.0, packs = 1.0;
    *request = (lw_use_request){.confidence = 0.9};
    request->tired = lw_cli_take_switch(&job->argc, job->argv, "--tired");
    const lw_text_option texts[] = {{"--class", &text}, {"--pack", &request->pack}, {"--note", &request->note}};
    const lw_number_option numbers[] = {{"--series", &series, 1.0, 16.0, ""},
                                        {"--parallel", &parallel, 1.0, 10000.0, ""},
                                        {"--packs", &packs, 1.0, 10000.0, ""},
                                        {"--need-ah", &request->need_ah, 0.01, 1e5, "Ah"},
                                        {"--confidence", &request->confidence, 0.5, 0.999, ""},
                                        {"--tolerance", &request->tolerance_pct, 0.0, 100.0, "%"},
                                        {"--seed", &seed, 0.0, 9007199254740992.0, ""}};
    if (!lw_crate_texts(job, texts, sizeof texts / sizeof texts[0], err) ||
        (text && !lw_class_read(text, class, err)) ||
        !lw_crate_numbers(job, numbers, sizeof numbers / sizeof numbers[0], err) ||
        !lw_crate_words(job, 0, 1, "[CRATE] --series S", err))
        return false;
    if (series != floor(series) || parallel != floor(parallel) || packs != floor(packs) || seed != floor(seed))
        return lw_fail(err, LW_WRONG_INPUT, "series",
                       "--series, --parallel, --packs and --seed must be whole numbers.");
    request->series = (int)series;
    request->parallel = (int)parallel;
    request->packs = (int)packs;
    request->seed = (uint64_t)seed;
    request->voltage_class = class;
    request->crate = job->argc > 1 ? job->argv[1] : NULL;
    return true;
}

static void print_use(const lw_crate_job *job, const lw_use *use)
{
    const lw_match *m = &use->match;
    const int series = use->ask.series;
    if (job->json) {
        const lw_cell_list list = {.cells = use->cells, .n = use->n, .passed_over = "", .doubt = ""};
        char *text = lw_match_to_json(&list, &use->ask, m);
        (void)printf("{\"packs\":[");
        for (int p = 0; p < m->groups / series; p++)
            (void)printf("%s\"%s\"", p ? "," : "", use->pack[p].code);
        (void)printf("],\"match\":%s}\n", text ? text : "{}");
        free(text);
        return;
    }
    for (int g = 0; g < m->groups; g++) {
        if (g % series == 0)
            lw_cli_print("pack %s reserved\n", use->pack[g / series].code);
        lw_cli_print("  group %d  %.3f Ah", g % series + 1, m->capacity_ah[g]);
        if (m->guaranteed_ah)
            lw_cli_print(" (at least %.3f)", m->guaranteed_ah[g]);
        (void)printf(" ");
        for (size_t i = 0; i < use->n; i++)
            if (m->group[i] == g)
                (void)printf(" %s", use->cells[i].id);
        (void)putchar('\n');
    }
    lw_cli_print("weakest group %.3f Ah; no placing passes %.3f Ah\n", m->weakest_ah, m->bound_ah);
    if (use->upper_bound > 0)
        lw_cli_print("%d packs; no placing gives more than %d\n", m->groups / series, use->upper_bound);
    lw_cli_print("A pack of reclaimed cells is not certified; where local rules forbid it, do not build it.\n");
    for (size_t i = 0; lw_pack_caution(i); i++)
        lw_cli_print("CAUTION: %s\n", lw_pack_caution(i));
}

bool lw_crate_use(lw_crate_job *job, lw_error *err)
{
    lw_use_request request;
    lw_use use;
    char class[12] = "4v2";
    if (lw_crate_names_plan(job))
        return lw_crate_use_plan(job, err);
    if (!take_use(job, &request, class, err) || !lw_crate_open(job, false, err))
        return false;
    lw_arena arena = lw_cli_arena(lw_desk_use_memory(job->store));
    const bool done = lw_desk_use(job->store, &request, &arena, &use, err);
    if (done)
        print_use(job, &use);
    free(arena.base);
    return done;
}

bool lw_crate_free(lw_crate_job *job, lw_error *err)
{
    const char *note;
    int cells;
    const lw_text_option option = {"--note", &note};
    if (!lw_crate_texts(job, &option, 1, err) || !lw_crate_words(job, 1, 1, "PACK", err) ||
        !lw_crate_open(job, false, err) || !lw_desk_free(job->store, job->argv[1], note, &cells, err))
        return false;
    if (job->json)
        (void)printf("{\"pack\":\"%s\",\"cells\":%d}\n", job->argv[1], cells);
    else
        lw_cli_print(
            "pack %s is apart; %d cells are free again, with their history. Tests of a used pack's cells are old: "
            "test them anew.\nCAUTION: eye protection and gloves; not alone; dry sand at hand. Fuse out first, then "
            "cut "
            "one wire at a time; tape each end.\n",
            job->argv[1], cells);
    return true;
}
