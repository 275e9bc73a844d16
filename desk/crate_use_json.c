/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reserving the cells of a plan, with the answer as JSON: see lanewick/desk_crate_json.h.
 */
#include "lanewick/desk_crate_json.h"

#include "lanewick/desk_crate.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Written in memory; free() it, NULL when memory is out. */
static char *answer_of(const lw_used_plan *used)
{
    char *text = NULL;
    size_t size;
    FILE *out = open_memstream(&text, &size);
    if (!out)
        return NULL;
    (void)fprintf(out, "{\"plan\":\"%s\",\"packs\":[", used->plan.code);
    for (size_t p = 0; p < used->planned.packs; p++)
        (void)fprintf(out, "%s\"%s\"", p ? "," : "", used->pack[p].code);
    (void)fprintf(out, "],\"cells\":%zu}", used->planned.cells);
    if (fclose(out) == 0)
        return text;
    free(text);
    return NULL;
}

bool lw_desk_use_plan_json(const char *path, const char *who, const char *plan, char **json, lw_error *err)
{
    lw_store *store;
    lw_used_plan used;
    const lw_use_plan ask = {.text = plan, .length = strlen(plan)};
    const size_t size = lw_desk_use_plan_memory(ask.length);
    *json = NULL;
    if (!lw_store_open(&(lw_store_options){.path = path, .who = who}, &store, err))
        return false;
    lw_arena arena = lw_arena_over(malloc(size), size);
    bool done = arena.base || lw_fail(err, LW_STORAGE, "", "Memory is out.");
    done = done && lw_desk_use_plan(store, &ask, &arena, &used, err);
    if (done)
        *json = answer_of(&used);
    lw_store_close(store);
    free(arena.base);
    return done && (*json || lw_fail(err, LW_STORAGE, "", "Memory is out."));
}
