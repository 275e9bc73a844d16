/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure worst_month: panel and pack by the textbook worst-month method.
 */
#include "lanewick/figure.h"
#include "lanewick/sizing.h"

enum { LOAD, SUN, PERFORMANCE, NIGHTS, DEPTH };
static const lw_input inputs[] = {
    [LOAD] = {"load_wh_day", "Wh", "energy that the lamp takes in a night, mean of each month", LW_NUMBERS, 0.0, 1e6,
              NULL, NULL, 12, 12},
    [SUN] = {"sun_kwh_m2_day", "kWh/m2", "sun in the plane of the panel in a day, mean of each month", LW_NUMBERS, 0.0,
             12.0, NULL, NULL, 12, 12},
    [PERFORMANCE] = {"performance", "",
                     "share of the rated panel energy that reaches the lamp: 0.6..0.7 with dirt, heat, "
                     "charger and pack (common practice)",
                     LW_NUMBER, 0.1, 1.0, NULL, "0.65", 0, 0},
    [NIGHTS] = {"nights", "", "nights that the full pack alone must last", LW_NUMBER, 0.5, 30.0, NULL, "3", 0, 0},
    [DEPTH] = {"depth", "", "usable share of the pack", LW_NUMBER, 0.1, 1.0, NULL, "0.8", 0, 0},
};

enum { MONTH, PANEL, PACK };
static const lw_output outputs[] = {
    [MONTH] = {"month", "", "the month that sizes the panel, 1..12", LW_INTEGER},
    [PANEL] = {"panel_w", "W", "rated panel", LW_NUMBER},
    [PACK] = {"pack_wh", "Wh", "pack", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const lw_worst_month worst =
        lw_worst_month_size(in[LOAD].list, in[SUN].list, in[PERFORMANCE].number, in[NIGHTS].number, in[DEPTH].number);
    out[MONTH] = lw_value_integer(worst.month);
    out[PANEL] = lw_value_number(worst.panel_w);
    out[PACK] = lw_value_number(worst.pack_wh);
    return true;
}

const lw_figure lw_fig_worst_month = {
    .name = "worst_month",
    .room = "power",
    .summary = "Panel and pack by the textbook worst-month method, to compare with simulated sizes.",
    .source = "Duffie & Beckman, Solar Engineering of Thermal Processes, design of photovoltaic systems; steps of IEEE "
              "1562-2021 in spirit (both from memory)",
    .limits = "It knows mean months only: it cannot say how many nights go dark.",
    .example = "load_wh_day=41,41,41,41,41,40,41,41,41,41,41,44 sun_kwh_m2_day=4.7,4.7,4.7,4.7,4.7,3.2,4.7,4.7,4.7,4.7,"
               "4.7,5.1",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
