/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure beam_fit: lumens and shape of a head from lux readings at a few angles.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"

enum { ANGLES, LUX, DISTANCE, METER };
static const lw_input inputs[] = {
    [ANGLES] = {"angle_deg", "degree", "angles from straight below", LW_NUMBERS, 0, 89, NULL, NULL, 3, 200},
    [LUX] = {"lux_lx", "lx", "reading at each angle, the meter facing the head", LW_NUMBERS, 0, 1e6, NULL, NULL, 3,
             200},
    [DISTANCE] = {"distance_m", "m", "distance of the meter from the head, the same for all", LW_NUMBER, 0.05, 50, NULL,
                  "1", 0, 0},
    [METER] = {"meter_pct", "%", "uncertainty of the meter (one standard deviation; a phone: 20)", LW_NUMBER, 0, 100,
               NULL, "10", 0, 0},
};

enum { PEAK, POWER, POWER_SD, FLUX, FLUX_SD, MISFIT };
static const lw_output outputs[] = {
    [PEAK] = {"peak_cd", "cd", "intensity along the axis", LW_NUMBER},
    [POWER] = {"cos_power", "", "power m of I = peak cos^m", LW_NUMBER},
    [POWER_SD] = {"cos_power_sd", "", "one standard deviation of it", LW_NUMBER},
    [FLUX] = {"flux_lm", "lm", "light of the head below the horizontal", LW_NUMBER},
    [FLUX_SD] = {"flux_sd_lm", "lm", "one standard deviation of it", LW_NUMBER},
    [MISFIT] = {"misfit", "", "scatter of the readings about the curve, over the peak", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[ANGLES].count != in[LUX].count)
        return lw_fail(err, LW_WRONG_INPUT, "lux_lx", "lux_lx has %zu values and angle_deg %zu; they must be as many.",
                       in[LUX].count, in[ANGLES].count);
    lw_beam_fit fit;
    if (!lw_beam_fit_cosine(in[ANGLES].list, in[LUX].list, in[LUX].count, in[DISTANCE].number, in[METER].number / 100.0,
                            &fit, err))
        return false;
    out[PEAK] = lw_value_number(fit.peak_cd);
    out[POWER] = lw_value_number(fit.cos_power);
    out[POWER_SD] = lw_value_number(fit.cos_power_sd);
    out[FLUX] = lw_value_number(fit.flux_lm);
    out[FLUX_SD] = lw_value_number(fit.flux_sd_lm);
    out[MISFIT] = lw_value_number(fit.misfit);
    return true;
}

const lw_figure lw_fig_beam_fit = {
    .name = "beam_fit",
    .room = "light",
    .summary = "Lumens and shape of a hand-made head from lux readings at a few angles, with their uncertainty.",
    .source = "least squares on I = lux distance^2 (inverse square law); flux = 2 pi peak/(m + 1)",
    .limits = "Distance at least five times the lit part; light that glows sideways and upward is not in this shape.",
    .caution = "Do not look into the bare LEDs.",
    .example = "angle_deg=0,30,60,80 lux_lx=118,101,60,21 meter_pct=10",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
