/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each method of testing a cell, handed to core/cell with what the test, the cell and the instruments say.
 */
#include "crate_methods.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const lw_meter lw_usual_meter = {.percent = 0.5, .digits = 2.0, .step = 0.001};

static void result(lw_test_work *work, const char *kind, double value, double sd, const char *note)
{
    if (!isfinite(value) || work->count == LW_TEST_RESULTS)
        return;
    lw_result_record *r = &work->results[work->count++];
    *r = (lw_result_record){.value = value, .sd = isfinite(sd) ? sd : NAN};
    (void)snprintf(r->kind, sizeof r->kind, "%s", kind);
    (void)snprintf(r->note, sizeof r->note, "%s", note);
}

static bool class_of(const lw_test_work *work, const lw_test_class **class, lw_error *err)
{
    *class = lw_test_class_find(work->cell.voltage_class);
    return *class != NULL ||
           lw_fail(
               err, LW_WRONG_INPUT, "voltage_class",
               "The class of %s is unknown; this test needs it. Read the marking and set it, or test the cell as 4v2 "
               "only when its marking says so.",
               work->cell.code);
}

static double or_else(double given, double otherwise)
{
    return isnan(given) ? otherwise : given;
}

static bool needs(bool there, const char *what, lw_error *err)
{
    return there || lw_fail(err, LW_WRONG_INPUT, what, "This method needs %s.", what);
}

static bool compute_resistor(lw_test_work *work, lw_error *err)
{
    const lw_cell_test *t = work->test;
    const lw_test_class *class;
    if (!needs(t->times_s && t->volts_v, "times and volts", err) || !needs(!isnan(work->load_ohm), "load (ohm)", err) ||
        !class_of(work, &class, err))
        return false;
    const lw_resistor_run run = {.load_ohm = work->load_ohm,
                                 .load_tolerance_pct = work->load_tolerance_pct,
                                 .lead_ohm = or_else(t->lead_ohm, 0.0),
                                 .times_s = t->times_s,
                                 .volts_v = t->volts_v,
                                 .n = t->n,
                                 .open_before_v = t->open_before_v,
                                 .open_after_v = t->open_after_v,
                                 .open_after_s = t->open_after_s,
                                 .end_v = or_else(t->end_v, class->end_v),
                                 .rate_a = {.given = !isnan(t->rate_a), .value = t->rate_a},
                                 .temp_c = or_else(t->temp_c, 25.0),
                                 .clock_s = or_else(t->clock_s, 5.0),
                                 .meter = work->meter,
                                 .class = class};
    lw_resistor_result out;
    if (!lw_resistor_discharge(&run, &out, err))
        return false;
    result(work, "capacity_ah", out.capacity_ah, out.capacity_sd_ah,
           out.finished ? "at 0.2 C and 25 degC"
                        : "at 0.2 C and 25 degC; the run stopped early, the rest is estimated");
    result(work, "drawn_ah", out.drawn_ah, NAN, "");
    result(work, "drawn_wh", out.drawn_wh, NAN, "");
    if (out.resistance_10s_ohm.given)
        result(work, "resistance_10s_ohm", out.resistance_10s_ohm.value, out.resistance_10s_sd_ohm.value, "");
    if (out.resistance_end_ohm.given)
        result(work, "resistance_end_ohm", out.resistance_end_ohm.value, NAN, "empty cell");
    return true;
}

/* The latest resistance of the cell, or what an untested reclaimed cell may have (from memory: 60 to 150 mohm). */
typedef struct found_ohm {
    double ohm, sd;
} found_ohm;
static bool latest_ohm(void *payload, const void *record)
{
    const lw_result_record *r = record;
    found_ohm *f = payload;
    if (strcmp(r->kind, "resistance_10s_ohm") == 0 && !isnan(r->sd))
        *f = (found_ohm){r->value, r->sd};
    return true;
}

