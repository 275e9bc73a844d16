/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lane of a plan as JSON: docs/plan.md.
 */
#include "json_help.h"
#include "lane_wish.h"
#include "plan_json.h"

#include "lanewick/layout_json.h"

#include <math.h>

static json_t *class_json(const lw_plan *plan, const lw_field_sum *light)
{
    const bool crossing = plan->brief.want.lane.ask.wanted_class[0] == 'C';
    const lw_light_class *reached = lw_light_class_reached(light, crossing);
    return reached ? json_string(reached->name) : json_null();
}

static json_t *light_json(const lw_plan *plan, const lw_field_sum *light)
{
    return json_pack("{s:o,s:o,s:o,s:o,s:o,s:s}", "average_lx", lw_json_number(light->average_lx), "minimum_lx",
                     lw_json_number(light->minimum_lx), "uniformity", lw_json_number(light->uniformity), "face_lx",
                     lw_json_number(light->semicylindrical_minimum_lx), "class", class_json(plan, light), "in_words",
                     lw_light_in_words(light));
}

static json_t *head_name(const lw_plan *plan, const lw_lane_row *row)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    return shelf->head_count > 0 ? json_string(shelf->head[row->layout.head].name) : json_null();
}

static json_t *row_json(const lw_plan *plan, const lw_lane_row *row)
{
    const lw_layout *l = &row->layout;
    const lw_shelf *shelf = &plan->brief.shelf;
    const lw_plan_lane *lane = &plan->lane;
    json_t *out =
        json_pack("{s:i,s:s,s:o,s:o,s:o,s:o,s:o}", "masts", (int)l->masts, "side", lw_side_text(l->side), "spacing_m",
                  lw_json_number(l->spacing_m), "height_m", lw_json_number(l->height_m), "tilt_deg",
                  lw_json_number(l->tilt_deg), "turn_deg", lw_json_number(l->turn_deg), "head", head_name(plan, row));
    json_object_set_new(out, "end_m", lw_json_number(l->end_m));
    json_object_set_new(out, "lumens_each", lw_json_number(l->lumens_each));
    json_object_set_new(out, "watts_each", lw_json_number(row->head_w));
    json_object_set_new(out, "watts_together", lw_json_number(row->head_w * (double)l->masts));
    json_object_set_new(out, "late_level", lw_json_number(row->level));
    const double late = isnan(row->level) ? NAN : fmin(1.0, row->level);
    json_object_set_new(out, "late_average_lx", lw_json_number(late * l->light.average_lx));
    json_object_set_new(out, "late_minimum_lx", lw_json_number(late * l->light.minimum_lx));
    json_object_set_new(out, "average_lx", lw_json_number(l->light.average_lx));
    json_object_set_new(out, "minimum_lx", lw_json_number(l->light.minimum_lx));
    json_object_set_new(out, "uniformity", lw_json_number(l->light.uniformity));
    json_object_set_new(out, "class", class_json(plan, &l->light));
    json_object_set_new(out, "gives_light", json_boolean(row->lit));
    json_object_set_new(out, "keeps_wish", json_boolean(row->fed && row->lit));
    json_object_set_new(out, "cost", row->fed ? lw_json_money(shelf, row->cost_minor) : json_null());
    json_object_set_new(out, "costs_more",
                        row->fed && lane->chosen.fed
                            ? lw_json_number(lw_money_number(&shelf->currency, row->cost_minor) -
                                             lw_money_number(&shelf->currency, lane->chosen.cost_minor))
                            : json_null());
    json_object_set_new(out, "chosen", json_boolean(row->chosen));
    return out;
}

static json_t *rows_json(const lw_plan *plan, const lw_lane_row *rows, size_t count)
{
    json_t *out = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(out, row_json(plan, &rows[i]));
    return out;
}

