/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Panel and charger of eight lamps for one hour.
 */
#ifndef LANEWICK_CORE_POWER_LANE_PANEL_H
#define LANEWICK_CORE_POWER_LANE_PANEL_H

#include "lanes.h"

static inline float lw_lane_dim(const lw_lane_model *m, float share)
{
    float dim = 1.0F;
    for (int i = m->dim_count - 1; i >= 0; i--)
        dim = share < m->dim_below[i] ? m->dim_factor[i] : dim;
    return dim;
}

/* Watts that a tracking charger brings to the pack side. */
static inline void lw_lane_tracked(const lw_lane_model *m, const float *light, const float *cell_c, const float *photo,
                                   float *out)
{
    const float *p = m->power;
    for (int l = 0; l < LW_LANES; l++) {
        const float sun = light[l] * photo[l] * 1e-3F, t = cell_c[l] - 25.0F;
        out[l] = lw_most(0.0F, sun * (p[0] + t * (p[1] + t * p[2])));
    }
    if (m->diode)
        for (int l = 0; l < LW_LANES; l++) {
            const float sun = light[l] * photo[l] * 1e-3F, t = cell_c[l] - 25.0F;
            const float g = lw_lane_log(lw_most(sun, 1e-4F));
            const float bent = g * (p[3] + t * p[4] + g * (p[5] + t * p[6]));
            out[l] = lw_most(0.0F, out[l] + sun * bent);
        }
    for (int l = 0; l < LW_LANES; l++) {
        const float w = out[l] < m->start_w ? 0.0F : out[l] * m->charger_share;
        out[l] = w * lw_hinges_at(&m->efficiency, w);
    }
}

/* Amperes of the one-diode curve at the voltage v and the resistance r (series, wire and pack): Newton on
 * u = V + I R from the right, as in diode.c. */
static inline float lw_lane_diode_a(const lw_lane_model *m, float sun, float cell_c, float v, float r)
{
    const float t = cell_c - 25.0F;
    const float photo = sun * m->photo_a * (1.0F + m->isc_temp * t), shunt = sun * m->shunt_s;
    const float a = m->ideality_v * (1.0F + t * (1.0F / 298.15F)), inverse_a = 1.0F / a;
    const float log_i0 = m->log_i0[0] + t * (m->log_i0[1] + t * (m->log_i0[2] + t * m->log_i0[3]));
    const float inverse_r = 1.0F / r;
    const float open_u = a * (lw_lane_log(photo + v * inverse_r + 1e-9F) - log_i0);
    float u = lw_least(v + photo * r, open_u);
    float current = 0.0F;
    for (int turn = 0; turn < 4; turn++) {
        const float junction = lw_lane_exp(u * inverse_a + log_i0);
        const float excess = photo - junction - u * shunt - (u - v) * inverse_r;
        u += excess / (junction * inverse_a + shunt + inverse_r);
        current = (u - v) * inverse_r;
    }
    return lw_most(0.0F, current);
}

#endif
