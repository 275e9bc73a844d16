/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Flicker of a head that is dimmed by switching it on and off (PWM).
 *
 * Limits of IEEE Std 1789-2015 for the modulation depth (max - min)/(max + min) in per cent at f hertz, from memory:
 * low risk 0.025 f below 90 Hz, 0.08 f from 90 Hz, no limit above 1250 Hz; no observable effect 0.01 f below 90 Hz,
 * 0.0333 f from 90 Hz, no limit above 3000 Hz.
 */
#ifndef LANEWICK_FLICKER_H
#define LANEWICK_FLICKER_H

typedef struct lw_flicker {
    double depth_pct;                   /* of the light; LEDs follow the current at once */
    double index;                       /* area above the mean over all, 0..1 */
    double mean_share;                  /* mean light over full light */
    double low_risk_pct, no_effect_pct; /* depth allowed at this frequency */
    double low_risk_hz, no_effect_hz;   /* frequency from which this depth is allowed */
} lw_flicker;

/* Full light for a share duty (0..1] of each period, low_share (0..1) of it for the rest. */
lw_flicker lw_flicker_of(double frequency_hz, double duty, double low_share);

#endif