static json_t *masts_json(const lw_plan_lane *lane)
{
    json_t *out = json_array();
    for (size_t i = 0; i < lane->chosen.layout.masts; i++) {
        json_t *one = lw_json_mast(&lane->lamp[i]);
        json_object_set_new(one, "number", json_integer((json_int_t)i + 1));
        json_array_append_new(out, one);
    }
    return out;
}

static json_t *steps_json(const lw_plan *plan)
{
    json_t *out = json_array();
    for (size_t i = 0; i < plan->lane.step_count; i++) {
        const lw_lane_step *step = &plan->lane.step[i];
        char from[24], until[24];
        lw_moment_text(&step->span.from, from, sizeof from);
        lw_moment_text(&step->span.until, until, sizeof until);
        json_array_append_new(out, json_pack("{s:s,s:s,s:o,s:o,s:o}", "from", from, "to", until, "level",
                                             lw_json_number(step->span.level), "new", light_json(plan, &step->fresh),
                                             "aged", light_json(plan, &step->worn)));
    }
    return out;
}

static json_t *hours_json(const lw_plan_lane *lane)
{
    json_t *out = json_array();
    for (size_t i = 0; i < lane->hour_count; i++) {
        const lw_lane_hour *h = &lane->hour[i];
        json_array_append_new(out,
                              json_pack("{s:i,s:o,s:o,s:o,s:o}", "hour", h->hour, "dark_share",
                                        lw_json_number(h->dark_share), "level", lw_json_number(h->level), "average_lx",
                                        lw_json_number(h->average_lx), "minimum_lx", lw_json_number(h->minimum_lx)));
    }
    return out;
}

static json_t *wanted_json(const lw_layout_request *ask)
{
    const lw_light_wish *light = &ask->wish.light;
    return json_pack("{s:s?,s:o,s:o,s:o,s:o}", "class", ask->wanted_class[0] ? ask->wanted_class : NULL, "average_lx",
                     lw_json_number(light->average_lx), "minimum_lx", lw_json_number(light->minimum_lx), "uniformity",
                     lw_json_number(light->uniformity), "face_lx", lw_json_number(light->semicylindrical_lx));
}

json_t *lw_plan_lane_json(const lw_plan *plan)
{
    static const char *const aims[] = {"cost", "masts", "watts"};
    const lw_lane_want *want = &plan->brief.want.lane;
    const lw_plan_lane *lane = &plan->lane;
    json_t *out = json_pack("{s:s,s:o,s:s,s:o,s:o,s:o}", "kind", plan->brief.want.lamp[want->kind].name, "wanted",
                            wanted_json(&want->ask), "aim", aims[want->ask.aim], "maintenance",
                            lw_json_number(lw_layout_left(&want->ask.wish, &lane->chosen.layout)), "chosen",
                            row_json(plan, &lane->chosen), "masts", masts_json(lane));
    lw_put_colour(out, &want->ask, &lane->chosen.layout);
    json_object_set_new(out, "steps", steps_json(plan));
    json_object_set_new(out, "hours", hours_json(lane));
    json_object_set_new(out, "upward_share", lw_json_number(lane->chosen.layout.light.upward_share));
    json_object_set_new(out, "threshold_increment_pct", lw_json_number(lane->threshold_increment_pct));
    json_object_set_new(out, "by_masts", rows_json(plan, lane->by_masts, lane->masts_count));
    json_object_set_new(out, "by_height", rows_json(plan, lane->by_height, lane->height_count));
    json_object_set_new(out, "by_lumens", rows_json(plan, lane->by_light, lane->light_count));
    json_object_set_new(out, "by_late_level", rows_json(plan, lane->by_late, lane->late_count));
    json_object_set_new(out, "ways", json_integer(lane->ways));
    json_object_set_new(out, "sized", json_integer(lane->sized));
    return out;
}

char *lw_plan_lane_to_json(const lw_plan *plan)
{
    json_t *out = lw_plan_lane_json(plan);
    char *text = json_dumps(out, JSON_INDENT(1) | JSON_ENSURE_ASCII | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(out);
    return text;
}
