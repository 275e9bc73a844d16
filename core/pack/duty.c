/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matched packs in their duty: see lanewick/duty.h. The load runs a full group to its end, the charge one of a tenth.
 */
#include "lanewick/duty.h"

#include "lanewick/cell_test.h"

#include <math.h>

static const double charge_from = 0.1;

typedef struct members {
    size_t which[LW_GROUP_CELLS], n;
    double ohm[LW_GROUP_CELLS], capacity_ah[LW_GROUP_CELLS], charge[LW_GROUP_CELLS];
} members;

static bool gather(const lw_match_ask *ask, const lw_match *match, int group, members *m, lw_error *err)
{
    m->n = 0;
    for (size_t i = 0; i < ask->n; i++) {
        if (match->group[i] != group)
            continue;
        if (m->n == LW_GROUP_CELLS)
            return lw_fail(err, LW_WRONG_INPUT, "parallel",
                           "Group %d has more than %d cells; the sharing of so many is not computed.", group + 1,
                           LW_GROUP_CELLS);
        if (!(ask->cells[i].resistance_mohm > 0.0))
            return lw_fail(
                err, LW_WRONG_INPUT, "resistance_mohm",
                "The resistance of cell %.40s is not known; without it nobody can say how a group shares its "
                "current.",
                ask->cells[i].id);
        m->which[m->n] = i;
        m->ohm[m->n] = ask->cells[i].resistance_mohm / 1000.0;
        m->capacity_ah[m->n++] = ask->cells[i].capacity_ah;
    }
    return true;
}

static bool run(members *m, double current_a, const lw_duty_ask *duty, const lw_cell_class *class, lw_group_run *room,
                lw_duty_run *out, lw_error *err)
{
    for (size_t i = 0; i < m->n; i++)
        m->charge[i] = current_a > 0.0 ? 1.0 : charge_from;
    const lw_group_ask ask = {.ohm = m->ohm,
                              .capacity_ah = m->capacity_ah,
                              .charge = m->charge,
                              .n = m->n,
                              .path_ohm = duty->path_ohm,
                              .current_a = current_a,
                              .class = class};
    if (!lw_group_share(&ask, room, err))
        return false;
    const size_t largest = room->largest_cell;
    *out = (lw_duty_run){.share = room->largest_share, .most_a = room->most_a[largest], .cell = m->which[largest]};
    out->within = out->most_a <= duty->cell_limit_a;
    return true;
}

/* Two cells of the lowest resistances drive the largest current when they are joined. */
static bool join(const members *m, const lw_duty_ask *duty, const lw_cell_class *class, lw_duty_group *out,
                 lw_error *err)
{
    double low[2] = {INFINITY, INFINITY};
    for (size_t i = 0; i < m->n; i++) {
        if (m->ohm[i] < low[0]) {
            low[1] = low[0];
            low[0] = m->ohm[i];
        } else {
            low[1] = fmin(low[1], m->ohm[i]);
        }
    }
    if (m->n < 2)
        return true;
    const double open_v[2] = {class->nominal_v, class->nominal_v};
    lw_join joined;
    if (!lw_equalising_current(open_v, low, NULL, 2.0 * duty->path_ohm, duty->cell_limit_a, NULL, &joined, err))
        return false;
    out->join_v = joined.allowed_difference_v;
    out->join_a = joined.allowed_difference_v / (low[0] + low[1] + 2.0 * duty->path_ohm);
    return true;
}

static bool protect(const lw_match_ask *ask, const lw_match *match, const lw_duty_ask *duty, lw_duty *out,
                    lw_error *err)
{
    int weakest = 0;
    double pack_ohm = 0.0;
    for (int g = 0; g < match->groups; g++)
        weakest = match->capacity_ah[g] < match->capacity_ah[weakest] ? g : weakest;
    for (int g = 0; g < ask->series; g++)
        pack_ohm += match->group_mohm[weakest / ask->series * ask->series + g] / 1000.0;
    const lw_protection_ask limits = {.class = out->class,
                                      .series = ask->series,
                                      .parallel = out->fewest,
                                      .load_a = duty->load_a,
                                      .charge_a = duty->charge_a,
                                      .pack_ohm = pack_ohm,
                                      .group_ah = match->capacity_ah[weakest],
                                      .self_discharge_spread_pct_month = 3.0,
                                      .top_hours_per_day = 1.0,
                                      .cell_limit_a = duty->cell_limit_a};
    return lw_protection_limits(&limits, &out->protection, err);
}

static bool one_group(const lw_match_ask *ask, const lw_match *match, const lw_duty_ask *duty, int g, members *m,
                      lw_group_run *room, lw_duty *out, lw_error *err)
{
    lw_duty_group *group = &out->group[g];
    if (!gather(ask, match, g, m, err) || !run(m, duty->load_a, duty, out->class, room, &group->load, err) ||
        (duty->charge_a > 0.0 && !run(m, -duty->charge_a, duty, out->class, room, &group->charge, err)) ||
        !join(m, duty, out->class, group, err))
        return false;
    group->cells = (int)m->n;
    out->fewest = g == 0 || group->cells < out->fewest ? group->cells : out->fewest;
    out->largest_share = fmax(out->largest_share, fmax(group->load.share, group->charge.share));
    out->largest_a = fmax(out->largest_a, fmax(group->load.most_a, group->charge.most_a));
    out->within = out->within && group->load.within && (duty->charge_a <= 0.0 || group->charge.within);
    if (m->n > 1)
        out->join_v = out->join_v > 0.0 ? fmin(out->join_v, group->join_v) : group->join_v;
    return true;
}

bool lw_pack_duty(const lw_match_ask *ask, const lw_match *match, const lw_duty_ask *duty, lw_arena *arena,
                  lw_duty *out, lw_error *err)
{
    const char *class = ask->cells[0].voltage_class[0] ? ask->cells[0].voltage_class : "4v2";
    *out = (lw_duty){.class = lw_cell_class_find(class), .within = true};
    out->group = lw_arena_take(arena, (size_t)match->groups, sizeof *out->group, err);
    members *m = lw_arena_take(arena, 1, sizeof *m, err);
    lw_group_run *room = lw_arena_take(arena, 1, sizeof *room, err);
    if (!out->group || !m || !room || !lw_in_range(err, "load_a", duty->load_a, 0.001, 1000.0, "A") ||
        !lw_in_range(err, "charge_a", duty->charge_a, 0.0, 1000.0, "A") ||
        !lw_in_range(err, "cell_limit_a", duty->cell_limit_a, 0.05, 100.0, "A") ||
        !lw_in_range(err, "holder_mohm", 1000.0 * duty->path_ohm, 0.0, 1000.0, "mohm"))
        return false;
    for (int g = 0; g < match->groups; g++)
        if (!one_group(ask, match, duty, g, m, room, out, err))
            return false;
    return protect(ask, match, duty, out, err);
}
