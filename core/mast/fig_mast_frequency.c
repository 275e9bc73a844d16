/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure mast_frequency: how fast a mast swings, and the wind that makes it hum.
 */
#include "lanewick/figure.h"
#include "lanewick/mast.h"

enum { DIAMETER, WALL, HEIGHT, MATERIAL, HEAD, MEAN };
static const lw_input inputs[] = {
    [DIAMETER] = {"diameter_mm", "mm", "outer diameter", LW_NUMBER, 15, 400, NULL, NULL, 0, 0},
    [WALL] = {"wall_mm", "mm", "wall", LW_NUMBER, 0.5, 200, NULL, NULL, 0, 0},
    [HEIGHT] = {"height_m", "m", "above ground", LW_NUMBER, 0.5, 12, NULL, NULL, 0, 0},
    [MATERIAL] = {"material", "", "of the pipe", LW_CHOICE, 0, 0, LW_MAST_MATERIAL_WORDS, "steel", 0, 0},
    [HEAD] = {"head_kg", "kg", "weight at the top", LW_NUMBER, 0, 200, NULL, NULL, 0, 0},
    [MEAN] = {"mean_m_s", "m/s", "design mean wind at the top (wind_pressure)", LW_NUMBER, 1, 80, NULL, "", 0, 0},
};

enum { FREQUENCY, CRITICAL, CHECKED, ENGINEER };
static const lw_output outputs[] = {
    [FREQUENCY] = {"frequency_hz", "Hz", "first mode", LW_NUMBER},
    [CRITICAL] = {"critical_m_s", "m/s", "wind in which vortices shed with it", LW_NUMBER},
    [CHECKED] = {"shedding_matters", "", "that wind lies below 1.25 times the design mean", LW_FLAG},
    [ENGINEER] = {"engineer_needed", "", "below 1 Hz gusts swing the mast up: an engineer decides", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_tube tube = {in[DIAMETER].number, in[WALL].number};
    const lw_mast_conditions conditions = {20.0, 0.0, tube.wall_mm};
    lw_mast_strength strength = {0};
    lw_mast_vibration vibration = {0};
    if (!lw_mast_material_at((size_t)in[MATERIAL].number)->strength(&conditions, &strength, err) ||
        !lw_mast_vibrate(&tube, &strength, in[HEIGHT].number, in[HEAD].number, &vibration, err))
        return false;
    out[FREQUENCY] = lw_value_number(vibration.frequency_hz);
    out[CRITICAL] = lw_value_number(vibration.critical_m_s);
    if (in[MEAN].given)
        out[CHECKED] = lw_value_flag(vibration.critical_m_s <= 1.25 * in[MEAN].number);
    out[ENGINEER] = lw_value_flag(vibration.frequency_hz < 1.0);
    return true;
}

const lw_figure lw_fig_mast_frequency = {
    .name = "mast_frequency",
    .room = "mast",
    .summary = "First frequency of a mast with its head, and the wind speed of vortex shedding.",
    .source = "Rayleigh's quotient with 33/140 of the mast's mass; Strouhal number 0.18 (EN 1991-1-4 Table E.1, from "
              "memory)",
    .limits = "Shedding at 1 to 2 m/s has little force, but it comes every day and loosens nuts: lock them, and raise "
              "the mast with its head on",
    .caution = "Below 1 Hz a licensed engineer decides; people shaking a mast find 1.5 to 3 Hz easily.",
    .example = "diameter_mm=76.1 wall_mm=3.2 height_m=4 head_kg=8",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
