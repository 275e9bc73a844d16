/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lane of a plan in words and tables: where the masts stand, the light step by step and hour by hour, what the next
 * mast, height, lumen or late level buys.
 */
#include "plan_text.h"

#include "lanewick/desk.h"
#include "lanewick/layout_json.h"

#include <math.h>
#include <stdlib.h>

static const char *class_text(const lw_plan *plan, const lw_field_sum *light)
{
    const lw_light_class *reached = lw_light_class_reached(light, plan->brief.want.lane.ask.wanted_class[0] == 'C');
    return reached ? reached->name : "-";
}

static const char *side_words(const lw_plan *plan)
{
    static const char *const words[] = {"on one side", "on both sides in turn", "over the middle"};
    const lw_layout *l = &plan->lane.chosen.layout;
    const bool polygon = plan->brief.want.lane.ask.wish.field.kind == LW_FIELD_POLYGON;
    return !(l->spacing_m > 0.0) ? "on the given places" : polygon ? "round the edge" : words[l->side];
}

static void spacing_words(const lw_text *text, const lw_plan *plan, char *out, size_t size)
{
    const lw_layout *l = &plan->lane.chosen.layout;
    char words[110];
    if (plan->brief.want.lane.ask.wish.field.kind == LW_FIELD_STRIP && l->masts > 1)
        (void)snprintf(words, sizeof words, SAY("one every %.1f m, the outermost %.1f m from the ends"), l->spacing_m,
                       l->end_m);
    else
        (void)snprintf(words, sizeof words, SAY("one every %.1f m"), l->spacing_m);
    (void)snprintf(out, size, ", %s", words);
}

void lw_lane_summary(const lw_text *text, const lw_plan *plan)
{
    const lw_plan_lane *lane = &plan->lane;
    const lw_layout *l = &lane->chosen.layout;
    const lw_shelf *shelf = &plan->brief.shelf;
    char line[600], every[120] = "", head[LW_NAME + 24];
    if (shelf->head_count > 0)
        (void)snprintf(head, sizeof head, SAY("heads (%s)"), shelf->head[l->head].name);
    else
        (void)snprintf(head, sizeof head, "%s", SAY("heads"));
    if (l->spacing_m > 0.0)
        spacing_words(text, plan, every, sizeof every);
    (void)snprintf(line, sizeof line,
                   "Lane: %zu %s, light %.3g m up, %s%s; %s of %.0f lm (%.2g W), tilted %.0f degrees. After %.3g "
                   "years %.2f lx on average and %.2f lx at the darkest point at full light (class %s): %s.",
                   l->masts, l->masts == 1 ? SAY("mast") : SAY("masts"), l->height_m, SAY(side_words(plan)), every,
                   head, l->lumens_each, lane->chosen.head_w, l->tilt_deg, plan->brief.want.planned_years,
                   l->light.average_lx, l->light.minimum_lx, class_text(plan, &l->light), lw_light_in_words(&l->light));
    lw_text_wrap(text, 0, line);
    if (!lane->chosen.fed)
        lw_text_wrap(text, 0,
                     "No way of lighting the lane keeps the wished nights with this shelf; this one takes the fewest "
                     "watts.");
}

static void steps(const lw_text *text, const lw_plan *plan)
{
    const lw_plan_lane *lane = &plan->lane;
    lw_text_heading(text, "The light on the lane by step of the night (lx: average, darkest, evenness, class)");
    lw_text_line(text, "                        light   new and clean              after %.3g years, dirty (%.0f %%)\n",
                 plan->brief.want.planned_years,
                 100.0 * lw_layout_left(&plan->brief.want.lane.ask.wish, &lane->chosen.layout));
    for (size_t i = 0; i < lane->step_count; i++) {
        const lw_lane_step *s = &lane->step[i];
        char from[24], until[24], when[52];
        lw_moment_text(&s->span.from, from, sizeof from);
        lw_moment_text(&s->span.until, until, sizeof until);
        (void)snprintf(when, sizeof when, SAY("%s to %s"), from, until);
        (void)fprintf(text->out, "  %-20s %4.0f %%   %5.2f %5.2f %5.2f %-4s    %5.2f %5.2f %5.2f %-4s\n", when,
                      100.0 * s->span.level, s->fresh.average_lx, s->fresh.minimum_lx, s->fresh.uniformity,
                      class_text(plan, &s->fresh), s->worn.average_lx, s->worn.minimum_lx, s->worn.uniformity,
                      class_text(plan, &s->worn));
    }
    lw_text_line(text, "  Lost upward %.1f %%; threshold increment %.0f %% (P classes allow 20 to 35).\n",
                 100.0 * lane->chosen.layout.light.upward_share, lane->threshold_increment_pct);
    const lw_layout_request *ask = &plan->brief.want.lane.ask;
    const double colour_k = ask->head[lane->chosen.layout.head].colour_k;
    if (!(colour_k > 0.0))
        return;
    const lw_light_colour colour = lw_layout_colour(ask, &lane->chosen.layout);
    char line[500];
    (void)snprintf(line, sizeof line, "Colour: %s, %.0f K. %s", colour.grade, colour_k, colour.advice);
    lw_text_wrap(text, 2, line);
}

