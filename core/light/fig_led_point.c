/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_point: voltage, light and temperature of LEDs on a board at a current.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"

enum { CURRENT, COUNT, AIR, BOARD, RATED, VF, LUMENS, SLOPE, VF_PER_K, DROOP, FLUX_PER_K, JUNCTION, MAXIMUM };
static const lw_input inputs[] = {
    [CURRENT] = {"current_a", "A", "current through each LED; left out: half of rated_a", LW_NUMBER, 1e-4, 10, NULL, "",
                 0, 0},
    [COUNT] = {"count", "", "LEDs that share the board", LW_INTEGER, 1, 10000, NULL, "1", 0, 0},
    [AIR] = {"air_c", "degC", "air around the board, inside the head", LW_NUMBER, -40, 80, NULL, "30", 0, 0},
    [BOARD] = {"board_to_air_k_w", "K/W", "board to air: about 1000/(10 x cm2 of metal that faces air)", LW_NUMBER, 0,
               1000, NULL, "20", 0, 0},
    [RATED] = {"rated_a", "A", "current of the data sheet", LW_NUMBER, 1e-3, 10, NULL, "0.15", 0, 0},
    [VF] = {"rated_vf_v", "V", "forward voltage there, junction at 25 degC", LW_NUMBER, 1, 60, NULL, "3.2", 0, 0},
    [LUMENS] = {"rated_lm", "lm", "light there", LW_NUMBER, 0.01, 1e5, NULL, "68", 0, 0},
    [SLOPE] = {"slope_ohm", "ohm", "rise of the voltage with the current", LW_NUMBER, 0, 1000, NULL, "1.6", 0, 0},
    [VF_PER_K] = {"vf_per_k_v", "V/K", "change of the voltage with the junction temperature", LW_NUMBER, -0.1, 0, NULL,
                  "-0.0025", 0, 0},
    [DROOP] = {"droop_power", "", "efficacy falls with (current/rated)^-droop", LW_NUMBER, 0, 1, NULL, "0.12", 0, 0},
    [FLUX_PER_K] = {"flux_per_k", "1/K", "share of light lost per kelvin", LW_NUMBER, 0, 0.02, NULL, "0.002", 0, 0},
    [JUNCTION] = {"junction_to_board_k_w", "K/W", "junction to solder point", LW_NUMBER, 0, 500, NULL, "15", 0, 0},
    [MAXIMUM] = {"max_junction_c", "degC", "highest junction temperature of the data sheet", LW_NUMBER, 50, 200, NULL,
                 "115", 0, 0},
};

enum { OUT_VF, OUT_POWER, OUT_HEAT, OUT_LM, OUT_LM_W, OUT_JUNCTION, OUT_BOARD, OUT_HOT };
static const lw_output outputs[] = {
    [OUT_VF] = {"vf_v", "V", "forward voltage of one LED", LW_NUMBER},
    [OUT_POWER] = {"power_w", "W", "electrical power of one LED", LW_NUMBER},
    [OUT_HEAT] = {"heat_w", "W", "of which heat", LW_NUMBER},
    [OUT_LM] = {"lumens", "lm", "light of one LED", LW_NUMBER},
    [OUT_LM_W] = {"lumens_per_w", "lm/W", "efficacy", LW_NUMBER},
    [OUT_JUNCTION] = {"junction_c", "degC", "junction temperature; below 85 for a long life", LW_NUMBER},
    [OUT_BOARD] = {"board_c", "degC", "board temperature; a PET bottle softens from 70", LW_NUMBER},
    [OUT_HOT] = {"too_hot", "", "the junction passes its limit", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_led led = {in[RATED].number,      in[VF].number,       in[LUMENS].number,
                        in[SLOPE].number,      in[VF_PER_K].number, in[DROOP].number,
                        in[FLUX_PER_K].number, in[JUNCTION].number, in[MAXIMUM].number};
    const double current_a = in[CURRENT].given ? in[CURRENT].number : 0.5 * led.rated_a;
    lw_led_point p;
    if (!lw_led_solve(&led, current_a, (size_t)in[COUNT].number, in[BOARD].number, in[AIR].number, &p, err))
        return false;
    out[OUT_VF] = lw_value_number(p.vf_v);
    out[OUT_POWER] = lw_value_number(p.power_w);
    out[OUT_HEAT] = lw_value_number(p.heat_w);
    out[OUT_LM] = lw_value_number(p.lumens);
    out[OUT_LM_W] = lw_value_number(p.lumens_per_w);
    out[OUT_JUNCTION] = lw_value_number(p.junction_c);
    out[OUT_BOARD] = lw_value_number(p.board_c);
    out[OUT_HOT] = lw_value_flag(p.too_hot);
    return true;
}

const lw_figure lw_fig_led_point = {
    .name = "led_point",
    .room = "light",
    .summary = "Voltage, light and temperature of the LEDs of a board at a current, solved together.",
    .source = "series heat path Tj = Tair + P_heat (R_jb + n R_ba); 320 lm per radiated watt, droop and heat loss from "
              "memory (data-sheet ranges in docs/models/led.md)",
    .limits = "Near and below the rated current; parts without papers give 60 to 80 % of the print (common practice).",
    .caution =
        "Do not look into bare LEDs while testing: use low current or paper in front. Keep 2 cm between a hot board "
        "and a bottle.",
    .example = "current_a=0.075 count=12 board_to_air_k_w=10",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
