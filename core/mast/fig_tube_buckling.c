/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure tube_buckling: whether a thin wall buckles before it bends.
 */
#include "lanewick/figure.h"
#include "lanewick/mast_parts.h"

enum { DIAMETER, WALL, STRENGTH, STIFFNESS, STRESS, QUALITY };
static const lw_input inputs[] = {
    [DIAMETER] = {"diameter_mm", "mm", "outer diameter", LW_NUMBER, 15, 2000, NULL, NULL, 0, 0},
    [WALL] = {"wall_mm", "mm", "wall", LW_NUMBER, 0.2, 50, NULL, NULL, 0, 0},
    [STRENGTH] = {"strength_mpa", "MPa", "yield or allowed strength of the material", LW_NUMBER, 1, 1000, NULL, "235",
                  0, 0},
    [STIFFNESS] = {"stiffness_mpa", "MPa", "its modulus of elasticity", LW_NUMBER, 500, 220000, NULL, "210000", 0, 0},
    [STRESS] = {"stress_mpa", "MPa", "compression with load factor", LW_NUMBER, 0, 1000, NULL, "0", 0, 0},
    [QUALITY] = {"quality", "", "Q of the shape: 40 excellent, 25 high, 16 normal, less when dented", LW_NUMBER, 5, 40,
                 NULL, "16", 0, 0},
};

enum { CRITICAL, DENTS, SLENDER, REDUCTION, DESIGN, RESERVE };
static const lw_output outputs[] = {
    [CRITICAL] = {"critical_mpa", "MPa", "of a perfect cylinder: 0.605 E t/r", LW_NUMBER},
    [DENTS] = {"imperfection", "", "what dents leave of it", LW_NUMBER},
    [SLENDER] = {"slenderness", "", "root of strength over critical stress", LW_NUMBER},
    [REDUCTION] = {"reduction", "", "what is left of the strength", LW_NUMBER},
    [DESIGN] = {"design_mpa", "MPa", "design strength, over 1.1", LW_NUMBER},
    [RESERVE] = {"reserve", "", "that over the stress; below 1 is refused", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_tube tube = {in[DIAMETER].number, in[WALL].number};
    lw_tube_section section;
    if (!lw_tube_section_of(&tube, &section, err))
        return false;
    const lw_wall_buckling b = lw_wall_buckle(&tube, in[STRENGTH].number, in[STIFFNESS].number, in[QUALITY].number);
    if (in[STRESS].number > b.design_mpa)
        return lw_fail(
            err, LW_REFUSED, "reserve",
            "This wall buckles: %.4g MPa against %.4g MPa. Take a thicker wall; a licensed engineer decides.",
            in[STRESS].number, b.design_mpa);
    out[CRITICAL] = lw_value_number(b.critical_mpa);
    out[DENTS] = lw_value_number(b.imperfection);
    out[SLENDER] = lw_value_number(b.slenderness);
    out[REDUCTION] = lw_value_number(b.reduction);
    out[DESIGN] = lw_value_number(b.design_mpa);
    if (in[STRESS].number > 0.0)
        out[RESERVE] = lw_value_number(b.design_mpa / in[STRESS].number);
    return true;
}

const lw_figure lw_fig_tube_buckling = {
    .name = "tube_buckling",
    .room = "mast",
    .summary = "Local buckling of a thin tube.",
    .source = "EN 1993-1-6 Annex D.1.2 with C_x 1, lambda_0 0.20, beta 0.60, eta 1.0 (from memory); critical stress of "
              "the classical theory of shells",
    .limits = "Round tube, no hole or dent near; bending counted as even compression, on the safe side",
    .caution = "A dent or a hole makes it worse than this. A licensed engineer decides.",
    .example = "diameter_mm=200 wall_mm=1 stress_mpa=80",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
