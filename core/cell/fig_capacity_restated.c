/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure capacity_restated: a capacity read off some charger, restated to 0.2 C and 25 degC.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

enum { CAPACITY, SD, FROM_A, FROM_V, FROM_C, TO_A, TO_V, OHM, OHM_SD, CLASS };
static const lw_input inputs[] = {
    [CAPACITY] = {"capacity_ah", "Ah", "capacity as read", LW_NUMBER, 0.01, 400.0, NULL, NULL, 0, 0},
    [SD] = {"capacity_sd_ah", "Ah", "its standard uncertainty; 2 % of it when left out", LW_NUMBER, 0.0, 100.0, NULL,
            "", 0, 0},
    [FROM_A] = {"rate_a", "A", "current of the discharge", LW_NUMBER, 0.001, 400.0, NULL, NULL, 0, 0},
    [FROM_V] = {"end_v", "V", "loaded voltage where it ended; usual for the class when left out", LW_NUMBER, 2.0, 3.6,
                NULL, "", 0, 0},
    [FROM_C] = {"temp_c", "degC", "temperature of the cell", LW_NUMBER, -20.0, 60.0, NULL, "25", 0, 0},
    [TO_A] = {"to_rate_a", "A", "current to restate to; 0.2 C of the reading when left out", LW_NUMBER, 0.001, 400.0,
              NULL, "", 0, 0},
    [TO_V] = {"to_end_v", "V", "end voltage to restate to; usual for the class when left out", LW_NUMBER, 2.0, 3.6,
              NULL, "", 0, 0},
    [OHM] = {"resistance_ohm", "ohm", "resistance of the cell a minute after the step", LW_NUMBER, 0.0, 2.0, NULL,
             "0.09", 0, 0},
    [OHM_SD] = {"resistance_sd_ohm", "ohm", "its standard uncertainty; a quarter of it when left out", LW_NUMBER, 0.0,
                2.0, NULL, "", 0, 0},
    [CLASS] = {"voltage_class", "", "what is known of the chemistry", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
};

enum { OUT_CAPACITY, OUT_SD, OUT_RATE };
static const lw_output outputs[] = {
    [OUT_CAPACITY] = {"restated_ah", "Ah", "capacity at to_rate_a, to_end_v and 25 degC", LW_NUMBER},
    [OUT_SD] = {"restated_sd_ah", "Ah", "its standard uncertainty", LW_NUMBER},
    [OUT_RATE] = {"rate_used_a", "A", "the current it is stated for", LW_NUMBER},
};

static double or_else(const lw_value *v, double fallback)
{
    return v->given ? v->number : fallback;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_test_class *class = lw_test_class_find(in[CLASS].text);
    const lw_restate ask = {
        .capacity_ah = in[CAPACITY].number,
        .capacity_sd_ah = or_else(&in[SD], 0.02 * in[CAPACITY].number),
        .from_a = in[FROM_A].number,
        .from_end_v = or_else(&in[FROM_V], class->end_v),
        .from_c = in[FROM_C].number,
        .to_a = or_else(&in[TO_A], 0.2 * in[CAPACITY].number),
        .to_end_v = or_else(&in[TO_V], class->end_v),
        .resistance_ohm = in[OHM].number,
        .resistance_sd_ohm = or_else(&in[OHM_SD], 0.25 * in[OHM].number),
        .class = class,
    };
    double capacity, sd;
    if (!lw_capacity_restated(&ask, &capacity, &sd, err))
        return false;
    out[OUT_CAPACITY] = lw_value_number(capacity);
    out[OUT_SD] = lw_value_number(sd);
    out[OUT_RATE] = lw_value_number(ask.to_a);
    return true;
}

const lw_figure lw_fig_capacity_restated = {
    .name = "capacity_restated",
    .room = "cell",
    .summary = "A capacity measured at one current, end voltage and temperature, restated to 0.2 C and 25 degC.",
    .source =
        "open voltage curves of the class, the discharge ending at open voltage = end + I R; discharge performance of "
        "IEC 61960-3 at 0.2 C; share of capacity with temperature from memory",
    .limits = "For a full charge before the reading. Far from 0.2 C or 25 degC the uncertainty grows.",
    .example = "capacity_ah=1.912 rate_a=1 temp_c=18 resistance_ohm=0.085",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
