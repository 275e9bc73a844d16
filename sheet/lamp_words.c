/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What several sheets say of the lamps in the same words: which are not built, when they give how much light, what else
 * their packs feed, where the panel looks, money.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *lw_sheet_kind_name(const lw_sheet *sheet, const lw_plan *plan, size_t i, char *out, size_t size)
{
    const lw_plan_kind *kind = &plan->kind[i];
    (void)lw_plan_kind_name(plan, i, out, size);
    const bool numbered = strcmp(out, plan->brief.want.lamp[kind->kind].name) != 0;
    return lw_sheet_format(out, size, numbered ? "%s (%zu)" : "%s", lw_sheet_lamp(sheet, plan, kind), i + 1);
}

void lw_sheet_not_built(lw_sheet *sheet, const lw_plan *plan)
{
    char list[200] = "", text[500];
    size_t n = 0;
    if (plan->lamps_without < 1)
        return;
    for (size_t k = 0; k < plan->brief.want.lamp_count && n < sizeof list; k++) {
        const int lacking = lw_plan_lacking(plan, k);
        if (lacking > 0)
            n += (size_t)snprintf(list + n, sizeof list - n, "%s%d x %s", n ? ", " : "", lacking,
                                  plan->brief.want.lamp[k].name);
    }
    lw_sheet_caution(sheet, lw_sheet_format(text, sizeof text,
                                            SAY("The shelf has no parts left for %d of the %d lamps (%s). They are not "
                                                "built, and this sheet does not count them."),
                                            plan->lamps_without, lw_brief_lamps(&plan->brief), list));
}

static const char *moment(const lw_sheet *sheet, const lw_moment *at, char *out, size_t size)
{
    const double minutes = round(60.0 * at->value);
    switch (at->kind) {
    case LW_AT_DUSK:
        return SAY("dusk");
    case LW_AT_DAWN:
        return SAY("dawn");
    case LW_AT_CLOCK:
        return lw_sheet_format(out, size, "%02d:%02d", (int)minutes / 60 % 24, (int)minutes % 60);
    case LW_AT_NIGHT_SHARE:
        return at->value == 0.5 ? SAY("middle of the night")
                                : lw_sheet_format(out, size, SAY("%.0f %% of the night"), 100.0 * at->value);
    case LW_AFTER_DUSK:
        return lw_sheet_format(out, size, SAY("%.3g h after dusk"), at->value);
    case LW_BEFORE_DAWN:
        return lw_sheet_format(out, size, SAY("%.3g h before dawn"), at->value);
    }
    return "";
}

/* The hours of one entry of the plan. */
typedef struct hours {
    lw_span span[LW_MAX_SPANS];
    int count;
} hours;

static hours hours_of(const lw_plan *plan, size_t i)
{
    hours h = {.count = 0};
    const lw_plan_kind *kind = &plan->kind[i];
    h.count = lw_plan_lamp_spans(&plan->brief, &plan->brief.want.lamp[kind->kind], kind->design.trimmed, h.span);
    return h;
}

static bool same_moment(const lw_moment *a, const lw_moment *b)
{
    return a->kind == b->kind && (a->kind == LW_AT_DUSK || a->kind == LW_AT_DAWN || a->value == b->value);
}

static bool same_hours(const hours *a, const hours *b)
{
    bool same = a->count == b->count;
    for (int i = 0; same && i < a->count; i++)
        same = same_moment(&a->span[i].from, &b->span[i].from) && same_moment(&a->span[i].until, &b->span[i].until) &&
               a->span[i].level == b->span[i].level;
    return same;
}

/* Whether the hours leave a part of the night dark. */
static bool has_gaps(const hours *h)
{
    bool whole = h->span[0].from.kind == LW_AT_DUSK && h->span[h->count - 1].until.kind == LW_AT_DAWN;
    for (int i = 1; i < h->count; i++)
        whole = whole && same_moment(&h->span[i - 1].until, &h->span[i].from);
    return !whole;
}

