/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate use PLAN.json: reserves the cells that a plan names.
 */
#include "crate_cli.h"

#include "lanewick/match_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const size_t plan_limit = 4 * 1024 * 1024;

bool lw_crate_names_plan(const lw_crate_job *job)
{
    static const char ending[] = ".json";
    for (int i = 1; i < job->argc; i++) {
        const size_t length = strlen(job->argv[i]);
        if (strcmp(job->argv[i], "-") == 0 ||
            (length >= sizeof ending && strcmp(job->argv[i] + length - strlen(ending), ending) == 0))
            return true;
    }
    return false;
}

static void print_pack(const lw_used_plan *used, size_t p)
{
    const lw_planned_pack *pack = &used->planned.pack[p];
    lw_cli_print("pack %s reserved for %s\n", used->pack[p].code, pack->lamp);
    for (int g = 0; g < pack->series; g++) {
        lw_cli_print("  group %d ", g + 1);
        for (size_t i = pack->first[g]; i < pack->first[g + 1]; i++)
            (void)printf(" %s", used->planned.cell[i]);
        (void)putchar('\n');
    }
}

static void print_used(const lw_crate_job *job, const lw_used_plan *used)
{
    const lw_planned_packs *plan = &used->planned;
    if (job->json) {
        (void)printf("{\"plan\":\"%s\",\"packs\":[", used->plan.code);
        for (size_t p = 0; p < plan->packs; p++)
            (void)printf("%s\"%s\"", p ? "," : "", used->pack[p].code);
        (void)printf("],\"cells\":%zu}\n", plan->cells);
        return;
    }
    for (size_t p = 0; p < plan->packs; p++)
        print_pack(used, p);
    lw_cli_print("%zu cells in %zu packs, all reserved; the plan is kept as %s\n", plan->cells, plan->packs,
                 used->plan.code);
    lw_cli_print("A pack of reclaimed cells is not certified; where local rules forbid it, do not build it.\n");
    for (size_t i = 0; lw_pack_caution(i); i++)
        lw_cli_print("CAUTION: %s\n", lw_pack_caution(i));
}

bool lw_crate_use_plan(lw_crate_job *job, lw_error *err)
{
    lw_use_plan ask = {0};
    lw_used_plan used;
    char *bytes = NULL;
    const lw_text_option texts[] = {{"--pack", &ask.pack}, {"--note", &ask.note}};
    if (!lw_crate_texts(job, texts, 2, err) || !lw_crate_words(job, 1, 1, "PLAN.json", err) ||
        !lw_crate_open(job, false, err) || !lw_cli_read_file(job->argv[1], plan_limit, &bytes, &ask.length, err))
        return false;
    ask.text = bytes;
    lw_arena arena = lw_cli_arena(lw_desk_use_plan_memory(ask.length));
    const bool done = lw_desk_use_plan(job->store, &ask, &arena, &used, err);
    if (done)
        print_used(job, &used);
    free(arena.base);
    free(bytes);
    return done;
}
