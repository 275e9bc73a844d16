/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets of a plan one by one: see sheet_walk.h.
 */
#include "sheet_walk.h"

#include "file_name.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* What all sheets are drawn from, worked out once. */
typedef struct work {
    lw_lamp_build *build; /* of every kind of lamp */
    lw_bill bill;
    const lw_label_grid *grid; /* NULL: what fits best */
    lw_price_move move[LW_BILL_MOVES];
    size_t move_count;
    lw_moves_work moves;
} work;

static void drop(work *w)
{
    if (w)
        free(w->build);
    free(w);
}

static work *work_out(const lw_plan *plan, lw_error *err)
{
    enum { SCRATCH = 128 * 1024 };
    work *w = calloc(1, sizeof *w);
    void *memory = malloc(SCRATCH);
    if (w)
        w->build = calloc(plan->kind_count + 1, sizeof *w->build);
    if (!w || !w->build || !memory) {
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the sheets.");
        drop(w);
        free(memory);
        return NULL;
    }
    lw_arena scratch = lw_arena_over(memory, SCRATCH);
    for (size_t i = 0; i < plan->kind_count; i++)
        lw_lamp_build_of(plan, &plan->kind[i], &scratch, &w->build[i]);
    lw_bill_of(plan, &w->bill);
    w->move_count = lw_bill_moves(plan, &w->moves, w->move);
    free(memory);
    return w;
}

static lw_sheet_item item_of(const lw_plan *plan, const work *w, const lw_sheet_kind *sheet, size_t k, const char *code)
{
    lw_sheet_item item = {
        .sheet = sheet,
        .input = {.plan = plan, .bill = &w->bill, .move = w->move, .move_count = w->move_count, .grid = w->grid},
        .lamp = plan->brief.name,
        .plan_code = code};
    if (sheet->each_kind) {
        char part[32] = "";
        item.input.kind = &plan->kind[k];
        item.input.build = &w->build[k];
        item.lamp = plan->brief.want.lamp[plan->kind[k].kind].name;
        (void)lw_plan_kind_name(plan, k, item.kind_name, sizeof item.kind_name);
        lw_file_name_part(part, sizeof part, item.lamp);
        (void)snprintf(item.stem, sizeof item.stem, "%s-%zu-%s", sheet->name, k + 1, part);
    } else {
        (void)snprintf(item.stem, sizeof item.stem, "%s", sheet->name);
    }
    return item;
}

static bool is_group(const char *group)
{
    bool known = strcmp(group, "all") == 0;
    for (size_t i = 0; !known && i < lw_sheet_kind_count; i++)
        known = strcmp(group, lw_sheet_kinds[i]->group) == 0;
    return known;
}

/* *out NULL for "auto". */
static bool find_grid(const char *name, const lw_label_grid **out, lw_error *err)
{
    char known[80] = "";
    *out = lw_label_grid_find(name);
    for (size_t i = 0; i < lw_label_grid_count; i++)
        (void)snprintf(known + strlen(known), sizeof known - strlen(known), "%s, ", lw_label_grids[i].name);
    return *out || strcmp(name, "auto") == 0 ||
           lw_fail(err, LW_WRONG_INPUT, "labels",
                   "labels is \"%.20s\"; give labels across and down of an A4 sheet: %sor auto.", name, known);
}

static bool walk(const lw_plan *plan, const work *w, const char *group, lw_sheet_visit *visit, void *payload)
{
    char code[16];
    const bool all = strcmp(group, "all") == 0;
    lw_plan_code(plan, code);
    for (size_t i = 0; i < lw_sheet_kind_count; i++) {
        const lw_sheet_kind *sheet = lw_sheet_kinds[i];
        if (!all && strcmp(group, sheet->group) != 0)
            continue;
        const size_t times = sheet->each_kind ? plan->kind_count : 1;
        for (size_t k = 0; k < times; k++) {
            const lw_sheet_item item = item_of(plan, w, sheet, k, code);
            if ((!sheet->wanted || sheet->wanted(&item.input)) && !visit(payload, &item))
                return false;
        }
    }
    return true;
}

bool lw_sheet_walk(const lw_plan *plan, const char *group, const char *grid, lw_sheet_visit *visit, void *payload,
                   lw_error *err)
{
    const lw_label_grid *found = NULL;
    if (plan->refused.count > 0)
        return lw_fail(err, LW_REFUSED, plan->refused.item[0].id, "This plan is refused and gets no sheets: %s %s",
                       plan->refused.item[0].reason, plan->refused.item[0].remedy);
    if (!is_group(group))
        return lw_fail(err, LW_WRONG_INPUT, "for",
                       "There are no sheets for \"%.30s\"; give bench, market, mast, handover, labels or all.", group);
    if (!find_grid(grid, &found, err))
        return false;
    work *w = work_out(plan, err);
    if (w)
        w->grid = found;
    const bool done = w && walk(plan, w, group, visit, payload);
    drop(w);
    return done;
}

lw_sheet_head lw_sheet_item_head(const lw_sheet_item *item, const lw_words *words, const char *date)
{
    const char *name = item->kind_name[0] ? item->kind_name : item->lamp;
    const bool unnamed = strcmp(name, lw_lamp_unnamed) == 0;
    return (lw_sheet_head){.words = words,
                           .title = lw_say(words, item->sheet->title),
                           .lamp = unnamed ? item->input.plan->brief.name : name,
                           .code = item->plan_code,
                           .date = date,
                           .bare = item->sheet->bare};
}