static bool restated(lw_test_work *work, double read_ah, double sd_ah, double from_a, double from_end_v,
                     const char *note, lw_error *err)
{
    const lw_test_class *class;
    found_ohm f = {0.1, 0.03};
    if (!class_of(work, &class, err) ||
        !lw_store_each(work->store, LW_RESULTS, "cell", work->cell.id, latest_ohm, &f, err))
        return false;
    const lw_restate ask = {.capacity_ah = read_ah,
                            .capacity_sd_ah = sd_ah,
                            .from_a = from_a,
                            .from_end_v = from_end_v,
                            .from_c = or_else(work->test->temp_c, 25.0),
                            .to_a = 0.2 * read_ah,
                            .to_end_v = class->end_v,
                            .resistance_ohm = f.ohm,
                            .resistance_sd_ohm = f.sd,
                            .class = class};
    double capacity, sd;
    if (!lw_capacity_restated(&ask, &capacity, &sd, err))
        return false;
    result(work, "capacity_ah", capacity, sd, note);
    return true;
}

static bool compute_log(lw_test_work *work, lw_error *err)
{
    const lw_cell_test *t = work->test;
    const lw_test_class *class;
    if (!needs(t->times_s && t->volts_v && t->amps_a, "times, volts and amps", err) || !class_of(work, &class, err))
        return false;
    const double end_v = or_else(t->end_v, class->end_v);
    lw_log_charge out;
    if (!lw_log_capacity(&(lw_log){t->times_s, t->volts_v, t->amps_a, t->n}, end_v, &out, err))
        return false;
    result(work, "drawn_ah", out.drawn_ah, NAN, out.reached ? "" : "the end voltage was not reached");
    result(work, "drawn_wh", out.drawn_wh, NAN, "");
    if (!out.reached || out.drawn_ah <= 0.0)
        return true;
    /* the current is read with the meter's percentage at least; 1 % where it is not better (common practice) */
    const double share = fmax(work->meter.percent, 1.0) / 100.0 / sqrt(3.0);
    return restated(work, out.drawn_ah, share * out.drawn_ah, out.mean_a, end_v, "log, at 0.2 C and 25 degC", err);
}

static bool compute_pulse(lw_test_work *work, lw_error *err)
{
    const lw_cell_test *t = work->test;
    if (!needs(t->times_s && t->volts_v && t->amps_a, "times, volts and amps", err))
        return false;
    lw_pulse out;
    if (!lw_pulse_resistance(&(lw_log){t->times_s, t->volts_v, t->amps_a, t->n}, 10.0, &out, err))
        return false;
    /* one meter reads both voltages: its percentage stays with the difference, its digits count twice */
    const double digits_v = work->meter.digits * work->meter.step * sqrt(2.0 / 3.0);
    const double sd = hypot(digits_v / fabs(out.step_a), out.resistance_ohm * work->meter.percent / 100.0);
    result(work, "resistance_10s_ohm", out.resistance_ohm, sd, "");
    if (out.at_2s_ohm.given)
        result(work, "resistance_2s_ohm", out.at_2s_ohm.value, sd, "");
    if (out.at_20s_ohm.given)
        result(work, "resistance_20s_ohm", out.at_20s_ohm.value, sd, "");
    if (out.fitted) {
        result(work, "r0_ohm", out.r0_ohm, NAN, "");
        result(work, "r1_ohm", out.r1_ohm, NAN, "");
        result(work, "tau_s", out.tau_s, NAN, "");
    }
    return true;
}

static bool compute_two_pulse(lw_test_work *work, lw_error *err)
{
    const lw_cell_test *t = work->test;
    double ohm, sd;
    if (!needs(!isnan(t->pulse_v[1]) && !isnan(t->pulse_a[1]), "volts U1,U2 and amps I1,I2", err) ||
        !lw_resistance_two_pulse(t->pulse_v[0], t->pulse_a[0], t->pulse_v[1], t->pulse_a[1], &work->meter, &ohm, &sd,
                                 err))
        return false;
    result(work, "resistance_10s_ohm", ohm, sd, "two loads, as in IEC 61960-3");
    return true;
}

