/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure light_colour: which white to choose for a lane.
 */
#include "lanewick/figure.h"
#include "lanewick/light_colour.h"

enum { K, HOODED, HOUSES, WATER };
static const lw_input inputs[] = {
    [K] = {"colour_k", "K", "correlated colour temperature of the LEDs", LW_NUMBER, 1800, 10000, NULL, "3000", 0, 0},
    [HOODED] = {"hooded", "", "no light goes upward", LW_FLAG, 0, 0, NULL, "no", 0, 0},
    [HOUSES] = {"near_houses", "", "doors, windows or sleeping places within 20 m", LW_FLAG, 0, 0, NULL, "yes", 0, 0},
    [WATER] = {"near_water", "", "a lake, river or wetland within 200 m", LW_FLAG, 0, 0, NULL, "no", 0, 0},
};

enum { BLUE, RATIO, RG0, GRADE, INSECTS, GLARE, ADVICE };
static const lw_output outputs[] = {
    [BLUE] = {"blue_w_per_lm", "W/lm", "blue light hazard weighted power, one lumen", LW_NUMBER},
    [RATIO] = {"blue_over_warm", "", "over that of a 2700 K white", LW_NUMBER},
    [RG0] = {"exempt_below_cd_m2", "cd/m2", "luminance below which the eye needs no care (RG0)", LW_NUMBER},
    [GRADE] = {"grade", "", "warm, neutral or cool", LW_TEXT},
    [INSECTS] = {"insects", "", "what is known about insects", LW_TEXT},
    [GLARE] = {"glare", "", "for eyes", LW_TEXT},
    [ADVICE] = {"advice", "", "what to do", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const lw_light_colour c =
        lw_light_colour_of(in[K].number, in[HOODED].number != 0.0, in[HOUSES].number != 0.0, in[WATER].number != 0.0);
    out[BLUE] = lw_value_number(c.blue_w_per_lm);
    out[RATIO] = lw_value_number(c.blue_over_warm);
    out[RG0] = lw_value_number(c.exempt_cd_m2);
    out[GRADE] = lw_value_text(c.grade);
    out[INSECTS] = lw_value_text(c.insects);
    out[GLARE] = lw_value_text(c.glare);
    out[ADVICE] = lw_value_text(c.advice);
    return true;
}

const lw_figure lw_fig_light_colour = {
    .name = "light_colour",
    .room = "light",
    .summary = "Which white to choose for a lane: insects, glare, people, and the eye's safety.",
    .source = "Wakefield et al. 2016, doi 10.1002/ece3.2527; Hao et al. 2023, doi 10.3389/fevo.2023.1206404; Longcore "
              "et al. 2015, doi 10.1098/rstb.2014.0125 (in part from memory); blue content IEC TR 62778 (from memory); "
              "RG0 100 W/(m2 sr), IEC 62471",
    .limits = "Field studies of whites do not agree; what a white LED draws depends on place and season.",
    .caution = "Do not stare into bare LEDs: test at low current or behind paper.",
    .example = "colour_k=4000 near_houses=yes",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
