/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure vortex_shedding: how far a mast hums in light wind, and the stress of it.
 */
#include "lanewick/figure.h"
#include "lanewick/mast_parts.h"

enum { DIAMETER, WALL, HEIGHT, MATERIAL, HEAD, DAMPING, MEAN };
static const lw_input inputs[] = {
    [DIAMETER] = {"diameter_mm", "mm", "outer diameter", LW_NUMBER, 15, 400, NULL, NULL, 0, 0},
    [WALL] = {"wall_mm", "mm", "wall; half the diameter: solid", LW_NUMBER, 0.5, 200, NULL, NULL, 0, 0},
    [HEIGHT] = {"height_m", "m", "above ground", LW_NUMBER, 0.5, 12, NULL, NULL, 0, 0},
    [MATERIAL] = {"material", "", "steel: marked S235; timber: C16", LW_CHOICE, 0, 0, LW_MAST_MATERIAL_WORDS, NULL, 0,
                  0},
    [HEAD] = {"head_kg", "kg", "weight on the top; 0: bare mast", LW_NUMBER, 0, 200, NULL, "0", 0, 0},
    [DAMPING] = {"damping", "", "logarithmic decrement: plain metal 0.012, wood 0.06, bolted 0.02 to 0.05", LW_NUMBER,
                 0.002, 0.5, NULL, "0.012", 0, 0},
    [MEAN] = {"mean_m_s", "m/s", "mean wind at the top in the design storm, to tell whether a check is needed",
              LW_NUMBER, 1, 90, NULL, "", 0, 0},
};

enum { CRITICAL, SCRUTON, REYNOLDS, LATERAL, LENGTH, AMPLITUDE, STRESS, NEEDED };
static const lw_output outputs[] = {
    [CRITICAL] = {"critical_m_s", "m/s", "wind that sheds with the first mode", LW_NUMBER},
    [SCRUTON] = {"scruton", "", "damping and mass against the air; below 10 it is lively", LW_NUMBER},
    [REYNOLDS] = {"reynolds", "", "at that wind", LW_NUMBER},
    [LATERAL] = {"lateral", "", "c_lat", LW_NUMBER},
    [LENGTH] = {"length_factor", "", "K_w", LW_NUMBER},
    [AMPLITUDE] = {"amplitude_mm", "mm", "of the top, one way", LW_NUMBER},
    [STRESS] = {"stress_mpa", "MPa", "at the ground, one way; the range is twice that", LW_NUMBER},
    [NEEDED] = {"check_needed", "", "no when the wind never gets so strong (1.25 times the mean)", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_tube tube = {in[DIAMETER].number, in[WALL].number};
    const lw_mast_conditions conditions = {20.0, 0.0, tube.wall_mm};
    lw_mast_strength strength = {0};
    lw_shedding s;
    if (!lw_mast_material_at((size_t)in[MATERIAL].number)->strength(&conditions, &strength, err) ||
        !lw_shedding_of(&tube, &strength, in[HEIGHT].number, in[HEAD].number, in[DAMPING].number, &s, err))
        return false;
    out[CRITICAL] = lw_value_number(s.critical_m_s);
    out[SCRUTON] = lw_value_number(s.scruton);
    out[REYNOLDS] = lw_value_number(s.reynolds);
    out[LATERAL] = lw_value_number(s.lateral);
    out[LENGTH] = lw_value_number(s.length_factor);
    out[AMPLITUDE] = lw_value_number(s.amplitude_mm);
    out[STRESS] = lw_value_number(s.stress_mpa);
    if (in[MEAN].given)
        out[NEEDED] = lw_value_flag(s.critical_m_s <= 1.25 * in[MEAN].number);
    return true;
}

const lw_figure lw_fig_vortex_shedding = {
    .name = "vortex_shedding",
    .room = "mast",
    .summary = "Amplitude and stress of a mast in lock-in with its vortices.",
    .source = "EN 1991-1-4 Annex E.1.5.2, approach 1: y/b = K K_w c_lat/(St2 Sc), K 0.13, St 0.18 (from memory)",
    .limits = "First mode of a straight round cantilever; a range over 10.8 MPa tires the weakest weld (EN 1993-1-9 "
              "category 36, from memory)",
    .caution = "A bare or unfinished mast hums most: raise it with its head on, with lock nuts. A licensed engineer "
               "decides.",
    .example = "diameter_mm=76.1 wall_mm=3.2 height_m=4 material=steel head_kg=8",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
