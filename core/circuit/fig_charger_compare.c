/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure charger_compare: linear or switching charger.
 */
#include "lanewick/figure.h"

enum { PANEL, PACK, POWER, SWITCHING, DROPOUT };
static const lw_input inputs[] = {
    [PANEL] = {"panel_v", "V", "maximum-power voltage of the panel, hot", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [PACK] = {"pack_v", "V", "voltage of the pack while it charges", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [POWER] = {"panel_w", "W", "maximum power of the panel, hot", LW_NUMBER, 0.1, 1000, NULL, "20", 0, 0},
    [SWITCHING] = {"switching_efficiency", "", "of the switching charger with tracking", LW_NUMBER, 0.5, 0.99, NULL,
                   "0.92", 0, 0},
    [DROPOUT] = {"dropout_v", "V", "the linear charger needs that much more than the pack", LW_NUMBER, 0, 3, NULL,
                 "0.3", 0, 0},
};

enum { LINEAR, GAIN, LINEAR_W, SWITCHING_W, ADVICE };
static const lw_output outputs[] = {
    [LINEAR] = {"linear_efficiency", "", "pack voltage over panel voltage", LW_NUMBER},
    [GAIN] = {"gain", "", "energy of the switching over that of the linear charger", LW_NUMBER},
    [LINEAR_W] = {"linear_w", "W", "into the pack, linear", LW_NUMBER},
    [SWITCHING_W] = {"switching_w", "W", "into the pack, switching", LW_NUMBER},
    [ADVICE] = {"advice", "", "which to take", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double panel = in[PANEL].number, pack = in[PACK].number, watt = in[POWER].number;
    const double switching = in[SWITCHING].number;
    if (panel < pack + in[DROPOUT].number)
        return lw_fail(err, LW_NOT_COMPUTABLE, "panel_v",
                       "On a hot noon the panel gives %g V at its best, the pack and the charger need %g V: it will "
                       "hardly charge. Take a panel with more cells, or a pack with fewer groups.",
                       panel, pack + in[DROPOUT].number);
    const double linear = pack / panel, gain = switching / linear;
    out[LINEAR] = lw_value_number(linear);
    out[GAIN] = lw_value_number(gain);
    out[LINEAR_W] = lw_value_number(linear * watt);
    out[SWITCHING_W] = lw_value_number(switching * watt);
    const bool worth = (gain - 1.0) * linear * watt > 1.0;
    out[ADVICE] = lw_value_text(gain < 1.0 ? "linear: the panel's voltage fits the pack"
                                : worth    ? "switching: it brings over 1 W more"
                                           : "linear: simpler, and the switching one brings less than 1 W more");
    return true;
}

const lw_figure lw_fig_charger_compare = {
    .name = "charger_compare",
    .room = "circuit",
    .summary = "Linear charging against switching: efficiency and power into the pack.",
    .source = "closed form: a linear charger passes the panel's current, a switching one its power",
    .limits = "At the panel's best point; a linear charger sits a little beside it, within about 5 %",
    .example = "panel_v=17.5 pack_v=11.1 panel_w=20",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
