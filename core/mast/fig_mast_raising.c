/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure mast_raising: how many people raise a mast, and how far all others stay.
 */
#include "lanewick/figure.h"
#include "lanewick/mast_parts.h"
#include "lanewick/units.h"

enum { LENGTH, KG, CENTRE, HANDS };
static const lw_input inputs[] = {
    [LENGTH] = {"length_m", "m", "whole pole with the part for the ground", LW_NUMBER, 1, 16, NULL, NULL, 0, 0},
    [KG] = {"total_kg", "kg", "pole with what is fixed to it", LW_NUMBER, 1, 1000, NULL, NULL, 0, 0},
    [CENTRE] = {"centre_m", "m", "centre of weight from the foot; left out: the middle", LW_NUMBER, 0.1, 16, NULL, "",
                0, 0},
    [HANDS] = {"hands_m", "m", "height of the hands while walking it up", LW_NUMBER, 1, 2.2, NULL, "2", 0, 0},
};

enum { FIRST, MOST, ANGLE, PEOPLE, CLEAR };
static const lw_output outputs[] = {
    [FIRST] = {"first_n", "N", "to lift the top off the ground", LW_NUMBER},
    [MOST] = {"most_n", "N", "greatest push while walking it up", LW_NUMBER},
    [ANGLE] = {"at_deg", "degree", "where that is", LW_NUMBER},
    [PEOPLE] = {"people", "", "so many at the pole, 115 N each, beside two at the ropes", LW_NUMBER},
    [CLEAR] = {"clear_m", "m", "nobody else within", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double weight_n = lw_gravity_m_s2 * in[KG].number, length_m = in[LENGTH].number;
    const double centre_m = in[CENTRE].given ? in[CENTRE].number : 0.5 * length_m;
    if (centre_m > length_m)
        return lw_fail(err, LW_WRONG_INPUT, "centre_m", "centre_m is %g m, beyond the end of the pole of %g m.",
                       centre_m, length_m);
    const lw_raising r = lw_raise(length_m, weight_n, weight_n * centre_m, in[HANDS].number);
    out[FIRST] = lw_value_number(r.first_n);
    out[MOST] = lw_value_number(r.most_n);
    out[ANGLE] = lw_value_number(r.at_deg);
    out[PEOPLE] = lw_value_number(r.people);
    out[CLEAR] = lw_value_number(r.clear_m);
    return true;
}

const lw_figure lw_fig_mast_raising = {
    .name = "mast_raising",
    .room = "mast",
    .summary = "Hands and room that raising a mast takes.",
    .source = "statics; 23 kg a person of the NIOSH lifting equation of 1991 (from memory), half of it at and above "
              "the shoulder (common practice)",
    .limits = "Foot held in the hole or by a stop; no wind above 5 m/s",
    .caution =
        "A rope on the far side holds it when it passes upright. Look up for lines first. A licensed engineer decides.",
    .example = "length_m=5.2 total_kg=38 centre_m=3.1",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
