/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure mast_bending: does a pipe carry this wind? Refused when it does not.
 */
#include "lanewick/figure.h"
#include "lanewick/mast.h"
#include "lanewick/units.h"

#include <math.h>
#include <stdio.h>

enum { DIAMETER, WALL, HEIGHT, MATERIAL, FORCE, AT, PRESSURE, COEFFICIENT, HEAD_KG, HEAD_ARM, WALL_C, AGE };
static const lw_input inputs[] = {
    [DIAMETER] = {"diameter_mm", "mm", "outer diameter at the ground", LW_NUMBER, 15, 400, NULL, NULL, 0, 0},
    [WALL] = {"wall_mm", "mm", "wall, measured with a caliper; half the diameter means solid", LW_NUMBER, 0.5, 200,
              NULL, NULL, 0, 0},
    [HEIGHT] = {"height_m", "m", "length of the mast above ground", LW_NUMBER, 0.5, 12, NULL, NULL, 0, 0},
    [MATERIAL] = {"material", "", "steel: marked S235; steel_unmarked: water pipe; timber: C16", LW_CHOICE, 0, 0,
                  LW_MAST_MATERIAL_WORDS, NULL, 0, 0},
    [FORCE] = {"head_force_n", "N", "wind on panel, box and head together, without load factor", LW_NUMBER, 0, 20000,
               NULL, NULL, 0, 0},
    [AT] = {"head_height_m", "m", "height where that force acts", LW_NUMBER, 0.1, 14, NULL, NULL, 0, 0},
    [PRESSURE] = {"pipe_pressure_pa", "Pa", "peak wind pressure on the pipe", LW_NUMBER, 0, 10000, NULL, NULL, 0, 0},
    [COEFFICIENT] = {"force_coefficient", "", "of the pipe; 1.2 for every thin round mast", LW_NUMBER, 0.4, 2.5, NULL,
                     "1.2", 0, 0},
    [HEAD_KG] = {"head_kg", "kg", "weight on the top, which pulls where the mast leans and can buckle it", LW_NUMBER, 0,
                 200, NULL, "0", 0, 0},
    [HEAD_ARM] = {"head_arm_m", "m", "how far that weight's centre lies beside the pipe", LW_NUMBER, 0, 3, NULL, "0.05",
                  0, 0},
    [WALL_C] = {"wall_temp_c", "degC", "hottest pipe wall in a storm; grey in the sun 15 to 25 K above the air",
                LW_NUMBER, -40, 80, NULL, "40", 0, 0},
    [AGE] = {"age_years", "year", "years of rust, rot or sun without care to count", LW_NUMBER, 0, 50, NULL, "0", 0, 0},
};

enum { MOMENT, STRESS, ALLOWED, SWAY, RESERVE, SHEAR, FACTORED, BUCKLES, ALPHA, CRITICAL, GROWS, NOTE };
static const lw_output outputs[] = {
    [MOMENT] = {"moment_nm", "N m", "bending moment at the ground, without load factor", LW_NUMBER},
    [STRESS] = {"stress_mpa", "MPa", "bending stress at the ground, without load factor", LW_NUMBER},
    [ALLOWED] = {"allowed_mpa", "MPa", "strength over its safety factor", LW_NUMBER},
    [SWAY] = {"sway_mm", "mm", "how far the top moves in that gust", LW_NUMBER},
    [RESERVE] = {"reserve", "", "allowed over factored stress; under 1 is refused", LW_NUMBER},
    [SHEAR] = {"shear_n", "N", "force at the ground", LW_NUMBER},
    [FACTORED] = {"factored_stress_mpa", "MPa",
                  "stress times load factor (1.5; bamboo 1.0), and 1.35 times what the weights press", LW_NUMBER},
    [BUCKLES] = {"buckling_reserve", "", "alpha_cr over 3; under 1 is refused", LW_NUMBER},
    [ALPHA] = {"alpha_cr", "", "weight that buckles the column over 1.35 times the weight there is", LW_NUMBER},
    [CRITICAL] = {"critical_kg", "kg", "weight on the top that buckles the column, no factor in it", LW_NUMBER},
    [GROWS] = {"amplification", "", "how much the weights let the wind's moment grow", LW_NUMBER},
    [NOTE] = {"note", "", "the caution of this material", LW_TEXT},
};

