/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure tube_section: section values of a pipe.
 */
#include "lanewick/figure.h"
#include "lanewick/mast.h"

enum { DIAMETER, WALL };
static const lw_input inputs[] = {
    [DIAMETER] = {"diameter_mm", "mm", "outer diameter", LW_NUMBER, 5, 1000, NULL, NULL, 0, 0},
    [WALL] = {"wall_mm", "mm", "wall; half the diameter means solid", LW_NUMBER, 0.2, 500, NULL, NULL, 0, 0},
};

enum { AREA, INERTIA, MODULUS, PLASTIC, SLENDER };
static const lw_output outputs[] = {
    [AREA] = {"area_mm2", "mm2", "cross section", LW_NUMBER},
    [INERTIA] = {"inertia_mm4", "mm4", "second moment of area", LW_NUMBER},
    [MODULUS] = {"modulus_mm3", "mm3", "elastic section modulus", LW_NUMBER},
    [PLASTIC] = {"plastic_mm3", "mm3", "plastic section modulus", LW_NUMBER},
    [SLENDER] = {"diameter_over_wall", "", "thin walls buckle: steel at most 90", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_tube tube = {in[DIAMETER].number, in[WALL].number};
    lw_tube_section section = {0};
    if (!lw_tube_section_of(&tube, &section, err))
        return false;
    out[AREA] = lw_value_number(section.area_mm2);
    out[INERTIA] = lw_value_number(section.inertia_mm4);
    out[MODULUS] = lw_value_number(section.modulus_mm3);
    out[PLASTIC] = lw_value_number(section.plastic_mm3);
    out[SLENDER] = lw_value_number(tube.diameter_mm / tube.wall_mm);
    return true;
}

const lw_figure lw_fig_tube_section = {
    .name = "tube_section",
    .room = "mast",
    .summary = "Area, stiffness and strength values of a round tube or pole.",
    .source = "closed forms; EN 10219-2 prints the same for its sizes (from memory)",
    .example = "diameter_mm=76.1 wall_mm=3.2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
