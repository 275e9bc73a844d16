/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The packs of a plan: see lanewick/plan_packs.h. A plan is made by this program, so only what is used is looked at.
 */
#include "lanewick/plan_packs.h"

#include "json_help.h"

#include <math.h>
#include <string.h>
#include <strings.h>

enum { A_CELL = 6 }; /* least bytes of a cell in the text: "A1", */

size_t lw_planned_packs_memory(size_t length)
{
    const size_t cells = length / A_CELL + 2;
    return cells * (sizeof(char *) + 64) + (size_t)LW_BRIEF_LAMPS * sizeof(lw_planned_pack) + 65536 + length;
}

static bool wrong(lw_error *err, const char *what)
{
    return lw_fail(err, LW_WRONG_INPUT, "plan", "%s", what);
}

/* Codes count alike in both cases, as in the store. */
static bool is_new(const lw_planned_packs *packs, const char *code)
{
    for (size_t i = 0; i < packs->cells; i++)
        if (strcasecmp(packs->cell[i], code) == 0)
            return false;
    return true;
}

static bool read_group(const json_t *group, size_t room, lw_arena *arena, lw_planned_packs *out, lw_error *err)
{
    if (json_array_size(group) == 0)
        return wrong(err, "A group of this plan holds no cells.");
    for (size_t i = 0; i < json_array_size(group); i++) {
        const char *code = json_string_value(json_array_get(group, i));
        if (!code || !code[0] || out->cells == room)
            return wrong(err, "A group of this plan must be a list of codes of cells.");
        if (!is_new(out, code))
            return lw_fail(err, LW_WRONG_INPUT, "plan", "The plan names the cell %.40s twice.", code);
        out->cell[out->cells] = lw_arena_text(arena, code, err);
        if (!out->cell[out->cells++])
            return false;
    }
    return true;
}

static double number_or(const json_t *object, const char *key, double fallback)
{
    const json_t *value = json_object_get(object, key);
    return json_is_number(value) ? json_number_value(value) : fallback;
}

static bool read_pack(const json_t *lamp, size_t room, lw_arena *arena, lw_planned_packs *out, lw_error *err)
{
    const json_t *pack = json_object_get(lamp, "pack"), *groups = json_object_get(pack, "groups");
    const char *name = json_string_value(json_object_get(lamp, "name"));
    const char *class = json_string_value(json_object_get(pack, "voltage_class"));
    const size_t series = json_array_size(groups);
    if (!groups)
        return true; /* of counted cells */
    if (!name || !class || series < 1 || series > LW_MAX_SERIES || out->packs == LW_BRIEF_LAMPS)
        return wrong(err, "A lamp of this plan has a pack that cannot be read; plan again.");
    lw_planned_pack *p = &out->pack[out->packs++];
    *p = (lw_planned_pack){.lamp = lw_arena_text(arena, name, err),
                           .voltage_class = lw_arena_text(arena, class, err),
                           .series = (int)series,
                           .weakest_ah = number_or(pack, "weakest_ah", NAN),
                           .guaranteed_ah = number_or(pack, "guaranteed_ah", NAN)};
    const char *code = json_string_value(json_object_get(pack, "code"));
    p->code = code ? lw_arena_text(arena, code, err) : NULL;
    if (!p->lamp || !p->voltage_class || (code && !p->code))
        return false;
    for (size_t g = 0; g < series; g++) {
        p->first[g] = out->cells;
        if (!read_group(json_array_get(groups, g), room, arena, out, err))
            return false;
    }
    p->first[series] = out->cells;
    return true;
}

static bool read_plan(const json_t *plan, size_t room, lw_arena *arena, lw_planned_packs *out, lw_error *err)
{
    const char *format = json_string_value(json_object_get(plan, "format"));
    const char *name = json_string_value(json_object_get(plan, "name"));
    if (!format || strcmp(format, "lanewick.plan/1") != 0)
        return wrong(err, "This is no plan (format lanewick.plan/1); `lanewick plan BRIEF.json --out DIR` makes one.");
    if (json_object_get(plan, "refused"))
        return lw_fail(err, LW_REFUSED, "plan", "This plan is refused for safety: nothing is built from it.");
    out->name = lw_arena_text(arena, name ? name : "", err);
    out->pack = lw_arena_take(arena, LW_BRIEF_LAMPS, sizeof *out->pack, err);
    out->cell = lw_arena_take(arena, room, sizeof *out->cell, err);
    if (!out->name || !out->pack || !out->cell)
        return false;
    const json_t *lamps = json_object_get(plan, "lamps");
    for (size_t i = 0; i < json_array_size(lamps); i++)
        if (!read_pack(json_array_get(lamps, i), room, arena, out, err))
            return false;
    return out->packs > 0 || wrong(err, "This plan names no cells: its brief counts them. A brief whose shelf.cells[] "
                                        "gives a crate makes a plan that names each cell.");
}

bool lw_planned_packs_read(const char *text, size_t length, lw_arena *arena, lw_planned_packs *out, lw_error *err)
{
    *out = (lw_planned_packs){0};
    json_t *plan = lw_json_parse(text, length, err);
    if (!plan)
        return false;
    const bool done = read_plan(plan, length / A_CELL + 1, arena, out, err);
    json_decref(plan);
    return done;
}
