/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure mast_material: strength of a pole by material, heat and age.
 */
#include "lanewick/figure.h"
#include "lanewick/mast.h"

enum { MATERIAL, WALL, WALL_C, AGE };
static const lw_input inputs[] = {
    [MATERIAL] = {"material", "", "steel: marked S235; steel_unmarked: water pipe; timber: C16", LW_CHOICE, 0, 0,
                  LW_MAST_MATERIAL_WORDS, NULL, 0, 0},
    [WALL] = {"wall_mm", "mm", "wall; rust and aluminium depend on it", LW_NUMBER, 0.5, 200, NULL, "3", 0, 0},
    [WALL_C] = {"wall_temp_c", "degC", "hottest wall in a storm; grey in the sun 15 to 25 K above the air", LW_NUMBER,
                -40, 80, NULL, "40", 0, 0},
    [AGE] = {"age_years", "year", "years of rust, rot or sun without care", LW_NUMBER, 0, 50, NULL, "0", 0, 0},
};

enum { ALLOWED, FACTOR, STANDING, STIFFNESS, DENSITY, THIN, SOURCE, NOTE };
static const lw_output outputs[] = {
    [ALLOWED] = {"allowed_mpa", "MPa", "to compare with the stress times load_factor", LW_NUMBER},
    [FACTOR] = {"load_factor", "", "1.5 for limit-state checks, 1.0 for the allowable stress of bamboo", LW_NUMBER},
    [STANDING] = {"standing_mpa", "MPa", "allowed under a load that never leaves; none: as allowed_mpa", LW_NUMBER},
    [STIFFNESS] = {"stiffness_mpa", "MPa", "modulus of elasticity for short loads", LW_NUMBER},
    [DENSITY] = {"density_kg_m3", "kg/m3", "weight", LW_NUMBER},
    [THIN] = {"most_diameter_over_wall", "", "thinner walls buckle", LW_NUMBER},
    [SOURCE] = {"from", "", "where the numbers come from", LW_TEXT},
    [NOTE] = {"note", "", "the caution of this material", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_mast_material *material = lw_mast_material_at((size_t)in[MATERIAL].number);
    const lw_mast_conditions conditions = {in[WALL_C].number, in[AGE].number, in[WALL].number};
    lw_mast_strength strength = {0};
    if (!material->strength(&conditions, &strength, err))
        return false;
    out[ALLOWED] = lw_value_number(strength.allowed_mpa);
    out[FACTOR] = lw_value_number(strength.load_factor);
    if (strength.standing_mpa > 0.0)
        out[STANDING] = lw_value_number(strength.standing_mpa);
    out[STIFFNESS] = lw_value_number(strength.stiffness_mpa);
    out[DENSITY] = lw_value_number(strength.density_kg_m3);
    out[THIN] = lw_value_number(strength.thickness_limit);
    out[SOURCE] = lw_value_text(material->source);
    out[NOTE] = lw_value_text(material->caution);
    return true;
}

const lw_figure lw_fig_mast_material = {
    .name = "mast_material",
    .room = "mast",
    .summary = "What a pole of this material bears, hot and aged.",
    .source = "as the answer says for each material; ageing is common practice on the safe side",
    .limits = "Steel, aluminium 6063-T5, PVC-U to 50 degC, timber to EN 338, bamboo by the form of ISO 22156; unknown "
              "wood is C16",
    .caution = "Strength of reclaimed pipe is a guess until its wall is measured and its mark read. A licensed "
               "engineer decides.",
    .example = "material=pvc wall_temp_c=45 age_years=5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