/* Entries of one kind of lamp with the same hours are told once, by the kind's name. */
static bool told_before(const lw_plan *plan, size_t i)
{
    for (size_t before = 0; before < i; before++)
        if (plan->kind[before].kind == plan->kind[i].kind &&
            plan->kind[before].design.trimmed == plan->kind[i].design.trimmed)
            return true;
    return false;
}

static const char *told_as(const lw_sheet *sheet, const lw_plan *plan, size_t i, char *out, size_t size)
{
    for (size_t other = 0; other < plan->kind_count; other++)
        if (plan->kind[other].kind == plan->kind[i].kind &&
            plan->kind[other].design.trimmed != plan->kind[i].design.trimmed)
            return lw_sheet_kind_name(sheet, plan, i, out, size);
    return lw_sheet_lamp(sheet, plan, &plan->kind[i]);
}

/* "path 133 lm, jetty 182 lm" of those with these hours; alone: without the name, which stands above; level
 * < 0: the names without light. Their number. */
static size_t listed(const lw_sheet *sheet, const lw_plan *plan, const hours *those, double level, bool alone,
                     char *out, size_t size)
{
    size_t n = 0, count = 0;
    out[0] = '\0';
    for (size_t i = 0; i < plan->kind_count && n < size; i++) {
        char name[LW_NAME + 16], light[40] = "";
        const lw_lamp_kind *lamp = &plan->brief.want.lamp[plan->kind[i].kind];
        const hours h = hours_of(plan, i);
        if (told_before(plan, i) || !same_hours(&h, those))
            continue;
        if (level >= 0.0 && lamp->lumens > 0.0)
            (void)snprintf(light, sizeof light, " %.0f\u00a0lm", level * lamp->lumens);
        else if (level >= 0.0)
            (void)snprintf(light, sizeof light, " %.2g\u00a0W", level * lamp->head_w);
        const char *said = alone && level >= 0.0 ? "" : told_as(sheet, plan, i, name, sizeof name);
        n += (size_t)snprintf(out + n, size - n, "%s%s%s", count ? ", " : "", said, said[0] ? light : light + 1);
        count++;
    }
    return count;
}

static void one_step(lw_sheet *sheet, const lw_plan *plan, const hours *h, const lw_span *span, bool alone)
{
    char from[60], until[60], when[160], light[400], text[520];
    (void)lw_sheet_format(when, sizeof when, "%s – %s", moment(sheet, &span->from, from, sizeof from),
                          moment(sheet, &span->until, until, sizeof until));
    (void)listed(sheet, plan, h, span->level, alone, light, sizeof light);
    if (span->level <= 0.0)
        lw_sheet_value(sheet, when, SAY("dark"));
    else if (span->level >= 1.0)
        lw_sheet_value(sheet, when, lw_sheet_format(text, sizeof text, SAY("full light: %s"), light));
    else
        lw_sheet_value(
            sheet, when,
            lw_sheet_format(text, sizeof text, SAY("%.0f %% of full light: %s"), 100.0 * span->level, light));
}

/* All entries with the hours of entry i, unless an earlier one had them. */
static void one_schedule(lw_sheet *sheet, const lw_plan *plan, size_t i, bool *gaps)
{
    char names[400], every[400];
    const hours h = hours_of(plan, i);
    bool all = true;
    for (size_t other = 0; other < plan->kind_count; other++) {
        const hours its = hours_of(plan, other);
        if (other < i && same_hours(&its, &h))
            return;
        all = all && same_hours(&its, &h);
    }
    const bool alone = listed(sheet, plan, &h, -1.0, false, names, sizeof names) == 1;
    if (!all && i > 0)
        lw_sheet_gap(sheet, 2.0);
    if (!all)
        lw_sheet_text(sheet, lw_sheet_format(every, sizeof every, "%.380s:", names));
    for (int s = 0; s < h.count; s++)
        one_step(sheet, plan, &h, &h.span[s], alone);
    *gaps = *gaps || has_gaps(&h);
}

