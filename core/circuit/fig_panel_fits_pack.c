/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure panel_fits_pack: will this panel charge this pack over the year.
 */
#include "lanewick/figure.h"

enum { VOC, VMP, COEFFICIENT, HOT, COLD, PACK, KIND, LIMIT, DIODE };
static const lw_input inputs[] = {
    [VOC] = {"voc_v", "V", "open voltage on the label", LW_NUMBER, 0.4, 100, NULL, NULL, 0, 0},
    [VMP] = {"vmp_v", "V", "maximum-power voltage on the label", LW_NUMBER, 0.3, 90, NULL, NULL, 0, 0},
    [COEFFICIENT] = {"voc_pct_k", "%/K", "change of the open voltage", LW_NUMBER, -0.6, 0, NULL, "-0.30", 0, 0},
    [HOT] = {"cell_hot_c", "degC", "panel cells on a hot noon", LW_NUMBER, 25, 90, NULL, "65", 0, 0},
    [COLD] = {"cell_cold_c", "degC", "panel cells at sunrise on the coldest morning", LW_NUMBER, -40, 30, NULL, "0", 0,
              0},
    [PACK] = {"pack_full_v", "V", "pack at the end of charging", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [KIND] = {"charger", "", "linear needs 0.3 V more than the pack, a buck 1 V, a boost nothing", LW_CHOICE, 0, 0,
              "linear|buck|boost", "linear", 0, 0},
    [LIMIT] = {"input_limit_v", "V", "greatest input voltage of the charger", LW_NUMBER, 3, 150, NULL, NULL, 0, 0},
    [DIODE] = {"blocking_v", "V", "lost in a blocking diode", LW_NUMBER, 0, 1, NULL, "0.35", 0, 0},
};

enum { VMP_HOT, NEED, ROOM, CHARGES, VOC_COLD };
static const lw_output outputs[] = {
    [VMP_HOT] = {"vmp_hot_v", "V", "best working voltage on the hot noon, behind the diode", LW_NUMBER},
    [NEED] = {"needs_v", "V", "what pack and charger need", LW_NUMBER},
    [ROOM] = {"headroom_v", "V", "what is left", LW_NUMBER},
    [CHARGES] = {"charges_hot", "", "it charges the full pack on a hot noon", LW_FLAG},
    [VOC_COLD] = {"voc_cold_v", "V", "open voltage on the coldest morning", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[VMP].number >= in[VOC].number)
        return lw_fail(err, LW_WRONG_INPUT, "vmp_v", "vmp_v is %g V; it must lie below voc_v, %g V.", in[VMP].number,
                       in[VOC].number);
    const double slope_v_k = in[VOC].number * in[COEFFICIENT].number / 100.0;
    const double cold = in[VOC].number + slope_v_k * (in[COLD].number - 25.0);
    /* The working point loses about the same volts per kelvin as the open voltage. */
    const double hot = in[VMP].number + slope_v_k * (in[HOT].number - 25.0) - in[DIODE].number;
    static const double extra_v[] = {0.3, 1.0, 0.0};
    if (cold > in[LIMIT].number)
        return lw_fail(err, LW_REFUSED, "voc_v",
                       "On the coldest morning the open panel reaches %.4g V; the charger's input ends at %g V and "
                       "would be destroyed. Take a panel with fewer cells or another charger.",
                       cold, in[LIMIT].number);
    const bool boost = in[KIND].number == 2.0;
    const double need = boost ? 0.0 : in[PACK].number + extra_v[(int)in[KIND].number];
    out[VMP_HOT] = lw_value_number(hot);
    out[NEED] = lw_value_number(need);
    out[ROOM] = lw_value_number(hot - need);
    out[CHARGES] = lw_value_flag(hot >= need);
    out[VOC_COLD] = lw_value_number(cold);
    return true;
}

const lw_figure lw_fig_panel_fits_pack = {
    .name = "panel_fits_pack",
    .room = "circuit",
    .summary = "Panel voltage against pack voltage: hot noon and coldest morning.",
    .source = "temperature coefficient of the open voltage from the panel's label; silicon -0.30 %/K (common "
              "practice)",
    .limits = "A boost charger works with a lower panel; a linear one below the needed voltage still trickles",
    .caution = "Refused when the cold open voltage passes the charger's input limit.",
    .example = "voc_v=21.6 vmp_v=17.5 pack_full_v=12.6 input_limit_v=28 charger=buck",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
