/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure air_mass: length of the way through the air, compared with straight down.
 */
#include "lanewick/figure.h"
#include "lanewick/sun.h"

enum { ZENITH_DEG, ELEV_M };
static const lw_input inputs[] = {
    [ZENITH_DEG] = {"zenith_deg", "degree", "angle from the zenith to the sun", LW_NUMBER, 0, 90, NULL, NULL, 0, 0},
    [ELEV_M] = {"elev_m", "m", "height above the sea", LW_NUMBER, -500, 9000, NULL, "0", 0, 0},
};

enum { AIR_MASS, PRESSURE_HPA, ABSOLUTE_AIR_MASS };
static const lw_output outputs[] = {
    [AIR_MASS] = {"air_mass", "", "relative to the vertical, at the same height", LW_NUMBER},
    [PRESSURE_HPA] = {"pressure_hpa", "hPa", "of the standard atmosphere at that height", LW_NUMBER},
    [ABSOLUTE_AIR_MASS] = {"absolute_air_mass", "", "relative to the vertical at sea level", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double mass = lw_air_mass(in[ZENITH_DEG].number), pressure_hpa = lw_pressure_hpa(in[ELEV_M].number);
    out[AIR_MASS] = lw_value_number(mass);
    out[PRESSURE_HPA] = lw_value_number(pressure_hpa);
    out[ABSOLUTE_AIR_MASS] = lw_value_number(mass * pressure_hpa / 1013.25);
    return true;
}

const lw_figure lw_fig_air_mass = {
    .name = "air_mass",
    .room = "sun",
    .summary = "Relative optical air mass and standard pressure.",
    .source = "Kasten & Young (1989), Appl. Opt. 28, 4735 (from memory); ISO 2533 standard atmosphere",
    .example = "zenith_deg=61.3 elev_m=480",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
