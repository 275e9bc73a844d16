/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hours of a pack of cells for the lamps of a vector; the same order of things as cells_step.c. With steps of an
 * hour the RC pair has settled, so R0 + R1 acts.
 */
#ifndef LANEWICK_CORE_POWER_LANE_CELLS_H
#define LANEWICK_CORE_POWER_LANE_CELLS_H

#include "lane_panel.h"

/* One hour. */
typedef struct hour {
    lw_v pack_c, open_v, r_ohm, r_share, dim;
    lw_v could;           /* what panel and charger could bring [A] */
    lw_v light, other;    /* currents */
    lw_v shining;         /* share of its light that the head gives at this voltage */
    lw_v least;           /* charge that must stay */
    lw_v others_least;    /* the same for other loads, where they end lower than the light */
    lw_v surplus, direct; /* current that may charge, current that feeds the load at once */
} hour;

LW_INTO begin_hour(const lw_lane_model *m, const float *pack_c, const float *resistance, lane_state *s, hour *now)
{
    s->charge *= m->keep;
    const lw_v share = s->charge * s->inverse_full;
    lw_v_load(pack_c, &now->pack_c);
    lw_v_hinges(&m->open_v, &share, &now->open_v);
    now->r_share = s->resistance;
    if (m->follows_temperature) {
        lw_v factor;
        lw_v_load(resistance, &factor);
        now->r_share *= factor;
    }
    now->r_ohm = now->r_share * m->r_ohm;
    lw_v_fill(1.0F, &now->dim);
    if (m->dim_count > 0)
        lw_lane_dim(m, &share, &now->dim);
}

LW_INTO panel_hour(const lw_lane_model *m, const lw_v *sun, const float *cell_c, hour *now)
{
    lw_v cell, v = now->open_v;
    lw_v_load(cell_c, &cell);
    if (m->tracking) {
        lw_v w;
        lw_lane_tracked(m, sun, &cell, &w);
        /* P = I (v + I R): two steps of Newton from P / v */
        lw_v a = w / v;
        for (int turn = 0; turn < 2; turn++)
            a -= (a * (v + now->r_ohm * a) - w) / (v + 2.0F * now->r_ohm * a);
        now->could = a;
        return;
    }
    const lw_v r = now->r_ohm + (m->series_ohm + m->wire_ohm + 1e-6F);
    v += m->blocking_v;
    lw_lane_diode_a(m, sun, &cell, &v, &r, &now->could);
    if (m->floor_v > 0.0F) {
        lw_v at_floor, own, held;
        lw_v_fill(m->floor_v, &at_floor);
        lw_v_fill(m->series_ohm + 1e-6F, &own);
        lw_lane_diode_a(m, sun, &cell, &at_floor, &own, &held);
        lw_v_least(&now->could, &held);
    }
}

LW_INTO load_hour(const lw_lane_model *m, float level_h, float other_w, const lane_state *s, hour *now)
{
    const lw_v level = s->load * now->dim * level_h;
    lw_v v = now->open_v;
    lw_v_fill(1.0F, &now->shining);
    for (int turn = 0; turn < 2; turn++) {
        const lw_v inverse_v = 1.0F / v;
        if (m->by_voltage) {
            now->shining = (v - m->zero_v) * m->inverse_span;
            lw_v_within(&now->shining, 0.0F, m->most);
        }
        now->light = level * now->shining * (inverse_v * m->draw_w + m->draw_a);
        now->other = inverse_v * other_w + m->standby_a;
        if (m->open_load)
            break;
        const lw_v half = now->open_v * 0.5F;
        v = now->open_v - now->r_ohm * (now->light + now->other);
        lw_v_most(&v, &half);
    }
    if (m->by_voltage)
        lw_v_within(&now->shining, 0.0F, 1.0F);
}

/* Charge that must stay: cut-off under load, and what the cold withholds. Looked at only where it may matter. */
LW_INTO floor_hour(const lw_lane_model *m, float level_h, const lane_state *s, hour *now)
{
    now->least = now->others_least = (lw_v){0.0F};
    const lw_v left = s->charge - now->light - now->other, above = left - s->full * m->floor_bound;
    lw_vi near;
    lw_v_negative(&above, &near);
    if (!lw_v_any(&near))
        return;
    if (m->cutoff) {
        lw_v level = s->load * level_h;
        lw_v_within(&level, 0.0F, 1.0F);
        const lw_v v = level * now->dim * now->r_share * (m->floor_draw_a * m->weak_r_ohm) + m->cutoff_v;
        lw_v_hinges(&m->cell_charge, &v, &now->least);
        now->least *= s->full;
    }
    if (m->others_lower) {
        const lw_v v = now->other * now->r_share * m->weak_r_ohm + m->others_cutoff_v;
        lw_v_hinges(&m->cell_charge, &v, &now->others_least);
        now->others_least *= s->full;
    }
    if (m->follows_temperature) {
        lw_v cold;
        lw_v_hinges(&m->cold, &now->pack_c, &cold);
        cold = (1.0F - cold) * s->full;
        lw_v_most(&now->least, &cold);
        lw_v_most(&now->others_least, &cold);
    }
}

