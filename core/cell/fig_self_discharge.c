/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure self_discharge: how fast a resting cell loses its charge.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

enum { DAYS, VOLTS, CLASS, CAPACITY, PERCENT, DIGITS, STEP };
static const lw_input inputs[] = {
    [DAYS] = {"days_d", "d", "when the resting voltage was read, days after the charge", LW_NUMBERS, 0.0, 3650.0, NULL,
              NULL, 2, 1000},
    [VOLTS] = {"volts_v", "V", "resting voltage, one for each day, at equal temperature", LW_NUMBERS, -1e5, 1e5, NULL,
               NULL, 2, 1000},
    [CLASS] = {"voltage_class", "", "what is known of the chemistry", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
    [CAPACITY] = {"capacity_ah", "Ah", "capacity of the cell", LW_NUMBER, 0.05, 400.0, NULL, "2", 0, 0},
    [PERCENT] = {"meter_percent", "%", "of the reading; the same meter throughout, so it does not count here",
                 LW_NUMBER, 0.0, 10.0, NULL, "0.5", 0, 0},
    [DIGITS] = {"meter_digits", "", "of the last place by which two readings of this meter may differ", LW_NUMBER, 0.0,
                50.0, NULL, "1", 0, 0},
    [STEP] = {"meter_step_v", "V", "value of one digit", LW_NUMBER, 1e-6, 0.1, NULL, "0.001", 0, 0},
};

enum { PCT, PCT_SD, K, K_SD, LEAK, RELAX, RELAX_D, JUDGED };
static const lw_output outputs[] = {
    [PCT] = {"pct_per_month", "%", "of the capacity lost in 30 days", LW_NUMBER},
    [PCT_SD] = {"pct_sd", "%", "its standard uncertainty", LW_NUMBER},
    [K] = {"k_mv_per_day", "mV/d", "fall of the resting voltage by leakage", LW_NUMBER},
    [K_SD] = {"k_sd_mv_per_day", "mV/d", "its standard uncertainty", LW_NUMBER},
    [LEAK] = {"leak_ua", "uA", "steady current that explains it", LW_NUMBER},
    [RELAX] = {"relaxation_v", "V", "part of the fall that is relaxation after the charge", LW_NUMBER},
    [RELAX_D] = {"relaxation_days", "d", "time constant of the relaxation", LW_NUMBER},
    [JUDGED] = {"advice", "", "what to do with it", LW_TEXT},
};

/* Workshop limits on the K-value: hold above 1, reject above 2 mV/d (from memory, common practice). */
static const char *advise(const lw_rest_result *r, double span_d)
{
    if (r->k_sd_mv_per_day > 0.5)
        return "Too short to judge with this meter: leave the cell to rest for 14 days between readings.";
    if (r->k_mv_per_day - r->k_sd_mv_per_day > 2.0)
        return "Leaks: more than 2 mV a day. Reject.";
    if (r->k_mv_per_day + r->k_sd_mv_per_day < 1.0)
        return "Holds its charge: below 1 mV a day.";
    return span_d < 10.0 ? "Not clear yet: rest it longer and read again."
                         : "Doubtful: rest it 14 days more and read again before using it.";
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const size_t n = in[DAYS].count;
    if (n != in[VOLTS].count)
        return lw_fail(err, LW_WRONG_INPUT, "volts_v", "volts_v has %zu values, days_d %zu; each reading has both.",
                       in[VOLTS].count, n);
    const lw_meter meter = {in[PERCENT].number, in[DIGITS].number, in[STEP].number};
    lw_rest_result r;
    if (!lw_self_discharge(in[DAYS].list, in[VOLTS].list, n, &meter, in[CAPACITY].number,
                           lw_test_class_find(in[CLASS].text), &r, err))
        return false;
    out[PCT] = lw_value_number(r.pct_per_month);
    out[PCT_SD] = lw_value_number(r.pct_sd);
    out[K] = lw_value_number(r.k_mv_per_day);
    out[K_SD] = lw_value_number(r.k_sd_mv_per_day);
    out[LEAK] = lw_value_number(r.leak_ua);
    out[RELAX] = lw_value_number(r.relaxation_v);
    if (r.relaxation_days > 0.0)
        out[RELAX_D] = lw_value_number(r.relaxation_days);
    out[JUDGED] = lw_value_text(advise(&r, in[DAYS].list[n - 1] - in[DAYS].list[0]));
    return true;
}

const lw_figure lw_fig_self_discharge = {
    .name = "self_discharge",
    .room = "cell",
    .summary = "Self-discharge of a resting cell, with the relaxation after the charge told apart.",
    .source = "K-value (V1 - V2)/(t2 - t1) as makers use it, turned into charge by open voltage curves of the class; "
              "relaxation by least squares",
    .limits =
        "Read at equal temperature, from 3 days after the charge. On the flat part of LFP the voltage says nothing.",
    .caution = "Rest cells in a cool place where nobody sleeps, terminals taped, apart from one another.",
    .example = "days_d=3,17 volts_v=4.180,4.172 voltage_class=4v2 capacity_ah=2.0",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
