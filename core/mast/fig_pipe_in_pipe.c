/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure pipe_in_pipe: a sleeve over a core, which share the bending by their stiffness.
 */
#include "lanewick/figure.h"
#include "lanewick/mast.h"

#include <math.h>

enum { MOMENT, OUTER_D, OUTER_T, OUTER, INNER_D, INNER_T, INNER, WALL_C, LAP, SHEAR };
static const lw_input inputs[] = {
    [MOMENT] = {"moment_nm", "N m", "bending moment where both stand side by side, without load factor", LW_NUMBER, 1,
                1e5, NULL, NULL, 0, 0},
    [OUTER_D] = {"outer_diameter_mm", "mm", "sleeve", LW_NUMBER, 20, 400, NULL, NULL, 0, 0},
    [OUTER_T] = {"outer_wall_mm", "mm", "its wall", LW_NUMBER, 0.5, 100, NULL, NULL, 0, 0},
    [OUTER] = {"outer_material", "", "its material", LW_CHOICE, 0, 0, LW_MAST_MATERIAL_WORDS, NULL, 0, 0},
    [INNER_D] = {"inner_diameter_mm", "mm", "core", LW_NUMBER, 10, 390, NULL, NULL, 0, 0},
    [INNER_T] = {"inner_wall_mm", "mm", "its wall; half the diameter means solid", LW_NUMBER, 0.5, 200, NULL, NULL, 0,
                 0},
    [INNER] = {"inner_material", "", "its material", LW_CHOICE, 0, 0, LW_MAST_MATERIAL_WORDS, NULL, 0, 0},
    [WALL_C] = {"wall_temp_c", "degC", "hottest wall in a storm", LW_NUMBER, -40, 80, NULL, "40", 0, 0},
    [LAP] = {"lap_m", "m", "length over which they touch, for the pressure at its ends", LW_NUMBER, 0.05, 12, NULL, "",
             0, 0},
    [SHEAR] = {"shear_n", "N", "sideways force there", LW_NUMBER, 0, 20000, NULL, "0", 0, 0},
};

enum { OUTER_RESERVE, INNER_RESERVE, RESERVE, OUTER_SHARE, CONTACT };
static const lw_output outputs[] = {
    [OUTER_RESERVE] = {"outer_reserve", "", "allowed over factored stress of the sleeve", LW_NUMBER},
    [INNER_RESERVE] = {"inner_reserve", "", "the same of the core", LW_NUMBER},
    [RESERVE] = {"reserve", "", "the lower of the two; below 1 is refused", LW_NUMBER},
    [OUTER_SHARE] = {"outer_share", "", "part of the moment that the sleeve takes", LW_NUMBER},
    [CONTACT] = {"contact_n", "N", "force between them at each end of the lap", LW_NUMBER},
};

typedef struct part {
    lw_tube tube;
    lw_tube_section section;
    lw_mast_strength strength;
} part;

static bool fill(part *p, const lw_value *in, int diameter, int wall, int material, lw_error *err)
{
    p->tube = (lw_tube){in[diameter].number, in[wall].number};
    const lw_mast_conditions conditions = {in[WALL_C].number, 0.0, p->tube.wall_mm};
    const char *wall_name = inputs[wall].name;
    if (p->tube.wall_mm > 0.5 * p->tube.diameter_mm)
        return lw_fail(err, LW_WRONG_INPUT, wall_name,
                       "%s is %g; it cannot pass the radius of %g mm (equal means a solid pole).", wall_name,
                       p->tube.wall_mm, 0.5 * p->tube.diameter_mm);
    if (!lw_tube_section_of(&p->tube, &p->section, err) ||
        !lw_mast_material_at((size_t)in[material].number)->strength(&conditions, &p->strength, err))
        return false;
    const double slender = p->tube.diameter_mm / p->tube.wall_mm;
    return slender <= p->strength.thickness_limit ||
           lw_fail(err, LW_REFUSED, wall_name,
                   "A wall of %g mm on %g mm would buckle before it bends: diameter over wall is %.3g, at most %g in "
                   "this material. Take a thicker wall.",
                   p->tube.wall_mm, p->tube.diameter_mm, slender, p->strength.thickness_limit);
}

static double reserve(const part *p, double moment_nm)
{
    return p->strength.allowed_mpa * p->section.modulus_mm3 / (1e3 * moment_nm * p->strength.load_factor);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    part outer = {0}, inner = {0};
    if (!fill(&outer, in, OUTER_D, OUTER_T, OUTER, err) || !fill(&inner, in, INNER_D, INNER_T, INNER, err))
        return false;
    const double bore = outer.tube.diameter_mm - 2.0 * outer.tube.wall_mm;
    if (inner.tube.diameter_mm > bore)
        return lw_fail(err, LW_WRONG_INPUT, "inner_diameter_mm", "inner_diameter_mm is %g; the sleeve's bore is %g mm.",
                       inner.tube.diameter_mm, bore);
    const double stiff_outer = outer.strength.stiffness_mpa * outer.section.inertia_mm4;
    const double share = stiff_outer / (stiff_outer + inner.strength.stiffness_mpa * inner.section.inertia_mm4);
    const double moment = in[MOMENT].number;
    const double a = reserve(&outer, moment * share), b = reserve(&inner, moment * (1.0 - share));
    if (fmin(a, b) < 1.0)
        return lw_fail(err, LW_REFUSED, "reserve",
                       "The %s does not stand: reserve %.3g (sleeve %.3g, core %.3g, which takes %.3g %% of the "
                       "moment). A licensed engineer decides.",
                       a < b ? "sleeve" : "core", fmin(a, b), a, b, 100.0 * (1.0 - share));
    out[OUTER_RESERVE] = lw_value_number(a);
    out[INNER_RESERVE] = lw_value_number(b);
    out[RESERVE] = lw_value_number(fmin(a, b));
    out[OUTER_SHARE] = lw_value_number(share);
    if (in[LAP].given)
        out[CONTACT] = lw_value_number(moment / in[LAP].number + in[SHEAR].number);
    return true;
}

const lw_figure lw_fig_pipe_in_pipe = {
    .name = "pipe_in_pipe",
    .room = "mast",
    .summary = "A sleeve over a core: how they share the bending, and whether both stand.",
    .source = "two beams of one curvature share the moment by E I; contact force M over the lap plus the shear",
    .limits = "Packed or wedged so that they touch along the lap; where the gap is loose the core takes all until they "
              "touch",
    .caution = "A licensed engineer decides. Wedges work loose: bolt the joint through both, or grout it.",
    .example = "moment_nm=1480 outer_diameter_mm=110 outer_wall_mm=5.3 outer_material=pvc inner_diameter_mm=76.1 "
               "inner_wall_mm=3.6 inner_material=steel lap_m=1",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
