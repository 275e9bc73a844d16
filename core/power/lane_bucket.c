/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hours of the energy bucket for eight lamps side by side; the same order of things as bucket_step.c.
 */
#include "lane_panel.h"
#include "lanes.h"
#include "lanewick/hot.h"

static inline void bucket_hour(const lw_lane_model *m, float level_h, float other_wh, const float *panel_wh,
                               const float *pack_c, lw_lane_state *s, lw_lane_sums *sums)
{
    for (int l = 0; l < LW_LANES; l++) {
        const float full = s->full[l];
        float charge = s->charge[l] * m->keep;
        const float dim = lw_lane_dim(m, charge * s->inverse_full[l]);
        const float asked = level_h * m->light_w * s->load[l], light = asked * dim;
        const float need = light + other_wh, panel = panel_wh[l];
        const float direct = lw_least(panel, need);
        const float cold = pack_c[l] < m->low_c ? 1.0F : 0.0F, hot = pack_c[l] > m->high_c ? 1.0F : 0.0F;
        const float could = panel - direct;
        const float surplus = m->blocks ? could * (1.0F - cold - hot) : could;
        const float in = lw_most(0.0F, lw_least(surplus * m->in_share, full - charge));
        charge += in;
        const float rest = need - direct, given = lw_least(rest, charge * m->out_share);
        const float taken = given / m->out_share;
        charge = lw_most(0.0F, charge - taken);
        const float lacking = rest - given;
        const float wanted = m->dims_missing > 0.0F ? asked : light;
        s->charge[l] = charge;
        sums->wanted[l] += wanted;
        sums->missing[l] += wanted - light + lw_least(lacking, light);
        sums->lowest[l] = lw_least(sums->lowest[l], charge * s->inverse_full[l]);
        sums->panel[l] += panel;
        sums->load[l] += need - lacking;
        sums->spilled[l] += could - in / m->in_share;
        sums->taken[l] += taken;
        sums->charge[l] += charge;
        const float sun = could > 0.01F ? 1.0F : 0.0F;
        sums->cold[l] += cold * sun;
        sums->hot[l] += hot * sun;
    }
}

LW_HOT void lw_lane_bucket_hours(const lw_engine *engine, const lw_drive_block *drive, int from, int to,
                                 lw_lane_state *state, lw_lane_sums *sums)
{
    const lw_lane_model *m = &engine->lanes;
    lw_lane_state s = *state;
    lw_lane_sums sum = *sums;
    for (int h = from; h < to; h++) {
        float panel[LW_LANES];
        lw_lane_tracked(m, drive->light_w_m2[h], drive->cell_c[h], s.photo, panel);
        bucket_hour(m, engine->level_h[h], engine->other_w[h % 24], panel, drive->pack_c[h], &s, &sum);
    }
    *state = s;
    *sums = sum;
}
