/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure sleeve_joint: two pipes, one inside the other over a lap.
 */
#include "lanewick/figure.h"
#include "lanewick/mast_parts.h"

#include <math.h>

enum { MOMENT, SHEAR, LAP, INNER, TWIST, SLIDE };
static const lw_input inputs[] = {
    [MOMENT] = {"moment_nm", "N m", "bending moment at the mouth of the lap, without load factor", LW_NUMBER, 0,
                100000.0, NULL, NULL, 0, 0},
    [SHEAR] = {"shear_n", "N", "sideways force there", LW_NUMBER, 0, 20000, NULL, NULL, 0, 0},
    [LAP] = {"lap_mm", "mm", "length over which they touch", LW_NUMBER, 20, 6000, NULL, NULL, 0, 0},
    [INNER] = {"inner_diameter_mm", "mm", "outer diameter of the inner pipe", LW_NUMBER, 10, 390, NULL, NULL, 0, 0},
    [TWIST] = {"twist_nm", "N m", "twist at the joint, taken by a bolt through both", LW_NUMBER, 0, 2000, NULL, "0", 0,
               0},
    [SLIDE] = {"slide_n", "N", "lift or weight that the bolt takes", LW_NUMBER, 0, 20000, NULL, "0", 0, 0},
};

enum { MOUTH, FOOT, CONTACT, PRESSURE, BOLT };
static const lw_output outputs[] = {
    [MOUTH] = {"mouth_n_mm", "N/mm", "contact load at the mouth, per millimetre of lap", LW_NUMBER},
    [FOOT] = {"foot_n_mm", "N/mm", "at the other end, on the other side", LW_NUMBER},
    [CONTACT] = {"contact_n", "N", "sum of the contact near the mouth", LW_NUMBER},
    [PRESSURE] = {"pressure_mpa", "MPa", "greatest load over the inner diameter", LW_NUMBER},
    [BOLT] = {"bolt_shear_n", "N", "shear of one bolt through both, at each of its two planes", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double lap = in[LAP].number, d = in[INNER].number;
    if (lap < lw_sleeve_least_lap(d))
        return lw_fail(err, LW_REFUSED, "lap_mm",
                       "lap_mm is %g; a lap must be at least one and a half diameters, %g mm here. A licensed engineer "
                       "decides.",
                       lap, lw_sleeve_least_lap(d));
    (void)err;
    const lw_sleeve sleeve = lw_sleeve_contact(in[MOMENT].number, in[SHEAR].number, lap / 1000.0);
    out[MOUTH] = lw_value_number(sleeve.mouth_n_m / 1000.0);
    out[FOOT] = lw_value_number(sleeve.foot_n_m / 1000.0);
    out[CONTACT] = lw_value_number(sleeve.contact_n);
    out[PRESSURE] = lw_value_number(sleeve.mouth_n_m / 1000.0 / d);
    out[BOLT] = lw_value_number(hypot(1000.0 * in[TWIST].number / d, 0.5 * in[SLIDE].number));
    return true;
}

const lw_figure lw_fig_sleeve_joint = {
    .name = "sleeve_joint",
    .room = "mast",
    .summary = "Contact and bolt of a sleeve joint between two pipes.",
    .source = "statics: stiff pipe on an even bed, p = V/L +- 6 (M + V L/2)/L2; least lap 1.5 diameters as slip joints "
              "of AASHTO LTS and ASCE 48 (from memory)",
    .limits =
        "A close fit; each pipe is checked for itself with mast_bending, the outer one with the moment at the mouth",
    .caution = "Both pipes keep their own strength check; a welded splice is for a licensed engineer.",
    .example = "moment_nm=600 shear_n=300 lap_mm=300 inner_diameter_mm=60.3 twist_nm=10",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
