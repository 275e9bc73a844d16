/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hours of a pack of cells for eight lamps side by side; the same order of things as cells_step.c. With steps of
 * an hour the RC pair has settled, so R0 + R1 acts.
 */
#include "lane_panel.h"
#include "lanes.h"
#include "lanewick/hot.h"

#include <math.h>

/* What is known of each lamp at the start of an hour. */
typedef struct hour_state {
    float open_v[LW_LANES], r_ohm[LW_LANES], r_share[LW_LANES], share[LW_LANES];
} hour_state;

static inline void begin_hour(const lw_lane_model *m, const float *pack_c, lw_lane_state *s, hour_state *now)
{
    for (int l = 0; l < LW_LANES; l++) {
        s->charge[l] *= m->keep;
        now->share[l] = s->charge[l] * s->inverse_full[l];
        now->open_v[l] = lw_hinges_at(&m->open_v, now->share[l]);
        now->r_share[l] = s->resistance[l];
    }
    if (m->follows_temperature)
        for (int l = 0; l < LW_LANES; l++)
            now->r_share[l] *= lw_lane_exp(3006.976F / (lw_most(pack_c[l], -60.0F) + 273.15F) - 10.0854469F);
    for (int l = 0; l < LW_LANES; l++)
        now->r_ohm[l] = m->r_ohm * now->r_share[l];
}

/* What panel and charger could bring [A]. */
static inline void panel_hour(const lw_lane_model *m, const float *light, const float *cell_c, const lw_lane_state *s,
                              const hour_state *now, float *could)
{
    if (m->tracking) {
        float w[LW_LANES];
        lw_lane_tracked(m, light, cell_c, s->photo, w);
        for (int l = 0; l < LW_LANES; l++) {
            const float v = now->open_v[l];
            could[l] = 2.0F * w[l] / (v + sqrtf(v * v + 4.0F * now->r_ohm[l] * w[l]));
        }
        return;
    }
    for (int l = 0; l < LW_LANES; l++) {
        const float sun = light[l] * s->photo[l] * 1e-3F;
        const float r = m->series_ohm + m->wire_ohm + now->r_ohm[l] + 1e-6F;
        could[l] = lw_lane_diode_a(m, sun, cell_c[l], now->open_v[l] + m->blocking_v, r);
    }
    if (m->floor_v > 0.0F)
        for (int l = 0; l < LW_LANES; l++) {
            const float sun = light[l] * s->photo[l] * 1e-3F;
            could[l] = lw_least(could[l], lw_lane_diode_a(m, sun, cell_c[l], m->floor_v, m->series_ohm + 1e-6F));
        }
}

/* Currents of the light and of the rest; the share of its light that the head gives at this voltage. */
static inline void load_hour(const lw_lane_model *m, float level_h, float other_w, const lw_lane_state *s,
                             const hour_state *now, float *light, float *shining, float *other)
{
    const int turns = m->open_load ? 1 : 3;
    for (int l = 0; l < LW_LANES; l++) {
        const float level = level_h * s->load[l] * lw_lane_dim(m, now->share[l]);
        float v = now->open_v[l], light_a = 0.0F, other_a = 0.0F, share = 1.0F;
        for (int turn = 0; turn < turns; turn++) {
            const float inverse_v = 1.0F / v;
            share = lw_least(m->most, lw_most(0.0F, (v - m->zero_v) * m->inverse_span));
            light_a = level * share * (m->draw_w * inverse_v + m->draw_a);
            other_a = other_w * inverse_v + m->standby_a;
            v = lw_most(0.5F * now->open_v[l], now->open_v[l] - now->r_ohm[l] * (light_a + other_a));
        }
        light[l] = light_a;
        other[l] = other_a;
        shining[l] = lw_least(1.0F, share);
    }
}

/* Charge that must stay: cut-off under load, and what the cold withholds. */
static inline void floor_hour(const lw_lane_model *m, float level_h, const float *pack_c, const lw_lane_state *s,
                              const hour_state *now, float *least)
{
    for (int l = 0; l < LW_LANES; l++)
        least[l] = 0.0F;
    if (m->cutoff)
        for (int l = 0; l < LW_LANES; l++) {
            const float level = lw_least(1.0F, level_h * s->load[l]) * lw_lane_dim(m, now->share[l]);
            const float v = m->floor_at_rest + m->floor_draw_a * level * m->weak_r_ohm * now->r_share[l];
            least[l] = lw_hinges_at(&m->cell_charge, v) * s->full[l];
        }
    if (m->follows_temperature)
        for (int l = 0; l < LW_LANES; l++)
            least[l] = lw_most(least[l], (1.0F - lw_hinges_at(&m->cold, pack_c[l])) * s->full[l]);
}

typedef struct currents {
    float room[LW_LANES]; /* share of the surplus that the end of charge lets in */
    float could[LW_LANES], light[LW_LANES], shining[LW_LANES], other[LW_LANES], least[LW_LANES];
} currents;

