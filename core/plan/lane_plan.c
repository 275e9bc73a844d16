/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lamps of a lane: their schedule, and the light that they bring hour by hour. See lanewick/plan.h.
 */
#include "lanewick/plan.h"

#include "lanewick/sun.h"

#include <math.h>
#include <string.h>

/* Late steps are those that a trim turns down (lw_plan_spans): the middle of a schedule, else the second half. */
static size_t turned_down(const lw_lamp_kind *lamp, double level, lw_span out[LW_BRIEF_STEPS])
{
    lw_span trimmed[LW_MAX_SPANS];
    const size_t n = (size_t)lw_plan_spans(lamp, true, 0.0, trimmed);
    for (size_t i = 0; i < n && i < LW_BRIEF_STEPS; i++) {
        out[i] = trimmed[i];
        const bool late = lamp->span_count == 1 ? i == 1 : trimmed[i].level < lamp->span[i].level;
        if (late)
            out[i].level = level;
    }
    return n < LW_BRIEF_STEPS ? n : LW_BRIEF_STEPS;
}

size_t lw_lane_spans(const lw_brief *brief, double level, lw_span out[LW_BRIEF_STEPS])
{
    const lw_lane_want *want = &brief->want.lane;
    const lw_lamp_kind *lamp = &brief->want.lamp[want->kind];
    const lw_moment dusk = {LW_AT_DUSK, 0.0}, dawn = {LW_AT_DAWN, 0.0};
    size_t n = 0;
    if (isnan(level)) {
        memcpy(out, lamp->span, lamp->span_count * sizeof out[0]);
        return lamp->span_count;
    }
    if (!want->late_given)
        return turned_down(lamp, level, out);
    if (level >= 1.0) {
        out[0] = (lw_span){dusk, dawn, 1.0};
        return 1;
    }
    out[n++] = (lw_span){dusk, want->late.from, 1.0};
    out[n++] = (lw_span){want->late.from, want->late.until, level};
    if (want->late.until.kind != LW_AT_DAWN)
        out[n++] = (lw_span){want->late.until, dawn, 1.0};
    return n;
}

void lw_lane_lamp(const lw_brief *brief, const lw_lane_row *row, lw_lamp_kind *out)
{
    const lw_lane_want *want = &brief->want.lane;
    *out = brief->want.lamp[want->kind];
    out->count = (int)row->layout.masts;
    out->lumens = row->layout.lumens_each;
    out->efficacy_lm_w = want->ask.lumens_per_w[row->layout.head];
    out->head_w = row->head_w;
    out->head = brief->shelf.head_count > 0 ? (int)row->layout.head + 1 : 0;
    out->light_m = row->layout.height_m;
    out->span_count = lw_lane_spans(brief, row->level, out->span);
}

bool lw_lane_gives_light(const lw_lane_want *want, const lw_lane_row *row)
{
    const lw_light_wish *full = &want->ask.wish.light, *late = &want->ask.wish.late;
    const lw_field_sum *is = &row->layout.light;
    const double level = isnan(row->level) ? 1.0 : row->level, near = 1.0 - 1e-9;
    const bool by_night = is->average_lx >= near * full->average_lx && is->minimum_lx >= near * full->minimum_lx &&
                          is->uniformity >= near * full->uniformity &&
                          is->semicylindrical_minimum_lx >= near * full->semicylindrical_lx;
    const bool by_late = level * is->average_lx >= near * late->average_lx &&
                         level * is->minimum_lx >= near * late->minimum_lx &&
                         level * is->semicylindrical_minimum_lx >= near * late->semicylindrical_lx;
    return by_night && by_late && (isnan(want->late.level) || isnan(row->level) || level >= near * want->late.level);
}

/* Mean level of each hour of the clock over the dark part of the nights. */
static bool hours(const lw_brief *brief, const lw_span *spans, size_t span_count, lw_arena *arena, lw_plan_lane *lane,
                  lw_error *err)
{
    const lw_place *place = &brief->place;
    lw_load load = lw_load_default();
    load.dusk_altitude_deg = brief->want.dusk_sun_deg;
    load.span_count = (int)span_count;
    memcpy(load.spans, spans, span_count * sizeof spans[0]);
    double *dark = lw_arena_take(arena, LW_HOURS, sizeof *dark, err);
    double *level = lw_arena_take(arena, LW_HOURS, sizeof *level, err);
    lw_dark_part *nights = lw_arena_take(arena, LW_DAYS, sizeof *nights, err);
    if (!dark || !level || !nights ||
        !lw_dark_shares(place->lat_deg, place->lon_deg, place->utc_offset_h, LW_SUN_SPENCER_DAILY,
                        load.dusk_altitude_deg, 0, dark, err))
        return false;
    lw_load_nights(&load, dark, nights);
    if (!lw_load_levels(&load, nights, 1, level, err))
        return false;
    lane->hour_count = 0;
    for (int i = 12; i < 36; i++) {
        const int hour = i % 24;
        double days = 0.0, dark_h = 0.0, light_h = 0.0;
        for (int d = 0; d < LW_DAYS; d++) {
            days += dark[d * 24 + hour] > 1e-9 ? 1.0 : 0.0;
            dark_h += dark[d * 24 + hour];
            light_h += level[d * 24 + hour];
        }
        if (days > 0.0)
            lane->hour[lane->hour_count++] =
                (lw_lane_hour){.hour = hour, .dark_share = days / LW_DAYS, .level = fmin(1.0, light_h / dark_h)};
    }
    return true;
}

bool lw_plan_lane_light(const lw_brief *brief, const lw_span *spans, size_t span_count, lw_arena *arena,
                        lw_plan_lane *lane, lw_error *err)
{
    const size_t used = arena->used;
    const lw_layout_wish *wish = &brief->want.lane.ask.wish;
    lw_lane_row *row = &lane->chosen;
    lw_field_point *points;
    size_t count;
    if (!lw_layout_grid(wish, &row->layout, arena, &points, &count, err) ||
        !hours(brief, spans, span_count, arena, lane, err))
        return false;
    lw_layout_lamps(wish, &row->layout, lane->lamp);
    lane->step_count = span_count;
    for (size_t i = 0; i < span_count; i++) {
        lw_lane_step *step = &lane->step[i];
        step->span = spans[i];
        lw_layout_light(wish, &row->layout, false, spans[i].level, points, count, &step->fresh);
        lw_layout_light(wish, &row->layout, true, spans[i].level, points, count, &step->worn);
    }
    lw_layout_light(wish, &row->layout, true, 1.0, points, count, &row->layout.light);
    row->layout.light.upward_share = lw_upward_share(lane->lamp, 1);
    lane->threshold_increment_pct =
        lw_threshold_increment_pct(lane->lamp, row->layout.masts, points, count, row->layout.light.average_lx,
                                   lw_layout_left(wish, &row->layout), 0.2);
    for (size_t i = 0; i < lane->hour_count; i++) {
        lane->hour[i].average_lx = lane->hour[i].level * row->layout.light.average_lx;
        lane->hour[i].minimum_lx = lane->hour[i].level * row->layout.light.minimum_lx;
    }
    arena->used = used;
    return true;
}