static bool refuse(const lw_mast_bending *b, const lw_mast_load *load, double diameter_mm, lw_error *err)
{
    char better[80] = "no common steel tube stands under this load";
    lw_tube tube;
    if (lw_mast_steel_that_stands(load, diameter_mm, &tube))
        (void)snprintf(better, sizeof better, "a steel tube %g x %g mm would stand", tube.diameter_mm, tube.wall_mm);
    if (b->buckles < 1.0)
        return lw_fail(
            err, LW_REFUSED, "head_kg",
            "This mast does not stand: it buckles under %.0f kg on its top, the pipe's own weight besides, and %.0f kg "
            "are "
            "there; about a quarter is allowed (alpha_cr %.3g, at least 3); %s. Less weight or height helps most. A "
            "licensed engineer decides.",
            b->column.critical_kg, b->column.on_top_kg, b->column.alpha_cr, better);
    if (b->bends < 1.0)
        return lw_fail(err, LW_REFUSED, "reserve",
                       "This mast does not stand: factored stress %.4g MPa against %.4g MPa allowed, reserve %.3g. It "
                       "needs a section modulus of %.4g mm3; %s. Less panel area or height helps most. A licensed "
                       "engineer decides.",
                       b->factored_mpa, b->allowed_mpa, fmin(b->bends, 0.999), b->least_modulus_mm3, better);
    return lw_fail(err, LW_REFUSED, "sway_mm",
                   "This mast sways %.4g mm at the top, over a tenth of its height; %s. A licensed engineer decides.",
                   b->sway_mm, better);
}

/* The weight hangs on the top, or on the stiff arm above it that the wind takes hold of. */
static void hang(const lw_value *in, lw_mast_load *load)
{
    const double kg = in[HEAD_KG].number, up_m = fmax(load->height_m, load->head_height_m);
    load->weight_kg = kg;
    load->column_kg = kg * lw_column_share(up_m, load->height_m);
    load->standing_nm = lw_gravity_m_s2 * kg * in[HEAD_ARM].number;
    load->lean_nm = lw_mast_lean * lw_gravity_m_s2 * kg * up_m;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_tube tube = {in[DIAMETER].number, in[WALL].number};
    const lw_mast_conditions conditions = {in[WALL_C].number, in[AGE].number, tube.wall_mm};
    lw_mast_load load = {
        .height_m = in[HEIGHT].number,
        .head_force_n = in[FORCE].number,
        .head_height_m = in[AT].number,
        .line_n_m = in[PRESSURE].number * in[COEFFICIENT].number * tube.diameter_mm / 1000.0,
        .head_kg = in[HEAD_KG].number,
    };
    hang(in, &load);
    if (load.head_height_m > load.height_m + 2.0)
        return lw_fail(err, LW_WRONG_INPUT, "head_height_m",
                       "head_height_m is %g m; the force cannot act more than 2 m above the mast of %g m.",
                       load.head_height_m, load.height_m);
    const lw_mast_material *material = lw_mast_material_at((size_t)in[MATERIAL].number);
    lw_tube_section section;
    lw_mast_strength strength = {0};
    lw_mast_bending bending = {0};
    if (!lw_tube_section_of(&tube, &section, err) || !material->strength(&conditions, &strength, err) ||
        !lw_mast_bend(&tube, &strength, &load, &bending, err))
        return false;
    if (bending.reserve < 1.0 || bending.sway_mm > 100.0 * load.height_m)
        return refuse(&bending, &load, tube.diameter_mm, err);
    out[MOMENT] = lw_value_number(bending.moment_nm);
    out[STRESS] = lw_value_number(bending.stress_mpa);
    out[ALLOWED] = lw_value_number(bending.allowed_mpa);
    out[SWAY] = lw_value_number(bending.sway_mm);
    out[RESERVE] = lw_value_number(bending.bends);
    out[SHEAR] = lw_value_number(bending.shear_n);
    out[FACTORED] = lw_value_number(bending.factored_mpa);
    out[BUCKLES] = lw_value_number(bending.buckles);
    out[ALPHA] = lw_value_number(bending.column.alpha_cr);
    out[CRITICAL] = lw_value_number(bending.column.critical_kg);
    out[GROWS] = lw_value_number(bending.column.gust_grows);
    out[NOTE] = lw_value_text(material->caution);
    return true;
}

const lw_figure lw_fig_mast_bending = {
    .name = "mast_bending",
    .room = "mast",
    .summary = "Stress, sway and reserve of a pipe mast in the wind; refused when it does not stand.",
    .source =
        "cantilever formulas; load factor 1.5 (EN 1990, from memory); strengths of EN 1993-1-1, EN 1999-1-1, "
        "EN 338, ISO 22156, makers' data for PVC-U; sway limit a tenth of the height (EN 40-3-3 class 3); column: "
        "Euler, lean 1/200 and growth 1/(1 - 1/alpha_cr) of EN 1993-1-1 5.2 and 5.3, refused below alpha_cr 3 "
        "(from memory)",
    .limits = "One straight pipe without door or hole near the ground; elastic; wind forces of EN 1991-1-4 (for ASCE 7 "
              "loads give 0.67 of them, they hold their factor already). Without head_kg the second order counts only "
              "below alpha_cr 10",
    .caution = "A licensed engineer decides: over 6 m, over 0.7 m2 of panel, near schools, markets or power lines, and "
               "wherever the local code says so.",
    .example = "diameter_mm=76.1 wall_mm=3.2 height_m=4 material=steel head_force_n=285.5 head_height_m=4.2 "
               "pipe_pressure_pa=1012.8 force_coefficient=1.2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
