/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One lamp of a plan, and one alternative, as JSON.
 */
#include "json_help.h"
#include "plan_json.h"

#include "lanewick/mast_json.h"
#include "lanewick/plan_code.h"

#include <math.h>
#include <stdio.h>

static json_t *size_of(const lw_plan *plan, const lw_design *design)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    json_t *out = json_pack("{s:o,s:o,s:i,s:i,s:s,s:i,s:s,s:s,s:s,s:s,s:b}", "panel_w",
                            lw_json_number(lw_design_panel_w(shelf, design)), "pack_wh",
                            lw_json_number(lw_design_pack_wh(shelf, design)), "series", design->series, "parallel",
                            design->parallel, "panel", shelf->panel[design->panel].name, "panels", design->panels,
                            "cell", shelf->cell[design->cell].name, "charger", shelf->charger[design->charger].name,
                            "charger_kind", lw_shelf_charging_text(shelf->charger[design->charger].kind), "driver",
                            shelf->driver[design->driver].name, "trimmed", design->trimmed);
    json_object_set_new(out, "board", design->board >= 0 ? json_string(shelf->board[design->board].name) : json_null());
    return out;
}

static json_t *nights(const lw_outcome *outcome)
{
    return json_pack("{s:o,s:o,s:i,s:o,s:o,s:o}", "dark_per_year", lw_json_band(&outcome->dark), "by_month",
                     lw_json_list(outcome->by_month, LW_MONTHS), "years_simulated", (int)outcome->years, "sure_share",
                     lw_json_number(outcome->sure_share), "unserved_share", lw_json_number(outcome->unserved_share),
                     "lowest_charge_share", lw_json_number(outcome->lowest_charge_share));
}

static void set_what_if(json_t *out, const char *key, const lw_what_if *what_if)
{
    if (what_if->given)
        json_object_set_new(
            out, key, json_pack("{s:s,s:o}", "what", what_if->what, "dark_per_year", lw_json_band(&what_if->dark)));
}

static json_t *limits(const lw_plan_kind *kind)
{
    json_t *out = json_pack("{s:i,s:s}", "month", kind->limit_month, "what", kind->limit_what);
    set_what_if(out, "more_panel", &kind->more_panel);
    set_what_if(out, "more_pack", &kind->more_pack);
    set_what_if(out, "dim", &kind->dim);
    set_what_if(out, "trim", &kind->trim);
    return out;
}

static json_t *energy(const lw_plan_kind *kind)
{
    json_t *out = json_array();
    const lw_outcome *o = &kind->outcome;
    for (int m = 0; m < LW_MONTHS; m++)
        json_array_append_new(out, json_pack("{s:i,s:o,s:o,s:o,s:o}", "month", m + 1, "night_h",
                                             lw_json_number(kind->night_h[m]), "panel_wh_day",
                                             lw_json_number(o->panel_month_wh[m]), "load_wh_day",
                                             lw_json_number(o->load_month_wh[m]), "spilled_wh_day",
                                             lw_json_number(o->spilled_month_wh[m])));
    return out;
}

static json_t *years(const lw_plan_kind *kind)
{
    json_t *out = json_array();
    for (size_t i = 0; i < kind->ahead_count; i++)
        json_array_append_new(out, json_pack("{s:o,s:o,s:o}", "year", lw_json_number(kind->ahead[i].year),
                                             "capacity_share", lw_json_number(kind->ahead[i].capacity_share),
                                             "dark_per_year", lw_json_band(&kind->ahead[i].dark)));
    return out;
}

/* The very cells of a lamp, where the shelf lists them. */
static void set_cells(json_t *out, const lw_plan *plan, const lw_plan_kind *kind, int of_entry)
{
    const lw_design *design = &kind->design;
    for (size_t i = 0; i < plan->pack_count; i++) {
        const lw_plan_pack *pack = &plan->pack[i];
        if (&plan->kind[pack->kind] != kind || pack->number != of_entry)
            continue;
        json_t *groups = json_array();
        size_t next = pack->first;
        for (int g = 0; g < design->series; g++) {
            json_t *ids = json_array();
            for (int p = 0; p < design->parallel; p++)
                json_array_append_new(ids, lw_json_text(plan->cell_id[next++]));
            json_array_append_new(groups, ids);
        }
        char of[16], code[48];
        lw_plan_code(plan, of);
        json_object_set_new(out, "code",
                            json_string(lw_thing_code(code, sizeof code, 'P', of, pack->kind + 1, pack->number + 1)));
        json_object_set_new(out, "groups", groups);
        json_object_set_new(out, "group_capacity_ah", lw_json_list(pack->group_ah, (size_t)design->series));
        json_object_set_new(out, "weakest_ah", lw_json_number(pack->weakest_ah));
        if (pack->guaranteed_ah > 0.0)
            json_object_set_new(out, "guaranteed_ah", lw_json_number(pack->guaranteed_ah));
        if (kind->guaranteed)
            json_object_set_new(out, "guaranteed_dark_per_year", lw_json_band(&kind->guaranteed_dark));
        const lw_shelf_cell *cell = &plan->brief.shelf.cell[design->cell];
        json_object_set_new(out, "voltage_class", json_string(lw_shelf_class_text(cell->voltage_class)));
        if (cell->crate[0])
            json_object_set_new(out, "crate", lw_json_text(cell->crate));
    }
}

