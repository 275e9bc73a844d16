/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure resistor_discharge: what a cell holds, from a resistor, a voltmeter and a clock.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

#include <string.h>

enum {
    LOAD,
    LEAD,
    TIMES,
    VOLTS,
    BEFORE,
    AFTER,
    AFTER_S,
    END_V,
    RATE,
    TEMP,
    CLASS,
    METER_ON,
    CONNECTED,
    TOLERANCE,
    LEAD_TOLERANCE,
    PERCENT,
    DIGITS,
    STEP,
    CLOCK
};
static const lw_input inputs[] = {
    [LOAD] = {"load_ohm", "ohm", "the resistor, measured or as marked", LW_NUMBER, 0.1, 1000.0, NULL, NULL, 0, 0},
    [LEAD] = {"lead_ohm", "ohm", "leads and clips between cell and resistor", LW_NUMBER, 0.0, 10.0, NULL, "0", 0, 0},
    [TIMES] = {"times_s", "s", "when the voltage was read under load, from connecting", LW_NUMBERS, -1e9, 2e9, NULL,
               NULL, 2, 0},
    [VOLTS] = {"volts_v", "V", "voltage under load, 0 to 4.6, one for each time", LW_NUMBERS, -1e5, 1e5, NULL, NULL, 2,
               0},
    [BEFORE] = {"open_before_v", "V", "voltage just before connecting", LW_NUMBER, -1e5, 1e5, NULL, "", 0, 0},
    [AFTER] = {"open_after_v", "V", "voltage after disconnecting", LW_NUMBER, -1e5, 1e5, NULL, "", 0, 0},
    [AFTER_S] = {"open_after_s", "s", "when open_after_v was read: seconds after disconnecting", LW_NUMBER, 0.0, 2e9,
                 NULL, "60", 0, 0},
    [END_V] = {"end_v", "V", "loaded voltage to which the capacity is counted; usual for the class when left out",
               LW_NUMBER, 2.0, 4.0, NULL, "", 0, 0},
    [RATE] = {"rate_a", "A", "current of the restated capacity; 0.2 C of the result when left out", LW_NUMBER, 0.001,
              100.0, NULL, "", 0, 0},
    [TEMP] = {"temp_c", "degC", "temperature of the cell during the run", LW_NUMBER, -20.0, 60.0, NULL, "25", 0, 0},
    [CLASS] = {"voltage_class", "", "what is known of the chemistry", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
    [METER_ON] = {"meter_on", "", "where the voltmeter sits", LW_CHOICE, 0, 0, "cell|resistor", "cell", 0, 0},
    [CONNECTED] = {"connected_s", "s", "when the resistor was connected, on the clock of times_s", LW_NUMBER, -1e9, 2e9,
                   NULL, "", 0, 0},
    [TOLERANCE] = {"load_tolerance_pct", "%", "limit of error of load_ohm", LW_NUMBER, 0.0, 20.0, NULL, "1", 0, 0},
    [LEAD_TOLERANCE] = {"lead_tolerance_ohm", "ohm", "limit of error of lead_ohm", LW_NUMBER, 0.0, 1.0, NULL, "0.02", 0,
                        0},
    [PERCENT] = {"meter_percent", "%", "of the reading, from the meter's sheet", LW_NUMBER, 0.0, 10.0, NULL, "0.5", 0,
                 0},
    [DIGITS] = {"meter_digits", "", "of the last place, from the meter's sheet", LW_NUMBER, 0.0, 50.0, NULL, "2", 0, 0},
    [STEP] = {"meter_step_v", "V", "value of one digit", LW_NUMBER, 1e-6, 0.1, NULL, "0.001", 0, 0},
    [CLOCK] = {"clock_s", "s", "limit of error of the noted times", LW_NUMBER, 0.0, 600.0, NULL, "5", 0, 0},
};

enum { DRAWN_AH, DRAWN_WH, CAPACITY, CAPACITY_SD, R10, R10_SD, R_END, RATE_USED, CORRECTION, REMAINING, FINISHED };
static const lw_output outputs[] = {
    [DRAWN_AH] = {"drawn_ah", "Ah", "charge drawn in the whole run", LW_NUMBER},
    [DRAWN_WH] = {"drawn_wh", "Wh", "energy drawn in the whole run", LW_NUMBER},
    [CAPACITY] = {"capacity_ah", "Ah", "capacity to end_v at rate_a and 25 degC", LW_NUMBER},
    [CAPACITY_SD] = {"capacity_sd_ah", "Ah", "its standard uncertainty", LW_NUMBER},
    [R10] = {"resistance_10s_ohm", "ohm", "resistance at the first reading (about 10 s)", LW_NUMBER},
    [R10_SD] = {"resistance_10s_sd_ohm", "ohm", "its standard uncertainty", LW_NUMBER},
    [R_END] = {"resistance_end_ohm", "ohm", "resistance from the rebound at the end", LW_NUMBER},
    [RATE_USED] = {"rate_used_a", "A", "current that the capacity is stated for", LW_NUMBER},
    [CORRECTION] = {"correction_ah", "Ah", "added for the smaller current", LW_NUMBER},
    [REMAINING] = {"remaining_ah", "Ah", "added because the run stopped above end_v", LW_NUMBER},
    [FINISHED] = {"finished", "", "the run reached end_v", LW_FLAG},
};

static lw_reading maybe(const lw_value *v)
{
    return (lw_reading){v->given, v->number};
}

static void put(lw_value *out, lw_reading r)
{
    if (r.given)
        *out = lw_value_number(r.value);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[TIMES].count != in[VOLTS].count)
        return lw_fail(err, LW_WRONG_INPUT, "volts_v", "volts_v has %zu values, times_s %zu; each reading has both.",
                       in[VOLTS].count, in[TIMES].count);
    const lw_test_class *class = lw_test_class_find(in[CLASS].text);
    const lw_resistor_run r = {
        .load_ohm = in[LOAD].number,
        .load_tolerance_pct = in[TOLERANCE].number,
        .lead_ohm = in[LEAD].number,
        .lead_tolerance_ohm = in[LEAD_TOLERANCE].number,
        .meter_on_load = strcmp(in[METER_ON].text, "resistor") == 0,
        .times_s = in[TIMES].list,
        .volts_v = in[VOLTS].list,
        .n = in[VOLTS].count,
        .connected_s = maybe(&in[CONNECTED]),
        .open_before_v = maybe(&in[BEFORE]),
        .open_after_v = maybe(&in[AFTER]),
        .open_after_s = in[AFTER_S].number,
        .end_v = in[END_V].given ? in[END_V].number : class->end_v,
        .rate_a = maybe(&in[RATE]),
        .temp_c = in[TEMP].number,
        .clock_s = in[CLOCK].number,
        .meter = {in[PERCENT].number, in[DIGITS].number, in[STEP].number},
        .class = class,
    };
    lw_resistor_result result;
    if (!lw_resistor_discharge(&r, &result, err))
        return false;
    out[DRAWN_AH] = lw_value_number(result.drawn_ah);
    out[DRAWN_WH] = lw_value_number(result.drawn_wh);
    out[CAPACITY] = lw_value_number(result.capacity_ah);
    out[CAPACITY_SD] = lw_value_number(result.capacity_sd_ah);
    put(&out[R10], result.resistance_10s_ohm);
    put(&out[R10_SD], result.resistance_10s_sd_ohm);
    put(&out[R_END], result.resistance_end_ohm);
    out[RATE_USED] = lw_value_number(result.rate_a);
    out[CORRECTION] = lw_value_number(result.correction_ah);
    out[REMAINING] = lw_value_number(result.remaining_ah);
    out[FINISHED] = lw_value_flag(result.finished);
    return true;
}

const lw_figure lw_fig_resistor_discharge = {
    .name = "resistor_discharge",
    .room = "cell",
    .summary = "Charge, energy, capacity and resistance of a cell from a discharge through a resistor.",
    .source =
        "charge and energy integrals of V/R between readings; first-order restating to a small current; uncertainty "
        "by JCGM 100:2008",
    .limits =
        "Start from a full cell. The restating is first order and cut at 5 % of the charge; a run stopped early is "
        "completed from typical curves with a wider uncertainty.",
    .caution = "The resistor gets hot. Never leave a discharge alone: a forgotten resistor empties the cell below its "
               "floor (2.5 V, LFP 2.0 V) and ruins it. Use an under-voltage cut-off; no phone and no program is one.",
    .example = "load_ohm=4 times_s=0,1800,3600,5400,7200,8100 volts_v=4.02,3.80,3.64,3.54,3.34,3.00 open_before_v=4.12 "
               "open_after_v=3.12 end_v=3.0 rate_a=0.44",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