static bool compute_rest(lw_test_work *work, lw_error *err)
{
    enum { MOST = 200 };
    const lw_cell_test *t = work->test;
    const lw_test_class *class;
    double days[MOST];
    if (!needs(t->times_s && t->volts_v && t->n <= MOST, "times and volts (at most 200)", err) ||
        !class_of(work, &class, err) || !lw_cell_volts("volts", t->volts_v, t->n, err))
        return false;
    for (size_t i = 0; i < t->n; i++)
        days[i] = t->times_s[i] / 86400.0;
    if (t->n < 2)
        return true; /* kept; the verdict puts it together with other readings */
    lw_rest_result out;
    if (!lw_self_discharge(days, t->volts_v, t->n, &work->meter, or_else(t->capacity_ah, 2.0), class, &out, err))
        return false;
    result(work, "leak_mv_day", out.k_mv_per_day, out.k_sd_mv_per_day, "");
    result(work, "self_discharge_pct", out.pct_per_month, out.pct_sd,
           out.pct_per_month < -out.pct_sd ? "a month: the voltage still rises after use; rest it longer and read again"
                                           : "of the capacity in 30 days");
    return true;
}

/* The voltage 24 h after a full charge to the class's end. */
static bool compute_hold(lw_test_work *work, lw_error *err)
{
    const lw_cell_test *t = work->test;
    if (!needs(t->volts_v && t->n == 1, "volts: one reading 24 h after a full charge", err) ||
        !lw_cell_volts("volts", t->volts_v, t->n, err))
        return false;
    result(work, "rest_24h_v", t->volts_v[0], lw_meter_sd(&work->meter, t->volts_v[0]), "24 h after a full charge");
    return true;
}

/* Chargers show mAh and mA: 2100 typed for 2.1. The most is that of a cell when new (format/cell_check.c). */
static bool not_in_thousandths(const char *name, double value, const char *unit, lw_error *err)
{
    static const double most = 60.0;
    if (value <= most)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, name, "%s is %g %s; one cell has at most %g %s. Did you mean %.3g %s (%g m%s)?",
                   name, value, unit, most, unit, value / 1000.0, unit, value, unit);
}

static bool compute_charger(lw_test_work *work, lw_error *err)
{
    const lw_cell_test *t = work->test;
    const lw_test_class *class;
    if (!needs(!isnan(t->capacity_ah) && !isnan(t->current_a), "capacity (Ah) and current (A)", err) ||
        !not_in_thousandths("capacity", t->capacity_ah, "Ah", err) ||
        !not_in_thousandths("current", t->current_a, "A", err) || !class_of(work, &class, err))
        return false;
    /* a charger's counter: 3 % (from memory of such chargers; none states it) */
    return restated(work, t->capacity_ah, 0.03 * t->capacity_ah, t->current_a, or_else(t->end_v, class->end_v),
                    "read off a charger, at 0.2 C and 25 degC", err);
}

static bool compute_flag(lw_test_work *work, lw_error *err)
{
    static const char *const flags[] = {"hot_on_charge", "no_taper", "recovered", "open_circuit"};
    for (size_t i = 0; work->test->flag && i < sizeof flags / sizeof flags[0]; i++)
        if (strcmp(work->test->flag, flags[i]) == 0) {
            result(work, flags[i], 1.0, NAN, "");
            return true;
        }
    return lw_fail(err, LW_WRONG_INPUT, "flag", "flag must be hot_on_charge, no_taper, recovered or open_circuit.");
}

bool lw_test_compute(lw_test_work *work, lw_error *err)
{
    static const struct {
        const char *method;
        bool (*compute)(lw_test_work *work, lw_error *err);
    } methods[] = {{"resistor", compute_resistor},   {"log", compute_log},   {"pulse", compute_pulse},
                   {"two_pulse", compute_two_pulse}, {"rest", compute_rest}, {"hold", compute_hold},
                   {"charger", compute_charger},     {"flag", compute_flag}};
    for (size_t i = 0; i < sizeof methods / sizeof methods[0]; i++)
        if (strcmp(methods[i].method, work->test->method) == 0)
            return methods[i].compute(work, err);
    return lw_fail(err, LW_WRONG_INPUT, "method",
                   "method is \"%.20s\"; it must be resistor, log, pulse, two_pulse, rest, hold, charger or flag.",
                   work->test->method);
}
