/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure remaining_life: how many years a cell goes on in a lamp.
 */
#include "lanewick/cell_class.h"
#include "lanewick/figure.h"
#include "lanewick/forecast.h"

#include <string.h>

enum { CAPACITY, SD, NEW, NEEDED, TEMP, DEPTH, CEILING, CLASS };
static const lw_input inputs[] = {
    [CAPACITY] = {"capacity_ah", "Ah", "capacity now", LW_NUMBER, 0.05, 400.0, NULL, NULL, 0, 0},
    [SD] = {"capacity_sd_ah", "Ah", "its standard uncertainty", LW_NUMBER, 0.0, 100.0, NULL, "0.03", 0, 0},
    [NEW] = {"new_ah", "Ah", "capacity when new: rated, or a guess", LW_NUMBER, 0.05, 400.0, NULL, NULL, 0, 0},
    [NEEDED] = {"needed_ah", "Ah", "below this the lamp is no longer served", LW_NUMBER, 0.01, 400.0, NULL, NULL, 0, 0},
    [TEMP] = {"cell_c", "degC", "temperature that ages as much as the real course in the box", LW_NUMBER, -10.0, 55.0,
              NULL, "30", 0, 0},
    [DEPTH] = {"depth", "", "share of the capacity used each night", LW_NUMBER, 0.01, 1.0, NULL, "0.4", 0, 0},
    [CEILING] = {"ceiling_v", "V", "end of charge per cell; the class's suggestion when left out", LW_NUMBER, 3.4, 4.25,
                 NULL, "", 0, 0},
    [CLASS] = {"voltage_class", "", "what is known of the chemistry", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
};

enum { YEARS, LOW, HIGH, HEALTH, KNEE };
static const lw_output outputs[] = {
    [YEARS] = {"years", "a", "until needed_ah; 20 stands for 20 or more", LW_NUMBER},
    [LOW] = {"low_years", "a", "lower end of the 90 % band", LW_NUMBER},
    [HIGH] = {"high_years", "a", "upper end", LW_NUMBER},
    [HEALTH] = {"health", "", "capacity now over new", LW_NUMBER},
    [KNEE] = {"past_knee", "", "below 80 % of new: fade speeds up and differs much between cells", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_cell_class *class = lw_cell_class_find(in[CLASS].text);
    const bool lfp = strcmp(in[CLASS].text, "lfp") == 0;
    const double ceiling = in[CEILING].given ? in[CEILING].number : class->ceiling_v, depth = in[DEPTH].number;
    const double top = lw_ocv_charge(&class->ocv, ceiling);
    /* full each evening, down by depth each night: it stands half way between most of the time */
    const double mean_v = lw_ocv_mean_v(&class->ocv, top - depth < 0.0 ? 0.0 : top - depth, top);
    const lw_life_ask ask = {
        .model = lfp ? LW_AGEING_LFP : LW_AGEING_NMC,
        .stress = {.cell_c = in[TEMP].number,
                   .mean_v = mean_v,
                   .mean_charge = top - 0.5 * depth,
                   .cycle_mean_v = mean_v,
                   .depth = depth,
                   .cycles_per_day = depth,
                   .rate_per_h = depth / 10.0},
        .capacity_ah = {in[CAPACITY].number, in[SD].number, 1},
        .new_ah = in[NEW].number,
        .needed_ah = in[NEEDED].number,
    };
    lw_life life;
    if (!lw_remaining_life(&ask, &life, err))
        return false;
    out[YEARS] = lw_value_number(life.years);
    out[LOW] = lw_value_number(life.low_years);
    out[HIGH] = lw_value_number(life.high_years);
    out[HEALTH] = lw_value_number(life.health);
    out[KNEE] = lw_value_flag(life.past_knee);
    return true;
}

const lw_figure lw_fig_remaining_life = {
    .name = "remaining_life",
    .room = "cell",
    .summary = "Years that a used cell goes on in a lamp until too little is left, with a band.",
    .source = "Schmalstieg et al. (2014) J. Power Sources 257, 325 (4.2 V cells); Naumann et al. (2018) J. Energy "
              "Storage 17, "
              "153 and (2020) J. Power Sources 451, 227666 (LFP); entered at the present loss",
    .limits = "Fits for new cells of one type; no model sees the knee below 80 % of new, where fade is counted twice. "
              "The band is "
              "a judgement, not a measurement.",
    .example = "capacity_ah=1.93 new_ah=2.2 needed_ah=1.3 cell_c=30 depth=0.4",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
