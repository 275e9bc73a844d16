/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Panel, charger and dimming for one hour of the lamps of a vector.
 */
#ifndef LANEWICK_CORE_POWER_LANE_PANEL_H
#define LANEWICK_CORE_POWER_LANE_PANEL_H

#include "lane_hinges.h"
#include "lane_state.h"

/* Factor by which the light is turned down at a share of charge. */
LW_INTO lw_lane_dim(const lw_lane_model *m, const lw_v *share, lw_v *dim)
{
    lw_v factor;
    lw_v_fill(1.0F, &factor);
    for (int i = m->dim_count - 1; i >= 0; i--) {
        const lw_v above = *share - m->dim_below[i];
        lw_v down;
        lw_vi below;
        lw_v_fill(m->dim_factor[i], &down);
        lw_v_negative(&above, &below);
        lw_v_pick(&below, &down, &factor);
    }
    *dim = factor;
}

/* No charge into a pack outside its charging temperatures; hours in which there is sun for it (dark < 0) count. */
LW_INTO lw_lane_blocked(const lw_lane_model *m, const lw_v *pack_c, const lw_v *dark, lw_v *surplus, lane_sums *sums)
{
    const lw_v above_low = *pack_c - m->low_c, below_high = m->high_c - *pack_c;
    lw_vi sun, cold, hot;
    lw_v_negative(dark, &sun);
    lw_v_negative(&above_low, &cold);
    lw_v_negative(&below_high, &hot);
    cold &= sun;
    hot &= sun;
    const lw_vi well = ~(cold | hot);
    lw_v_where(&well, surplus);
    lw_v_count(&cold, &sums->cold);
    lw_v_count(&hot, &sums->hot);
}

/* Watts that a tracking charger brings to the pack side. */
LW_INTO lw_lane_tracked(const lw_lane_model *m, const lw_v *sun, const lw_v *cell_c, lw_v *out)
{
    const float *p = m->power;
    const lw_v t = *cell_c - 25.0F;
    lw_v w = *sun * (t * (t * p[2] + p[1]) + p[0]);
    if (m->diode) {
        lw_v lit = *sun, g, least;
        lw_v_fill(1e-4F, &least);
        lw_v_most(&lit, &least);
        lw_v_log(&lit, &g);
        w += *sun * g * (t * p[4] + p[3] + g * (t * p[6] + p[5]));
    }
    lw_v_positive(&w);
    if (m->start_w > 0.0F) {
        const lw_v above_w = w - m->start_w;
        lw_vi rests;
        lw_v_negative(&above_w, &rests);
        rests = ~rests;
        lw_v_where(&rests, &w);
    }
    w *= m->charger_share;
    if (m->efficiency.n == 0) {
        *out = w * m->efficiency.y0;
        return;
    }
    lw_v share;
    lw_v_hinges(&m->efficiency, &w, &share);
    *out = w * share;
}

/* Amperes of the one-diode curve at the voltage v and the resistance r (series, wire and pack): as in diode.c, on
 * u = V + I R from the right. Two of Halley's steps come nearer than three of Newton's and take one exponential less.
 */
LW_INTO lw_lane_diode_a(const lw_lane_model *m, const lw_v *sun, const lw_v *cell_c, const lw_v *v, const lw_v *r,
                        lw_v *out)
{
    const lw_v t = *cell_c - 25.0F;
    const lw_v photo = *sun * m->photo_a * (t * m->isc_temp + 1.0F), shunt = *sun * m->shunt_s;
    const lw_v a = (t * (1.0F / 298.15F) + 1.0F) * m->ideality_v, inverse_a = 1.0F / a;
    const lw_v log_i0 = t * (t * (t * m->log_i0[3] + m->log_i0[2]) + m->log_i0[1]) + m->log_i0[0];
    const lw_v inverse_r = 1.0F / *r, most_a = photo + *v * inverse_r + 1e-9F;
    lw_v open_u;
    lw_v_log(&most_a, &open_u);
    open_u = a * (open_u - log_i0);
    lw_v u = *v + photo * *r;
    lw_v_least(&u, &open_u);
    for (int turn = 0; turn < 2; turn++) {
        const lw_v x = u * inverse_a + log_i0;
        lw_v junction;
        lw_v_exp(&x, &junction);
        const lw_v bend = junction * inverse_a; /* A/V; the second derivative is bend / a */
        const lw_v gap = photo - junction - u * shunt - (u - *v) * inverse_r, slope = bend + shunt + inverse_r;
        u += 2.0F * gap * slope / (2.0F * slope * slope + gap * bend * inverse_a);
    }
    lw_v current = (u - *v) * inverse_r;
    lw_v_positive(&current);
    *out = current;
}

#endif
