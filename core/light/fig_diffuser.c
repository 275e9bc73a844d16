/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure diffuser: a bottle or cover over a head: light that gets through, spread, yellowing.
 */
#include "lanewick/diffuser.h"
#include "lanewick/figure.h"

#include <math.h>

enum { KIND, MATERIAL, YEARS, MEASURED, LUMENS, POWER };
static const lw_input inputs[] = {
    [KIND] = {"kind", "", "bottle or cover", LW_CHOICE, 0, 0, LW_DIFFUSER_WORDS, "clear_bottle", 0, 0},
    [MATERIAL] = {"material", "", "what it is made of", LW_CHOICE, 0, 0, LW_DIFFUSER_MATERIAL_WORDS, "pet", 0, 0},
    [YEARS] = {"years", "year", "age outdoors at which its light counts", LW_NUMBER, 0, 30, NULL, "2", 0, 0},
    [MEASURED] = {"transmittance", "", "measured when new (diffuser_readings); left out: the kind's range", LW_NUMBER,
                  0.01, 1, NULL, "", 0, 0},
    [LUMENS] = {"lumens", "lm", "of the bare board", LW_NUMBER, 0.1, 1e6, NULL, "500", 0, 0},
    [POWER] = {"cos_power", "", "of the bare board: 1 is flat and diffuse", LW_NUMBER, 0, 100, NULL, "1", 0, 0},
};

enum { NEW, THEN, LOW, HIGH, YELLOW, LM, UP, HALF, PEAK, CHANGE, SOURCE, AGEING };
static const lw_output outputs[] = {
    [NEW] = {"through_new", "", "share of the light that gets through when new", LW_NUMBER},
    [THEN] = {"through", "", "at that age", LW_NUMBER},
    [LOW] = {"through_low", "", "at least", LW_NUMBER},
    [HIGH] = {"through_high", "", "at most", LW_NUMBER},
    [YELLOW] = {"yellowing_share", "", "what the age leaves of it (goes into the maintenance of a lane)", LW_NUMBER},
    [LM] = {"lumens", "lm", "that leave the head then", LW_NUMBER},
    [UP] = {"upward_share", "", "of them above the horizontal", LW_NUMBER},
    [HALF] = {"half_deg", "degree", "angle at which the light has fallen to half", LW_NUMBER},
    [PEAK] = {"straight_down_cd", "cd", "intensity straight below", LW_NUMBER},
    [CHANGE] = {"change_from_y", "year", "change it before this age: brittle or yellow", LW_NUMBER},
    [SOURCE] = {"from", "", "where the range comes from", LW_TEXT},
    [AGEING] = {"ageing_from", "", "where its ageing comes from", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const size_t kind = (size_t)in[KIND].number, material = (size_t)in[MATERIAL].number;
    const lw_diffuser d =
        lw_diffuser_of(kind, material, in[YEARS].number, in[MEASURED].given ? in[MEASURED].number : NAN);
    const lw_beam bare = {.peak_cd = lw_cosine_peak_cd(in[LUMENS].number, in[POWER].number),
                          .cos_power = in[POWER].number};
    lw_intensity table, behind;
    if (!lw_beam_table(&bare, arena, &table, err) || !lw_diffuser_table(&d, &table, arena, &behind, err))
        return false;
    const lw_band share = lw_diffuser_share(&d);
    const lw_beam_numbers numbers = lw_beam_numbers_of(&behind);
    const lw_diffuser_material *made_of = lw_diffuser_material_at(material);
    out[NEW] = lw_value_number(d.transmittance.usual);
    out[THEN] = lw_value_number(share.usual);
    out[LOW] = lw_value_number(share.low);
    out[HIGH] = lw_value_number(share.high);
    out[YELLOW] = lw_value_number(share.usual / d.transmittance.usual);
    out[LM] = lw_value_number(numbers.lumens);
    out[UP] = lw_value_number(numbers.upward_share);
    out[HALF] = lw_value_number(numbers.half_deg);
    out[PEAK] = lw_value_number(lw_intensity_cd(&behind, 0.0, 0.0));
    if (made_of->change_from_y > 0.0)
        out[CHANGE] = lw_value_number(made_of->change_from_y);
    out[SOURCE] = lw_value_text(lw_diffuser_kind_at(kind)->source);
    out[AGEING] = lw_value_text(made_of->source);
    return true;
}

const lw_figure lw_fig_diffuser = {
    .name = "diffuser",
    .room = "light",
    .summary = "What a bottle or cover lets through, how it spreads the light, and what years of sun leave of it.",
    .source =
        "ranges by kind and material, their origin in the answer; own model of the spread (docs/models/diffuser.md)",
    .limits =
        "No published measurement of an LED behind a drinks bottle was found: measure yours with diffuser_readings.",
    .caution = "A bottle softens from 67 degC: keep 2 cm between it and a hot board (head_heat).",
    .example = "kind=frosted_bottle material=pet years=2 lumens=500",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