static void hours(const lw_text *text, const lw_plan_lane *lane)
{
    lw_text_heading(text, "Hour by hour (local clock; light of aged heads, mean of the nights that are dark then)");
    lw_text_line(text, "  hour     dark nights  level  average  darkest\n");
    for (size_t i = 0; i < lane->hour_count; i++) {
        const lw_lane_hour *h = &lane->hour[i];
        (void)fprintf(text->out, SAY("  %02d to %02d    %4.0f %%    %3.0f %%  %5.2f lx  %5.2f lx\n"), h->hour,
                      (h->hour + 1) % 24, 100.0 * h->dark_share, 100.0 * h->level, h->average_lx, h->minimum_lx);
    }
}

static void places(const lw_text *text, const lw_plan_lane *lane)
{
    lw_text_heading(text, "Where the masts stand (x along the lane, y across it, from its right-hand edge)");
    lw_text_line(text, "  mast        x        y    turned  tilted\n");
    for (size_t i = 0; i < lane->chosen.layout.masts; i++)
        (void)fprintf(text->out, "  %4zu  %6.1f m %6.1f m   %5.0f°   %4.0f°\n", i + 1, lane->lamp[i].x_m,
                      lane->lamp[i].y_m, lane->lamp[i].turn_deg, lane->lamp[i].tilt_deg);
}

/* late: the light in the columns is that of the turned-down hours. */
static void row(const lw_text *text, const lw_plan *plan, const lw_lane_row *r, bool late_light)
{
    const lw_currency *currency = &plan->brief.shelf.currency;
    const double share = late_light ? r->level : 1.0;
    char cost[48] = "not enough parts", more[48] = "", late[16] = "as said";
    if (r->fed)
        (void)lw_money_text(currency, r->cost_minor, cost, sizeof cost);
    if (r->fed && plan->lane.chosen.fed && !r->chosen) {
        const int64_t change = r->cost_minor - plan->lane.chosen.cost_minor;
        char amount[40];
        (void)snprintf(more, sizeof more, "%s%s", change < 0 ? "-" : "+",
                       lw_money_text(currency, change < 0 ? -change : change, amount, sizeof amount));
    }
    if (!isnan(r->level))
        (void)snprintf(late, sizeof late, "%.0f %%", 100.0 * r->level);
    (void)fprintf(text->out, "  %s %5zu  %-9s %4.3g m %4.0f° %6.0f lm %5.1f W  %-7s  %5.2f lx %5.2f lx  %-16s %s%s%s\n",
                  r->chosen ? ">" : " ", r->layout.masts,
                  lw_layout_stand_text(&plan->brief.want.lane.ask.wish, &r->layout), r->layout.height_m,
                  r->layout.tilt_deg, r->layout.lumens_each, r->head_w, late, share * r->layout.light.average_lx,
                  share * r->layout.light.minimum_lx, cost, more, r->lit ? "" : "  ",
                  r->lit ? "" : SAY("less light than wanted"));
}

static void rows(const lw_text *text, const lw_plan *plan, const char *heading, const lw_lane_row *list, size_t count,
                 bool late_light)
{
    if (count == 0)
        return;
    lw_text_heading(text, heading);
    lw_text_line(
        text, "    masts  side      height tilt  lumens   watts  late     average  darkest   all lamps        against "
              "the plan\n");
    for (size_t i = 0; i < count; i++)
        row(text, plan, &list[i], late_light);
}

void lw_lane_tables(const lw_text *text, const lw_plan *plan)
{
    const lw_plan_lane *lane = &plan->lane;
    if (!lane->given)
        return;
    steps(text, plan);
    hours(text, lane);
    places(text, lane);
    rows(text, plan, "What each mast buys (the best way for each number)", lane->by_masts, lane->masts_count, false);
    rows(text, plan, "What each height buys", lane->by_height, lane->height_count, false);
    rows(text, plan, "What lumens buy", lane->by_light, lane->light_count, false);
    rows(text, plan, "What light late at night costs (lx: late)", lane->by_late, lane->late_count, true);
    if (lane->masts_count == 0)
        return;
    char line[400];
    (void)snprintf(
        line, sizeof line,
        "%ld ways of standing give the light. For these tables the nights of %ld kinds of lamp were simulated "
        "over the first draws; the chosen one is simulated in full, and its cost in the plan may differ by "
        "a cell.",
        lane->ways, lane->sized);
    lw_text_wrap(text, 0, line);
}

char *lw_desk_lane_text(const lw_plan *plan, const lw_words *words, bool colour)
{
    char *bytes = NULL;
    size_t length = 0;
    lw_text text = {open_memstream(&bytes, &length), words, colour};
    if (!text.out)
        return NULL;
    lw_lane_summary(&text, plan);
    lw_lane_tables(&text, plan);
    if (fclose(text.out) != 0) {
        free(bytes);
        return NULL;
    }
    return bytes;
}