void lw_sheet_hours(lw_sheet *sheet, const lw_plan *plan)
{
    const lw_want *want = &plan->brief.want;
    char text[300];
    bool gaps = false;
    for (size_t i = 0; i < plan->kind_count; i++)
        one_schedule(sheet, plan, i, &gaps);
    lw_sheet_gap(sheet, 1.0);
    if (gaps)
        lw_sheet_text(sheet, SAY("At all other hours of the night it is dark; so it was planned."));
    if (want->dims)
        lw_sheet_text(sheet, lw_sheet_format(text, sizeof text,
                                             SAY("To save the pack, the light goes down to %.0f %% of this while less "
                                                 "than %.0f %% of the charge is left."),
                                             100.0 * want->dim.factor, 100.0 * want->dim.below_share));
}

size_t lw_sheet_loads(lw_sheet *sheet, const lw_plan *plan)
{
    size_t count = 0;
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++) {
        const lw_lamp_kind *lamp = &plan->brief.want.lamp[k];
        for (size_t i = 0; i < lamp->load_count && lw_plan_lacking(plan, k) < lamp->count; i++) {
            const lw_other_load *load = &lamp->load[i];
            char name[LW_NAME + 60], when[80], from[24], until[24];
            const lw_moment begins = {LW_AT_CLOCK, load->from_h}, ends = {LW_AT_CLOCK, load->until_h};
            if (count++ == 0)
                lw_sheet_heading(sheet, SAY("What else the packs feed"));
            (void)lw_sheet_format(name, sizeof name, "%s: %s", lamp->name, load->name);
            if (load->always)
                (void)lw_sheet_format(when, sizeof when, SAY("%.3g W, at all hours"), load->power_w);
            else
                (void)lw_sheet_format(when, sizeof when, "%.3g W, %s–%s", load->power_w,
                                      moment(sheet, &begins, from, sizeof from),
                                      moment(sheet, &ends, until, sizeof until));
            lw_sheet_value(sheet, name, when);
        }
    }
    return count;
}

void lw_sheet_load_cautions(lw_sheet *sheet, const lw_sheet_input *input)
{
    const lw_lamp_kind *lamp = &input->plan->brief.want.lamp[input->kind->kind];
    char text[500];
    for (size_t i = 0; i < lamp->load_count; i++)
        lw_sheet_caution(
            sheet,
            lw_sheet_format(text, sizeof text,
                            SAY("This pack also feeds: %s, %.3g W. Fuse and lead of the pack are chosen for both. Its "
                                "own wire, socket and fuse are not planned here: join it behind the pack's fuse, with "
                                "a fuse of its own no larger than its wire carries. Unplug it before you measure."),
                            lamp->load[i].name, lamp->load[i].power_w));
}

const char *lw_sheet_facing(const lw_sheet *sheet, double facing_deg, char *out, size_t size)
{
    const char *names[] = {SAY("north"), SAY("north-east"), SAY("east"), SAY("south-east"),
                           SAY("south"), SAY("south-west"), SAY("west"), SAY("north-west")};
    const double turn = fmod(fmod(facing_deg, 360.0) + 360.0, 360.0);
    return lw_sheet_format(out, size, SAY("%s (%.0f degrees from north, clockwise)"),
                           names[(size_t)lround(turn / 45.0) % 8], turn);
}

void lw_sheet_lit_night(lw_sheet *sheet, const lw_currency *currency, const lw_bill *bill)
{
    char amount[64], text[100];
    if (isnan(bill->lit_night))
        return;
    const int64_t minor = lw_money_nearest(currency, bill->lit_night);
    (void)lw_money_joined(currency, minor > 0 ? minor : 1, amount, sizeof amount);
    lw_sheet_value(sheet, SAY("One lit night of one lamp"),
                   minor > 0 ? amount : lw_sheet_format(text, sizeof text, SAY("under %s"), amount));
}