static json_t *pack(const lw_plan *plan, const lw_plan_kind *kind, int of_entry)
{
    const lw_outcome *o = &kind->outcome;
    json_t *out =
        json_pack("{s:o,s:o,s:o,s:o,s:o}", "full_cycles_year", lw_json_number(o->full_cycles), "coldest_c",
                  lw_json_number(o->pack_low_c), "hottest_c", lw_json_number(o->pack_high_c), "charge_stopped_cold_h",
                  lw_json_number(o->cold_h), "charge_stopped_hot_h", lw_json_number(o->hot_h));
    set_cells(out, plan, kind, of_entry);
    return out;
}

static json_t *mast_json(const lw_plan_mast *mast)
{
    if (!mast->checked)
        return json_pack("{s:s,s:s}", "verdict", "not_checked", "verdict_text",
                         lw_mast_verdict_text(LW_MAST_NOT_CHECKED));
    json_t *out = lw_json_mast_check(&mast->wish, &mast->result);
    json_object_set_new(out, "pole", json_string(mast->pole_name));
    json_object_set_new(out, "material", json_string(lw_mast_material_at(mast->wish.material)->name));
    json_object_set_new(out, "diameter_mm", lw_json_number(mast->wish.pipe.diameter_mm));
    json_object_set_new(out, "wall_mm", lw_json_number(mast->wish.pipe.wall_mm));
    json_object_set_new(out, "height_m", lw_json_number(mast->wish.height_m));
    json_object_set_new(out, "pole_length_m", lw_json_number(mast->length_m));
    json_object_set_new(out, "depth_m", lw_json_number(mast->depth_m));
    json_object_set_new(out, "hole_m", lw_json_number(lw_plan_mast_hole_m(mast)));
    if (mast->wish.base == LW_BASE_COLLAR)
        json_object_set_new(out, "collar_m", lw_json_number(mast->wish.collar_m));
    json_object_set_new(out, "concrete_m3", lw_json_number(mast->concrete_m3));
    json_object_set_new(out, "poles_missing", json_integer(mast->missing));
    return out;
}

char *lw_plan_masts_to_json(const lw_plan *plan)
{
    json_t *list = json_array();
    for (size_t i = 0; i < plan->kind_count; i++) {
        json_t *mast = mast_json(&plan->kind[i].mast);
        json_object_set_new(mast, "lamp", json_string(plan->brief.want.lamp[plan->kind[i].kind].name));
        json_object_set_new(mast, "count", json_integer(plan->kind[i].count));
        json_array_append_new(list, mast);
    }
    return lw_json_line(json_pack("{s:o}", "masts", list));
}

json_t *lw_plan_lamp_json(const lw_plan *plan, const lw_plan_kind *kind, int number, int of_entry)
{
    const lw_lamp_kind *lamp = &plan->brief.want.lamp[kind->kind];
    char name[LW_NAME + 8];
    if (lamp->count > 1)
        (void)snprintf(name, sizeof name, "%s %d", lamp->name, number);
    else
        (void)snprintf(name, sizeof name, "%s", lamp->name);
    json_t *out =
        json_pack("{s:s,s:s,s:b,s:o,s:o,s:o}", "name", name, "kind", lamp->name, "keeps_wish", kind->keeps, "nights",
                  nights(&kind->outcome), "size", size_of(plan, &kind->design), "limits", limits(kind));
    json_object_set_new(out, "tilt_deg", lw_json_number(plan->tilt_deg));
    json_object_set_new(out, "facing_deg", lw_json_number(plan->facing_deg));
    json_object_set_new(out, "light",
                        json_pack("{s:o,s:o,s:o}", "lumens", lw_json_number(lamp->lumens), "head_w",
                                  lw_json_number(lamp->head_w), "load_wh_night", lw_json_number(kind->load_wh_night)));
    json_object_set_new(out, "textbook",
                        json_pack("{s:i,s:o,s:o}", "month", kind->textbook.month, "panel_w",
                                  lw_json_number(kind->textbook.panel_w), "pack_wh",
                                  lw_json_number(kind->textbook.pack_wh)));
    json_object_set_new(out, "energy", energy(kind));
    json_object_set_new(out, "years", years(kind));
    json_object_set_new(out, "pack", pack(plan, kind, of_entry));
    json_object_set_new(out, "mast", mast_json(&kind->mast));
    json_object_set_new(out, "cost", lw_json_money(&plan->brief.shelf, kind->cost_minor));
    if (!isnan(kind->file_dark_nights))
        json_object_set_new(out, "dark_nights_of_weather_file", lw_json_number(kind->file_dark_nights));
    if (kind->dusk.there)
        json_object_set_new(out, "switch", lw_plan_switch_json(&kind->dusk));
    if (kind->near[0])
        json_object_set_new(out, "near", json_string(kind->near));
    return out;
}

json_t *lw_plan_option_json(const lw_plan *plan, size_t kind, const lw_option *option)
{
    const lw_candidate *c = &option->candidate;
    char what[200];
    lw_design_text(&plan->brief.shelf, &c->design, what, sizeof what);
    return json_pack("{s:s,s:s,s:o,s:o,s:o,s:o,s:b,s:b}", "kind", plan->brief.want.lamp[kind].name, "what", what,
                     "cost_per_lamp", lw_json_money(&plan->brief.shelf, c->cost_minor), "dark_per_year",
                     lw_json_band(&c->outcome.dark), "sure_share", lw_json_number(c->outcome.sure_share), "size",
                     size_of(plan, &c->design), "keeps_wish", c->keeps, "chosen", option->chosen);
}