/* The end of charge, as in cells_step.c: the voltage at the end of the hour may not pass full_v. */
static inline void room_hour(const lw_lane_model *m, const float *pack_c, const lw_lane_state *s, const hour_state *now,
                             currents *c)
{
    for (int l = 0; l < LW_LANES; l++) {
        const float need = c->light[l] + c->other[l];
        const float outside = m->blocks && (pack_c[l] < m->low_c || pack_c[l] > m->high_c) ? 0.0F : 1.0F;
        const float surplus = lw_most(0.0F, lw_least(c->could[l], m->most_a) - need) * outside;
        const float v = now->open_v[l], room_v = lw_most(0.0F, m->full_v - v);
        const float rise_v = lw_hinges_at(&m->open_v, (s->charge[l] + surplus) * s->inverse_full[l]) - v;
        const float needed_v = rise_v + now->r_ohm[l] * surplus;
        c->room[l] = needed_v > room_v ? room_v / lw_most(needed_v, 1e-9F) : 1.0F;
    }
}

static inline void store_hour(const lw_lane_model *m, float level_h, const float *pack_c, const hour_state *now,
                              const currents *c, lw_lane_state *s, lw_lane_sums *sums)
{
    for (int l = 0; l < LW_LANES; l++) {
        const float v = now->open_v[l], room_v = lw_most(0.0F, m->full_v - v);
        const float by_start = m->end_by_start ? room_v / (now->r_ohm[l] + 1e-9F) : 1e9F;
        const float limited = lw_least(lw_least(c->could[l], by_start), m->most_a);
        const float need = c->light[l] + c->other[l], direct = lw_least(limited, need);
        const float cold = pack_c[l] < m->low_c ? 1.0F : 0.0F, hot = pack_c[l] > m->high_c ? 1.0F : 0.0F;
        const float could = limited - direct;
        const float allowed = m->blocks ? could * (1.0F - cold - hot) : could;
        const float surplus = allowed * c->room[l];
        const float in = lw_most(0.0F, lw_least(surplus * m->in_share, s->full[l] - s->charge[l]));
        const float charge = s->charge[l] + in, rest = need - direct;
        const float taken = lw_least(rest, lw_most(0.0F, charge - c->least[l]));
        const float lacking = rest - taken, light_lacking = lw_least(lacking, c->light[l]);
        const float kept = 1.0F - light_lacking / lw_most(c->light[l], 1e-12F);
        const float dim = lw_lane_dim(m, now->share[l]);
        const float weight = m->counts_charge > 0.0F ? m->nominal_v / v : 1.0F;
        const float asked = level_h * s->load[l] * m->light_w * weight;
        const float wanted = m->dims_missing > 0.0F ? asked : asked * dim;
        const float sun = could > 0.001F ? 1.0F : 0.0F;
        s->charge[l] = charge - taken;
        sums->wanted[l] += wanted;
        sums->missing[l] += lw_most(0.0F, wanted - asked * dim * c->shining[l] * kept);
        sums->lowest[l] = lw_least(sums->lowest[l], s->charge[l] * s->inverse_full[l]);
        sums->panel[l] += c->could[l] * v;
        sums->load[l] += (need - lacking) * v;
        sums->spilled[l] += (c->could[l] - direct - in / m->in_share) * v;
        sums->taken[l] += taken;
        sums->charge[l] += s->charge[l];
        sums->cold[l] += cold * sun;
        sums->hot[l] += hot * sun;
    }
}

static bool any_light(const float *light)
{
    float most = 0.0F;
    for (int l = 0; l < LW_LANES; l++)
        most = lw_most(most, light[l]);
    return most > 0.0F;
}

LW_HOT void lw_lane_cells_hours(const lw_engine *engine, const lw_drive_block *drive, int from, int to,
                                lw_lane_state *state, lw_lane_sums *sums)
{
    const lw_lane_model *m = &engine->lanes;
    lw_lane_state s = *state;
    lw_lane_sums sum = *sums;
    for (int h = from; h < to; h++) {
        const float level_h = engine->level_h[h];
        hour_state now;
        currents c;
        begin_hour(m, drive->pack_c[h], &s, &now);
        const bool sun = any_light(drive->light_w_m2[h]);
        memset(c.could, 0, sizeof c.could);
        for (int l = 0; l < LW_LANES; l++)
            c.room[l] = 1.0F;
        if (sun)
            panel_hour(m, drive->light_w_m2[h], drive->cell_c[h], &s, &now, c.could);
        load_hour(m, level_h, engine->other_w[h % 24], &s, &now, c.light, c.shining, c.other);
        floor_hour(m, level_h, drive->pack_c[h], &s, &now, c.least);
        if (sun && !m->end_by_start)
            room_hour(m, drive->pack_c[h], &s, &now, &c);
        store_hour(m, level_h, drive->pack_c[h], &now, &c, &s, &sum);
    }
    *state = s;
    *sums = sum;
}
