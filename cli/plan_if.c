/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick plan --if: the plan made anew with one price moved, beside the plan as it is.
 */
#include "plan_if.h"

#include "lanewick/bill.h"
#include "lanewick/desk.h"
#include "lanewick/prices.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct both {
    const lw_plan *now, *then;
    const lw_moved_price *moved;
    const lw_currency *money;
    int64_t stays_minor, anew_minor; /* all lamps at the moved price */
} both;

/* The same kinds of lamps, as often. */
static bool same_designs(const lw_plan *a, const lw_plan *b)
{
    for (size_t i = 0; i < a->kind_count; i++) {
        bool found = false;
        for (size_t k = 0; k < b->kind_count && !found; k++)
            found = a->kind[i].kind == b->kind[k].kind && a->kind[i].count == b->kind[k].count &&
                    lw_design_same(&a->kind[i].design, &b->kind[k].design);
        if (!found)
            return false;
    }
    return a->kind_count == b->kind_count;
}

static void print_text(const both *b, const lw_words *words)
{
    char from[48], to[48], stays[48], anew[48];
    (void)printf(lw_say(words, "If %s costs %s instead of %s:\n"), b->moved->name,
                 lw_money_text(b->money, b->moved->to_minor, to, sizeof to),
                 lw_money_text(b->money, b->moved->from_minor, from, sizeof from));
    (void)printf(lw_say(words, "  %s for all lamps as they are planned now\n"),
                 lw_money_text(b->money, b->stays_minor, stays, sizeof stays));
    (void)printf(lw_say(words, "  %s for all lamps when they are planned anew\n"),
                 lw_money_text(b->money, b->anew_minor, anew, sizeof anew));
    if (same_designs(b->now, b->then)) {
        (void)puts(lw_say(words, "The same lamps stay the best."));
        return;
    }
    (void)puts(lw_say(words, "Then the best lamps are:"));
    for (size_t i = 0; i < b->then->kind_count; i++) {
        const lw_plan_kind *kind = &b->then->kind[i];
        char what[200];
        lw_design_text(&b->then->brief.shelf, &kind->design, what, sizeof what);
        (void)printf(lw_say(words, "  %d x %s: %s; dark nights %.1f (%.0f to %.0f) a year\n"), kind->count,
                     b->then->brief.want.lamp[kind->kind].name, what, kind->outcome.dark.mean, kind->outcome.dark.low,
                     kind->outcome.dark.high);
    }
}

static bool print_json(const both *b, lw_error *err)
{
    char *text = lw_plan_if_to_json(b->then, b->moved, b->stays_minor, b->anew_minor, !same_designs(b->now, b->then));
    if (!text)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory to write the answer.");
    (void)puts(text);
    free(text);
    return true;
}

static bool refused(const lw_plan *plan, lw_error *err)
{
    return plan->refused.count > 0 && !lw_fail(err, LW_REFUSED, plan->refused.item[0].id, "%s %s",
                                               plan->refused.item[0].reason, plan->refused.item[0].remedy);
}

bool lw_cli_plan_if(const lw_plan_request *request, const char *change, const lw_words *words, bool json, lw_error *err)
{
    lw_moved_price moved;
    char *brief = NULL;
    lw_plan *now = malloc(sizeof *now), *then = malloc(sizeof *then);
    lw_plan_request other = *request;
    bool done = (now && then) || lw_fail(err, LW_STORAGE, "", "There is not enough memory for two plans.");
    done = done && lw_brief_move_price(request->brief, request->brief_length, change, &moved, &brief, err) &&
           lw_desk_plan(request, now, err);
    if (done) {
        other.brief = brief;
        other.brief_length = strlen(brief);
        done = lw_desk_plan(&other, then, err) && !refused(now, err) && !refused(then, err);
    }
    if (done) {
        const lw_shelf *shelf = &then->brief.shelf;
        const both b = {
            now, then, &moved, &shelf->currency, lw_plan_parts_minor(now, shelf), lw_plan_parts_minor(then, shelf)};
        if (json)
            done = print_json(&b, err);
        else
            print_text(&b, words);
    }
    free(brief);
    free(now);
    free(then);
    return done;
}
