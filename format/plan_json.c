/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writes a plan (format lanewick.plan/1) as JSON: see lanewick/plan.h and docs/plan.md. A refused plan holds the
 * reasons and nothing to build from.
 */
#include "lanewick/plan.h"

#include "json_help.h"
#include "plan_json.h"

#include "lanewick/plan_code.h"
#include "lanewick/version.h"

#include <math.h>
#include <stdio.h>

json_t *lw_json_band(const lw_dark_band *band)
{
    return json_pack("{s:o,s:o,s:o}", "mean", lw_json_number(band->mean), "low", lw_json_number(band->low), "high",
                     lw_json_number(band->high));
}

json_t *lw_json_money(const lw_shelf *shelf, int64_t minor)
{
    const double amount = lw_money_number(&shelf->currency, minor);
    return amount == floor(amount) ? lw_json_number(amount) : json_real(amount); /* a sum is not rounded */
}

static json_t *refusals(const lw_refusals *list)
{
    json_t *out = json_array();
    for (size_t i = 0; i < list->count; i++)
        json_array_append_new(out, json_pack("{s:s,s:o,s:o,s:s}", "id", list->item[i].id, "reason",
                                             lw_json_text(list->item[i].reason), "remedy",
                                             lw_json_text(list->item[i].remedy), "source", list->item[i].source));
    return out;
}

static json_t *assumptions(const lw_assumptions *list)
{
    json_t *out = json_array();
    for (size_t i = 0; i < list->count; i++)
        json_array_append_new(out,
                              json_pack("{s:s,s:o,s:o}", "key", list->item[i].key, "value",
                                        lw_json_text(list->item[i].value), "why", lw_json_text(list->item[i].why)));
    return out;
}

static json_t *cautions(const lw_plan *plan)
{
    json_t *out = json_array();
    for (size_t i = 0; i < plan->caution_count; i++)
        json_array_append_new(
            out, json_pack("{s:s,s:o}", "at", plan->caution[i].at, "text", lw_json_text(plan->caution[i].text)));
    return out;
}

static json_t *climate(const lw_plan *plan)
{
    const lw_climate *c = &plan->climate;
    return json_pack("{s:o,s:o,s:o,s:o,s:o,s:o,s:s,s:o}", "ghi_kwh_m2_day", lw_json_list(c->ghi_kwh_m2_day, 12),
                     "ghi_spread_pct", lw_json_list(c->ghi_spread_pct, 12), "t_mean_c", lw_json_list(c->t_mean_c, 12),
                     "t_range_c", lw_json_list(c->t_range_c, 12), "wind_10m_ms", lw_json_list(c->wind_10m_ms, 12),
                     "rain_mm", lw_json_list(c->rain_mm, 12), "basis", c->basis, "coldest_c",
                     lw_json_number(plan->coldest_c));
}

static json_t *box(const lw_box_life *life)
{
    return json_pack("{s:o,s:o,s:o,s:o}", "coldest_c", lw_json_number(life->coldest_c), "hottest_c",
                     lw_json_number(life->hottest_c), "below_0_h_year", lw_json_number(life->cold_h), "above_45_h_year",
                     lw_json_number(life->hot_h));
}

static json_t *cost(const lw_plan *plan)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    int lamps = 0;
    for (size_t i = 0; i < plan->kind_count; i++)
        lamps += plan->kind[i].count;
    json_t *parts = json_array();
    for (size_t i = 0; i < plan->part_count; i++)
        json_array_append_new(parts,
                              json_pack("{s:s,s:i,s:o,s:o}", "name", plan->part[i].name, "count", plan->part[i].count,
                                        "price", lw_json_money(shelf, plan->part[i].price_minor), "cost",
                                        lw_json_money(shelf, plan->part[i].cost_minor)));
    json_t *each = lamps ? lw_json_money(shelf, (plan->cost_minor + lamps / 2) / lamps) : json_null();
    json_t *out =
        json_pack("{s:o,s:o,s:o,s:s,s:i,s:o,s:b,s:o}", "total", lw_json_money(shelf, plan->cost_minor), "per_lamp",
                  each, "shared", lw_json_money(shelf, lw_plan_shared_minor(plan)), "currency", shelf->currency.text,
                  "decimals", shelf->currency.decimals, "not_below", lw_json_money(shelf, plan->bound_minor),
                  "cheapest_proved", plan->choice_complete, "parts", parts);
    lw_bill_to_json(plan, out);
    return out;
}

static json_t *lamps(const lw_plan *plan)
{
    json_t *out = json_array();
    int of_kind[LW_BRIEF_KINDS] = {0};
    for (size_t i = 0; i < plan->kind_count; i++)
        for (int n = 0; n < plan->kind[i].count; n++)
            json_array_append_new(out, lw_plan_lamp_json(plan, &plan->kind[i], ++of_kind[plan->kind[i].kind], n));
    return out;
}

static json_t *options(const lw_plan *plan)
{
    json_t *out = json_array();
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++)
        for (size_t i = 0; i < plan->option_count[k]; i++)
            json_array_append_new(out, lw_plan_option_json(plan, k, &plan->option[k][i]));
    return out;
}

static json_t *wish(const lw_plan *plan)
{
    const lw_want *want = &plan->brief.want;
    return json_pack("{s:o,s:o,s:o,s:b}", "dark_nights_per_year", lw_json_number(want->dark_nights_per_year),
                     "sure_share", lw_json_number(want->sure_share), "planned_years",
                     lw_json_number(want->planned_years), "kept", plan->keeps && plan->lamps_without == 0);
}

static void add_results(json_t *out, const lw_plan *plan)
{
    char code[16];
    lw_plan_code(plan, code);
    json_object_set_new(out, "code", json_string(code));
    json_object_set_new(out, "wish", wish(plan));
    json_object_set_new(out, "lamps", lamps(plan));
    if (plan->lane.given)
        json_object_set_new(out, "lane", lw_plan_lane_json(plan));
    json_object_set_new(out, "lamps_without_parts", json_integer(plan->lamps_without));
    json_object_set_new(out, "options", options(plan));
    json_object_set_new(out, "cost", cost(plan));
    json_object_set_new(out, "circuits", lw_plan_circuits_json(plan));
    json_object_set_new(out, "cautions", cautions(plan));
    json_object_set_new(out, "left_out", refusals(&plan->left_out));
    json_object_set_new(out, "climate", climate(plan));
    json_object_set_new(out, "box", box(&plan->box));
    json_object_set_new(out, "simulated_years", json_integer(plan->simulated_years));
}

char *lw_plan_to_json(const lw_plan *plan, const char *brief_text, size_t brief_length)
{
    lw_error ignored = {0};
    json_t *out = json_object();
    json_t *brief = lw_json_parse(brief_text, brief_length, &ignored);
    json_object_set_new(out, "format", json_string("lanewick.plan/1"));
    json_object_set_new(out, "program", json_string("lanewick " LW_VERSION));
    json_object_set_new(out, "seed", json_integer((json_int_t)plan->seed));
    json_object_set_new(out, "name", json_string(plan->brief.name));
    if (plan->refused.count > 0)
        json_object_set_new(out, "refused", refusals(&plan->refused));
    else
        add_results(out, plan);
    json_object_set_new(out, "assumptions", assumptions(&plan->brief.assumed));
    json_object_set_new(out, "brief", brief ? brief : json_null());
    char *text = json_dumps(out, JSON_INDENT(1) | JSON_ENSURE_ASCII | JSON_REAL_PRECISION(LW_MONEY_DIGITS));
    json_decref(out);
    return text;
}
