/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Panel, charger and dimming of eight lamps for one hour.
 */
#ifndef LANEWICK_CORE_POWER_LANE_PANEL_H
#define LANEWICK_CORE_POWER_LANE_PANEL_H

#include "lanes.h"

/* Factor by which the light is turned down at a share of charge. */
LW_INTO lw_lane_dim(const lw_lane_model *m, const lw_v *share, lw_v *dim)
{
    lw_v factor = {0.0F};
    factor += 1.0F;
    for (int i = m->dim_count - 1; i >= 0; i--) {
        lw_v down = {0.0F};
        down += m->dim_factor[i];
        const lw_vi below = *share < m->dim_below[i];
        lw_v_pick(&below, &down, &factor);
    }
    *dim = factor;
}

/* Watts that a tracking charger brings to the pack side. */
LW_INTO lw_lane_tracked(const lw_lane_model *m, const lw_v *sun, const lw_v *cell_c, lw_v *out)
{
    const float *p = m->power;
    const lw_v t = *cell_c - 25.0F;
    lw_v w = *sun * (t * (t * p[2] + p[1]) + p[0]);
    if (m->diode) {
        lw_v lit = *sun, g, least = {0.0F};
        least += 1e-4F;
        lw_v_most(&lit, &least);
        lw_v_log(&lit, &g);
        w += *sun * g * (t * p[4] + p[3] + g * (t * p[6] + p[5]));
    }
    lw_v_positive(&w);
    if (m->start_w > 0.0F) {
        const lw_vi runs = w >= m->start_w;
        lw_v_where(&runs, &w);
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

/* Amperes of the one-diode curve at the voltage v and the resistance r (series, wire and pack): Newton on
 * u = V + I R from the right, as in diode.c. */
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
    for (int turn = 0; turn < 3; turn++) {
        const lw_v x = u * inverse_a + log_i0;
        lw_v junction;
        lw_v_exp(&x, &junction);
        u += (photo - junction - u * shunt - (u - *v) * inverse_r) / (junction * inverse_a + shunt + inverse_r);
    }
    lw_v current = (u - *v) * inverse_r;
    lw_v_positive(&current);
    *out = current;
}

#endif