/* The end of charge, as in cells_step.c: the voltage at the end of the hour may not pass full_v. */
LW_INTO end_of_charge(const lw_lane_model *m, const lane_state *s, hour *now)
{
    const lw_v drop_v = now->r_ohm * now->surplus;
    const lw_v steep_v = now->open_v + drop_v + now->surplus * s->inverse_full * m->steepest;
    const lw_v below_v = m->full_v - steep_v;
    lw_vi near, too_much;
    lw_v_negative(&below_v, &near);
    if (!lw_v_any(&near))
        return;
    const lw_v share = (s->charge + now->surplus) * s->inverse_full;
    lw_v after_v, room_v = m->full_v - now->open_v, scale;
    lw_v_hinges(&m->open_v, &share, &after_v);
    lw_v_positive(&room_v);
    const lw_v needed_v = after_v - now->open_v + drop_v;
    scale = room_v / (needed_v + 1e-9F);
    const lw_v spare_v = room_v - needed_v;
    lw_v_negative(&spare_v, &too_much);
    lw_v limited = now->surplus * scale;
    lw_v_pick(&too_much, &limited, &now->surplus);
}

LW_INTO charge_hour(const lw_lane_model *m, lane_state *s, hour *now, lane_sums *sums)
{
    lw_v limited = now->could;
    lw_v_within(&limited, 0.0F, m->most_a);
    if (m->end_by_start) {
        lw_v room = (m->full_v - now->open_v) / (now->r_ohm + 1e-9F);
        lw_v_positive(&room);
        lw_v_least(&limited, &room);
    }
    now->direct = now->light + now->other;
    lw_v_least(&now->direct, &limited);
    now->surplus = limited - now->direct;
    if (m->blocks) {
        const lw_v dark = 0.001F - now->surplus;
        lw_lane_blocked(m, &now->pack_c, &dark, &now->surplus, sums);
    }
    if (!m->end_by_start)
        end_of_charge(m, s, now);
    lw_v in = now->surplus * m->in_share;
    const lw_v room = s->full - s->charge;
    lw_v_least(&in, &room);
    lw_v_positive(&in);
    s->charge += in;
    sums->panel += now->could * now->open_v;
    sums->spilled += (now->could - now->direct - in * m->inverse_in) * now->open_v;
}

/* As take_ah() in cells_step.c where the others end lower than the light. */
LW_INTO take_apart(const lane_state *s, const hour *now, const lw_v *rest, lw_v *taken)
{
    lw_v others = now->other - now->direct, room = s->charge - now->others_least, light;
    lw_v_positive(&others);
    lw_v_positive(&room);
    light = *rest - others;
    lw_v_least(&others, &room);
    room = s->charge - others - now->least;
    lw_v_positive(&room);
    lw_v_least(&room, &light);
    *taken = others + room;
}

LW_INTO discharge_hour(const lw_lane_model *m, float level_h, lane_state *s, const hour *now, lane_sums *sums)
{
    const lw_v need = now->light + now->other, rest = need - now->direct;
    lw_v taken;
    if (m->others_lower) {
        take_apart(s, now, &rest, &taken);
    } else {
        taken = s->charge - now->least;
        lw_v_positive(&taken);
        lw_v_least(&taken, &rest);
    }
    s->charge -= taken;
    lw_v lacking = rest - taken;
    sums->load += (need - lacking) * now->open_v;
    sums->taken += taken;
    sums->charge += s->charge;
    const lw_v share = s->charge * s->inverse_full;
    lw_v_least(&sums->lowest, &share);
    if (level_h <= 0.0F)
        return;
    lw_v_least(&lacking, &now->light);
    const lw_v kept = 1.0F - lacking / (now->light + 1e-12F);
    lw_v asked = s->load * (level_h * m->light_w);
    if (m->counts_charge)
        asked *= m->nominal_v / now->open_v;
    const lw_v dimmed = asked * now->dim, wanted = m->dims_missing ? asked : dimmed;
    lw_v missing = wanted - dimmed * now->shining * kept;
    lw_v_positive(&missing);
    sums->wanted += wanted;
    sums->missing += missing;
}

LW_INTO cells_hour(const lw_engine *engine, const lw_drive_block *drive, int h, int at, lane_state *s, lane_sums *sums)
{
    const lw_lane_model *m = &engine->lanes;
    const float level_h = engine->level_h[h];
    hour now;
    begin_hour(m, drive->pack_c[h] + at, drive->resistance[h] + at, s, &now);
    load_hour(m, level_h, engine->other_w[h % 24], s, &now);
    lw_v sun;
    lw_v_load(drive->light_w_m2[h] + at, &sun);
    sun *= s->photo * 1e-3F;
    now.direct = (lw_v){0.0F};
    const lw_v dark = 0.0F - sun;
    lw_vi lit;
    lw_v_negative(&dark, &lit);
    if (lw_v_any(&lit)) {
        panel_hour(m, &sun, drive->cell_c[h] + at, &now);
        lw_v_where(&lit, &now.could);
        charge_hour(m, s, &now, sums);
    }
    floor_hour(m, level_h, s, &now);
    discharge_hour(m, level_h, s, &now, sums);
}

LW_INTO cells_hours(const lw_engine *engine, const lw_drive_block *drive, int from, int to, int at, lane_state *s,
                    lane_sums *sums)
{
    for (int h = from; h < to; h++)
        cells_hour(engine, drive, h, at, s, sums);
}

#endif
