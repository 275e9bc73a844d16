/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hours of the energy bucket for the lamps of a vector; the same order of things as bucket_step.c.
 */
#ifndef LANEWICK_CORE_POWER_LANE_BUCKET_H
#define LANEWICK_CORE_POWER_LANE_BUCKET_H

#include "lane_panel.h"

LW_INTO bucket_charge(const lw_lane_model *m, const lw_v *could, const float *pack_c, lane_state *s, lane_sums *sums)
{
    lw_v surplus = *could, t;
    if (m->blocks) {
        lw_v_load(pack_c, &t);
        const lw_v dark = 0.01F - *could;
        lw_lane_blocked(m, &t, &dark, &surplus, sums);
    }
    lw_v in = surplus * m->in_share;
    const lw_v room = s->full - s->charge;
    lw_v_least(&in, &room);
    lw_v_positive(&in);
    s->charge += in;
    sums->spilled += *could - in * m->inverse_in;
}

LW_INTO bucket_hour(const lw_lane_model *m, float level_h, float other_wh, const lw_v *panel, const float *pack_c,
                    lane_state *s, lane_sums *sums)
{
    s->charge *= m->keep;
    const lw_v asked = s->load * (level_h * m->light_w);
    lw_v light = asked;
    if (m->dim_count > 0) {
        const lw_v share = s->charge * s->inverse_full;
        lw_v dim;
        lw_lane_dim(m, &share, &dim);
        light *= dim;
    }
    const lw_v need = light + other_wh;
    lw_v direct = *panel;
    lw_v_least(&direct, &need);
    const lw_v could = *panel - direct;
    bucket_charge(m, &could, pack_c, s, sums);
    const lw_v rest = need - direct, most = s->charge * m->out_share;
    lw_v given = rest;
    lw_v_least(&given, &most);
    const lw_v taken = given * m->inverse_out;
    s->charge -= taken;
    lw_v_positive(&s->charge);
    lw_v lacking = rest - given;
    sums->load += need - lacking;
    lw_v_least(&lacking, &light);
    const lw_v wanted = m->dims_missing ? asked : light;
    sums->wanted += wanted;
    sums->missing += wanted - light + lacking;
    const lw_v share = s->charge * s->inverse_full;
    lw_v_least(&sums->lowest, &share);
    sums->panel += *panel;
    sums->taken += taken;
    sums->charge += s->charge;
}

LW_INTO bucket_hours(const lw_engine *engine, const lw_drive_block *drive, int from, int to, int at, lane_state *s,
                     lane_sums *sums)
{
    const lw_lane_model *m = &engine->lanes;
    const lw_v photo = s->photo * 1e-3F;
    for (int h = from; h < to; h++) {
        lw_v sun, cell_c, panel;
        lw_v_load(drive->light_w_m2[h] + at, &sun);
        lw_v_load(drive->cell_c[h] + at, &cell_c);
        sun *= photo;
        lw_lane_tracked(m, &sun, &cell_c, &panel);
        bucket_hour(m, engine->level_h[h], engine->other_w[h % 24], &panel, drive->pack_c[h] + at, s, sums);
    }
}

#endif
