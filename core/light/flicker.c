/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Flicker of a dimmed head: see lanewick/flicker.h.
 */
#include "lanewick/flicker.h"

#include <math.h>

static const double low_edge_hz = 90.0, no_effect_end_hz = 3000.0, low_risk_end_hz = 1250.0;

/* The lowest frequency at which a depth is allowed, by the slopes below and from 90 Hz. */
static double allowed_from_hz(double depth_pct, double below, double above)
{
    return depth_pct < below * low_edge_hz ? depth_pct / below : fmax(low_edge_hz, depth_pct / above);
}

lw_flicker lw_flicker_of(double frequency_hz, double duty, double low_share)
{
    lw_flicker out = {0};
    const double mean = duty + (1.0 - duty) * low_share;
    out.depth_pct = duty < 1.0 ? 100.0 * (1.0 - low_share) / (1.0 + low_share) : 0.0;
    /* area above the mean over the whole area of one period: rectangle of height 1 - mean and width duty */
    out.index = duty * (1.0 - mean) / mean;
    out.mean_share = mean;
    out.low_risk_pct = frequency_hz < low_edge_hz ? 0.025 * frequency_hz : 0.08 * frequency_hz;
    out.no_effect_pct = frequency_hz < low_edge_hz ? 0.01 * frequency_hz : 0.0333 * frequency_hz;
    out.low_risk_pct = frequency_hz > low_risk_end_hz ? 100.0 : fmin(100.0, out.low_risk_pct);
    out.no_effect_pct = frequency_hz > no_effect_end_hz ? 100.0 : fmin(100.0, out.no_effect_pct);
    out.low_risk_hz = fmin(low_risk_end_hz, allowed_from_hz(out.depth_pct, 0.025, 0.08));
    out.no_effect_hz = fmin(no_effect_end_hz, allowed_from_hz(out.depth_pct, 0.01, 0.0333));
    return out;
}
