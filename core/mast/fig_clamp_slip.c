/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure clamp_slip: when a clamp slides along a pole or turns round it.
 */
#include "lanewick/figure.h"
#include "lanewick/mast_parts.h"

#include <math.h>

enum { KIND, DIAMETER, BAND, BOLT, TIGHTEN, FRICTION, TWIST, SLIDE };
static const lw_input inputs[] = {
    [KIND] = {"kind", "", "band: hose clamp or strap; ubolt: with saddle", LW_CHOICE, 0, 0, "band|ubolt", NULL, 0, 0},
    [DIAMETER] = {"diameter_mm", "mm", "pole", LW_NUMBER, 15, 400, NULL, NULL, 0, 0},
    [BAND] = {"band_tension_n", "N", "band: pull in it; a hand-tightened hose clamp about 1000 N", LW_NUMBER, 10, 20000,
              NULL, "1000", 0, 0},
    [BOLT] = {"bolt_mm", "mm", "ubolt: its thread", LW_NUMBER, 4, 24, NULL, "8", 0, 0},
    [TIGHTEN] = {"tighten_nm", "N m", "ubolt: torque on each nut, dry", LW_NUMBER, 0.5, 1000, NULL, "10", 0, 0},
    [FRICTION] = {"friction", "", "steel on galvanised steel 0.2; wet plastic 0.1", LW_NUMBER, 0.05, 0.8, NULL, "0.2",
                  0, 0},
    [TWIST] = {"twist_nm", "N m", "twist that the wind gives (panel_wind)", LW_NUMBER, 0, 2000, NULL, "0", 0, 0},
    [SLIDE] = {"slide_n", "N", "weight or lift along the pole", LW_NUMBER, 0, 20000, NULL, "0", 0, 0},
};

enum { HOLD, TURN, LEG, MARGIN };
static const lw_output outputs[] = {
    [HOLD] = {"hold_n", "N", "force along the pole at which it slides", LW_NUMBER},
    [TURN] = {"turn_nm", "N m", "twist at which it turns", LW_NUMBER},
    [LEG] = {"leg_n", "N", "ubolt: pull in each leg", LW_NUMBER},
    [MARGIN] = {"margin", "", "strength over both together; below 2 is refused (common practice)", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double d = in[DIAMETER].number / 1000.0;
    const bool band = in[KIND].number == 0.0;
    const lw_clamp clamp = band ? lw_clamp_band(in[BAND].number, in[FRICTION].number, d)
                                : lw_clamp_ubolt(in[BOLT].number, in[TIGHTEN].number, in[FRICTION].number, d);
    const double use = hypot(in[TWIST].number / clamp.turn_nm, in[SLIDE].number / clamp.slide_n);
    if (2.0 * use > 1.0)
        return lw_fail(
            err, LW_REFUSED, "margin",
            "This clamp slips: it turns at %.3g N m and slides at %.3g N, and twice the load must hold. Put a "
            "bolt through the pole, or more clamps; a licensed engineer decides.",
            clamp.turn_nm, clamp.slide_n);
    out[HOLD] = lw_value_number(clamp.slide_n);
    out[TURN] = lw_value_number(clamp.turn_nm);
    if (!band)
        out[LEG] = lw_value_number(clamp.slide_n / (4.0 * in[FRICTION].number));
    if (use > 0.0)
        out[MARGIN] = lw_value_number(1.0 / use);
    return true;
}

const lw_figure lw_fig_clamp_slip = {
    .name = "clamp_slip",
    .room = "mast",
    .summary = "Whether a hose clamp, strap or U-bolt holds by friction.",
    .source = "statics: thin band p = T/(w r); bolt force = torque/(0.2 d) (nut factor of machine design handbooks, "
              "from memory); friction",
    .limits = "A new, dry clamp; plastic creeps and a band loosens: tighten again after a month",
    .caution = "Friction alone holds nothing overhead: a bolt through, or a stop below the clamp. A licensed engineer "
               "decides.",
    .example = "kind=band diameter_mm=60.3 twist_nm=12 slide_n=80",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
