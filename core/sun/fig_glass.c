/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure glass: light lost on the glass of a panel at an angle.
 */
#include "lanewick/figure.h"
#include "lanewick/plane.h"

#include <math.h>

enum { INCIDENCE_DEG, TILT_DEG, B0 };
static const lw_input inputs[] = {
    [INCIDENCE_DEG] = {"incidence_deg", "degree", "angle between the beam and the normal of the glass", LW_NUMBER, 0,
                       90, NULL, NULL, 0, 0},
    [TILT_DEG] = {"tilt_deg", "degree", "of the glass", LW_NUMBER, 0, 90, NULL, "15", 0, 0},
    [B0] = {"b0", "", "constant of the incidence modifier", LW_NUMBER, 0, 0.3, NULL, "0.05", 0, 0},
};

enum { BEAM_FACTOR, SKY_ANGLE_DEG, GROUND_ANGLE_DEG, SKY_FACTOR, GROUND_FACTOR };
static const lw_output outputs[] = {
    [BEAM_FACTOR] = {"beam_factor", "", "share of the beam that passes, over that at normal incidence", LW_NUMBER},
    [SKY_ANGLE_DEG] = {"sky_angle_deg", "degree", "angle at which even sky light may be thought to arrive", LW_NUMBER},
    [GROUND_ANGLE_DEG] = {"ground_angle_deg", "degree", "the same for light from the ground", LW_NUMBER},
    [SKY_FACTOR] = {"sky_factor", "", "share of sky light that passes", LW_NUMBER},
    [GROUND_FACTOR] = {"ground_factor", "", "share of ground light that passes", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double b0 = in[B0].number, tilt_deg = in[TILT_DEG].number;
    const double sky_deg = lw_sky_angle_deg(tilt_deg), ground_deg = lw_ground_angle_deg(tilt_deg);
    out[BEAM_FACTOR] = lw_value_number(lw_glass_factor(b0, cos(in[INCIDENCE_DEG].number * lw_radian_per_degree)));
    out[SKY_ANGLE_DEG] = lw_value_number(sky_deg);
    out[GROUND_ANGLE_DEG] = lw_value_number(ground_deg);
    out[SKY_FACTOR] = lw_value_number(lw_glass_factor(b0, cos(sky_deg * lw_radian_per_degree)));
    out[GROUND_FACTOR] = lw_value_number(lw_glass_factor(b0, cos(ground_deg * lw_radian_per_degree)));
    return true;
}

const lw_figure lw_fig_glass = {
    .name = "glass",
    .room = "sun",
    .summary = "Share of light that passes the glass of a panel at an angle, compared with light from straight ahead.",
    .source = "ASHRAE incidence modifier (Souka & Safwat 1966, from memory); Brandemuehl & Beckman (1980), Duffie & "
              "Beckman eqs. 5.4.1, 5.4.2 (from memory)",
    .limits = "Flat glass; beyond 80 degrees the form is rough.",
    .example = "incidence_deg=62.5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
