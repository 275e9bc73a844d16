/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure head_heat: temperatures of a head on a still night, with its electrical point.
 */
#include "lanewick/figure.h"
#include "lanewick/head_heat.h"

enum { TYPE, CURRENT, COUNT, AIR, BOARD, FACES, EMISSIVITY, PAD, BOTTLE, SOFTENS };
static const lw_input inputs[] = {
    [TYPE] = {"type", "", "kind of LED (led_type)", LW_CHOICE, 0, 0, LW_LED_TYPE_WORDS, "2835_05w", 0, 0},
    [CURRENT] = {"current_a", "A", "through each LED; left out: half of the rated one", LW_NUMBER, 1e-4, 5, NULL, "", 0,
                 0},
    [COUNT] = {"count", "", "LEDs on the board", LW_INTEGER, 1, 1000, NULL, NULL, 0, 0},
    [AIR] = {"air_c", "degC", "night air, no wind", LW_NUMBER, -40, 60, NULL, "25", 0, 0},
    [BOARD] = {"board_cm2", "cm2", "area of the board's faces that lose heat", LW_NUMBER, 1, 10000, NULL, NULL, 0, 0},
    [FACES] = {"faces", "", "which faces these are", LW_CHOICE, 0, 0, LW_PLATE_WORDS, "both", 0, 0},
    [EMISSIVITY] = {"emissivity", "", "0.9 painted or resin, 0.1 bright metal", LW_NUMBER, 0.02, 1, NULL, "0.9", 0, 0},
    [PAD] = {"pad_to_board_k_w", "K/W",
             "solder point to board, one LED: 0 aluminium board, 60 plain FR4, 100 perforated board", LW_NUMBER, 0, 300,
             NULL, "0", 0, 0},
    [BOTTLE] = {"bottle_cm2", "cm2", "area of a closed bottle round it; 0: free air", LW_NUMBER, 0, 20000, NULL, "0", 0,
                0},
    [SOFTENS] = {"bottle_softens_c", "degC", "67 PET (67 to 81), 145 polycarbonate, 90 acrylic, 110 HDPE", LW_NUMBER,
                 40, 500, NULL, "67", 0, 0},
};

enum { JUNCTION, BOARD_C, INSIDE, BOTTLE_C, K_W, VF, POWER, HEAT, LUMENS, LM_W, HOT };
static const lw_output outputs[] = {
    [JUNCTION] = {"junction_c", "degC", "junction temperature; below 85 for a long life", LW_NUMBER},
    [BOARD_C] = {"board_c", "degC", "board", LW_NUMBER},
    [INSIDE] = {"inside_c", "degC", "air inside the bottle", LW_NUMBER},
    [BOTTLE_C] = {"bottle_c", "degC", "wall of the bottle", LW_NUMBER},
    [K_W] = {"board_to_air_k_w", "K/W", "board to night air (board_to_air_k_w of led_point)", LW_NUMBER},
    [VF] = {"vf_v", "V", "forward voltage of one LED", LW_NUMBER},
    [POWER] = {"power_w", "W", "of all LEDs", LW_NUMBER},
    [HEAT] = {"heat_w", "W", "of which heat", LW_NUMBER},
    [LUMENS] = {"lumens", "lm", "of all LEDs", LW_NUMBER},
    [LM_W] = {"lumens_per_w", "lm/W", "efficacy", LW_NUMBER},
    [HOT] = {"too_hot", "", "a junction passes its limit", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    lw_led led = lw_led_type_at((size_t)in[TYPE].number)->led;
    led.junction_to_board_k_w += in[PAD].number;
    const double current_a = in[CURRENT].given ? in[CURRENT].number : 0.5 * led.rated_a, count = in[COUNT].number;
    const lw_head_heat head = {.board_m2 = 1e-4 * in[BOARD].number,
                               .faces = (lw_plate_faces)in[FACES].number,
                               .emissivity = in[EMISSIVITY].number,
                               .bottle_m2 = 1e-4 * in[BOTTLE].number,
                               .softens_c = in[SOFTENS].number};
    lw_led_point at;
    lw_head_warm warm;
    if (!lw_head_solve(&led, current_a, (size_t)count, &head, in[AIR].number, &at, &warm, err))
        return false;
    out[JUNCTION] = lw_value_number(at.junction_c);
    out[BOARD_C] = lw_value_number(warm.board_c);
    if (head.bottle_m2 > 0.0) {
        out[INSIDE] = lw_value_number(warm.inside_c);
        out[BOTTLE_C] = lw_value_number(warm.bottle_c);
    }
    out[K_W] = lw_value_number(warm.board_to_air_k_w);
    out[VF] = lw_value_number(at.vf_v);
    out[POWER] = lw_value_number(at.power_w * count);
    out[HEAT] = lw_value_number(at.heat_w * count);
    out[LUMENS] = lw_value_number(at.lumens * count);
    out[LM_W] = lw_value_number(at.lumens_per_w);
    out[HOT] = lw_value_flag(at.too_hot);
    return true;
}

const lw_figure lw_fig_head_heat = {
    .name = "head_heat",
    .room = "light",
    .summary =
        "Temperatures, volts and light of a head on a night without wind, from junction to night air, bottle included.",
    .source = "natural convection of air, simplified equations (textbooks, from memory), grey radiation, LED data of "
              "the type; all solved together",
    .limits = "Laminar still air, surfaces each at one temperature; the sun does not shine on it.",
    .caution = "Keep 2 cm between a hot board and a bottle. No bottle or hot glue may be the only thing that holds a "
               "part overhead.",
    .example = "count=12 board_cm2=150 bottle_cm2=600",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
