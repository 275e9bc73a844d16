/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure panel_wind: wind forces on a tilted panel.
 */
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum { AREA, TILT, PRESSURE, COEFFICIENT, WIDTH };
static const lw_input inputs[] = {
    [AREA] = {"area_m2", "m2", "panel", LW_NUMBER, 0.01, 3, NULL, NULL, 0, 0},
    [TILT] = {"tilt_deg", "degree", "from the horizontal", LW_NUMBER, 0, 90, NULL, NULL, 0, 0},
    [PRESSURE] = {"pressure_pa", "Pa", "peak wind pressure at its height", LW_NUMBER, 1, 10000, NULL, NULL, 0, 0},
    [COEFFICIENT] = {"force_coefficient", "", "normal to the panel; 1.8 is on the safe side for every tilt", LW_NUMBER,
                     0.8, 2.5, NULL, "1.8", 0, 0},
    [WIDTH] = {"width_m", "m", "width across the wind, for the twist", LW_NUMBER, 0.05, 3, NULL, "", 0, 0},
};

enum { NORMAL, SIDEWAYS, UP, TWIST };
static const lw_output outputs[] = {
    [NORMAL] = {"normal_n", "N", "force at right angles to the panel, either way", LW_NUMBER},
    [SIDEWAYS] = {"horizontal_n", "N", "its horizontal part, which bends the mast", LW_NUMBER},
    [UP] = {"lift_n", "N", "its vertical part: up with wind from behind, down from the front", LW_NUMBER},
    [TWIST] = {"twist_nm", "N m", "moment about the mast when the force sits a quarter width off", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double normal = in[COEFFICIENT].number * in[PRESSURE].number * in[AREA].number;
    const double tilt = in[TILT].number * lw_radian_per_degree;
    out[NORMAL] = lw_value_number(normal);
    out[SIDEWAYS] = lw_value_number(normal * sin(tilt));
    out[UP] = lw_value_number(normal * cos(tilt));
    if (in[WIDTH].given)
        out[TWIST] = lw_value_number(0.25 * in[WIDTH].number * normal * sin(tilt));
    return true;
}

const lw_figure lw_fig_panel_wind = {
    .name = "panel_wind",
    .room = "mast",
    .summary = "Wind force on a tilted panel: sideways, lifting and twisting.",
    .source = "EN 1991-1-4 7.4.3 (1.8, a quarter width off centre) and Table 7.6 up to 30 degree (from memory)",
    .limits = "One coefficient for every tilt meets both tables at 30 degree and is on the safe side below",
    .caution = "Lift is greater than the weight of a small panel: bolts and frame carry it, never gravity or glue.",
    .example = "area_m2=0.36 tilt_deg=20 pressure_pa=1028.5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
