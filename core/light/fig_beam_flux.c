/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure beam_flux: lumens of a cos^m head from its peak, or the peak from its lumens.
 */
#include "lanewick/figure.h"
#include "lanewick/light.h"
#include "lanewick/units.h"

#include <math.h>

enum { PEAK, POWER, HALF, FLUX, INSIDE };
static const lw_input inputs[] = {
    [PEAK] = {"peak_cd", "cd", "intensity along the axis; give this or flux_lm", LW_NUMBER, 1e-6, 1e9, NULL, "", 0, 0},
    [POWER] = {"cos_power", "", "power m of I = peak cos^m; 1 is a flat diffuse board", LW_NUMBER, 0, 1000, NULL, "", 0,
               0},
    [HALF] = {"half_angle_deg", "degree", "angle from the axis at half the peak; gives cos_power", LW_NUMBER, 0.5, 89.9,
              NULL, "", 0, 0},
    [FLUX] = {"flux_lm", "lm", "all light of the head; give this or peak_cd", LW_NUMBER, 1e-6, 1e9, NULL, "", 0, 0},
    [INSIDE] = {"inside_deg", "degree", "angle from the axis for share_inside", LW_NUMBER, 0, 90, NULL, "60", 0, 0},
};

enum { OUT_FLUX, OUT_PEAK, OUT_POWER, SHARE };
static const lw_output outputs[] = {
    [OUT_FLUX] = {"flux_lm", "lm", "all light of the head", LW_NUMBER},
    [OUT_PEAK] = {"peak_cd", "cd", "intensity along the axis", LW_NUMBER},
    [OUT_POWER] = {"cos_power", "", "power m", LW_NUMBER},
    [SHARE] = {"share_inside", "", "share of the light within inside_deg of the axis", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[POWER].given == in[HALF].given)
        return lw_fail(err, LW_WRONG_INPUT, "cos_power", "Give either cos_power or half_angle_deg.");
    if (in[PEAK].given == in[FLUX].given)
        return lw_fail(err, LW_WRONG_INPUT, "peak_cd", "Give either peak_cd or flux_lm.");
    const double power = in[POWER].given ? in[POWER].number : lw_cosine_power(in[HALF].number);
    const double peak = in[PEAK].given ? in[PEAK].number : lw_cosine_peak_cd(in[FLUX].number, power);
    out[OUT_FLUX] = lw_value_number(lw_cosine_flux_lm(peak, power));
    out[OUT_PEAK] = lw_value_number(peak);
    out[OUT_POWER] = lw_value_number(power);
    out[SHARE] = lw_value_number(1.0 - pow(cos(in[INSIDE].number * lw_radian_per_degree), power + 1.0));
    return true;
}

const lw_figure lw_fig_beam_flux = {
    .name = "beam_flux",
    .room = "light",
    .summary = "Lumens of a head whose light falls as a power of the cosine, from its peak, or the reverse.",
    .source = "Lambert (1760); flux = 2 pi peak/(m + 1), m = -ln 2/ln cos(half angle), closed forms",
    .limits = "Light goes below the horizontal only; a bottle that glows all round needs readings at several angles.",
    .example = "peak_cd=318.3 cos_power=1",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
