/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure cell_temperature: temperature of the cells in a panel in the sun.
 */
#include "lanewick/figure.h"
#include "lanewick/plane.h"

enum { AIR_C, PLANE_W_M2, WIND_M_S, U0_W_M2_K, U1_W_S_M3_K };
static const lw_input inputs[] = {
    [AIR_C] = {"air_c", "degC", "air temperature", LW_NUMBER, -60, 60, NULL, NULL, 0, 0},
    [PLANE_W_M2] = {"plane_w_m2", "W/m2", "irradiance on the panel before the glass", LW_NUMBER, 0, 1600, NULL, NULL, 0,
                    0},
    [WIND_M_S] = {"wind_m_s", "m/s", "wind at the panel", LW_NUMBER, 0, 60, NULL, "1", 0, 0},
    [U0_W_M2_K] = {"u0_w_m2_k", "W/m2K", "heat lost in still air; about 16 with the back closed", LW_NUMBER, 5, 60,
                   NULL, "25", 0, 0},
    [U1_W_S_M3_K] = {"u1_w_s_m3_k", "W s/m3K", "heat lost more with each m/s of wind", LW_NUMBER, 0, 20, NULL, "6.84",
                     0, 0},
};

enum { CELL_C };
static const lw_output outputs[] = {
    [CELL_C] = {"cell_c", "degC", "cell temperature", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const lw_plane plane = {.faiman_u0 = in[U0_W_M2_K].number, .faiman_u1 = in[U1_W_S_M3_K].number, .wind_factor = 1.0};
    out[CELL_C] =
        lw_value_number(lw_cell_temperature_c(&plane, in[AIR_C].number, in[PLANE_W_M2].number, in[WIND_M_S].number));
    return true;
}

const lw_figure lw_fig_cell_temperature = {
    .name = "cell_temperature",
    .room = "sun",
    .summary = "Cell temperature of a panel from air, sun and wind.",
    .source = "Faiman (2008), Prog. Photovolt. 16, 307; adopted by IEC 61853-2",
    .limits = "Steady state; a panel needs about ten minutes to follow.",
    .caution = "A panel in full sun can pass 70 degC: do not touch it with bare hands.",
    .example = "air_c=27.5 plane_w_m2=820 wind_m_s=1.4",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
