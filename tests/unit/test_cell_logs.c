/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Real logs of two NMC 18650 cells and model-made resistor runs (tests/data/cells/README.md), and whether stated
 * uncertainties hold what they promise on synthetic truth.
 */
#include "lanewick/cell_test.h"
#include "lanewick/rng.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { MOST = 4000, COLUMNS = 6 };

typedef struct table {
    double t[MOST], v[MOST], a[MOST];
    size_t n;
} table;

static FILE *open_data(const char *name)
{
    char path[400];
    (void)snprintf(path, sizeof path, "%s/tests/data/cells/%s", LW_SOURCE_DIR, name);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    return file;
}

/* The rows of a log that begin with these words; time, volts, amperes stand from column first. */
static void read_rows(const char *name, const char *begin, int first, table *out)
{
    char line[200];
    FILE *file = open_data(name);
    out->n = 0;
    while (fgets(line, sizeof line, file)) {
        if (strncmp(line, begin, strlen(begin)) != 0)
            continue;
        const char *at = line;
        for (int c = 0; c < first; c++)
            at = strchr(at, ',') + 1;
        char *end;
        out->t[out->n] = strtod(at, &end);
        out->v[out->n] = strtod(end + 1, &end);
        out->a[out->n++] = strtod(end + 1, &end);
    }
    (void)fclose(file);
}

/* Published capacities of the same check-ups, by order of health; logs and check-ups are counted differently, so each
 * log must lie near one of them. */
static void log_capacities(void **state)
{
    (void)state;
    static const double published[] = {1.8341, 1.7820, 1.7396, 1.6892, 1.6400, 1.6024, 1.5505, 1.4792, 1.2810};
    static table log;
    for (int k = 0; k <= 8; k++) {
        char begin[40];
        (void)snprintf(begin, sizeof begin, "%d,discharge", k);
        read_rows("nmc18650_log_N030_1C.csv", begin, 2, &log);
        const lw_log l = {log.t, log.v, log.a, log.n};
        lw_log_charge c;
        lw_error err = {0};
        assert_true(lw_log_capacity(&l, 3.0, &c, &err));
        assert_true(c.reached);
        double nearest = HUGE_VAL;
        for (size_t i = 0; i < sizeof published / sizeof published[0]; i++)
            nearest = fmin(nearest, fabs(published[i] - c.drawn_ah));
        assert_true(nearest < 0.02 * c.drawn_ah);
    }
}

/* 10 s resistance at 1 C and half charge of N030: 47.3 mohm when new; rises with every check-up to about 1.5 times. */
static void pulse_resistances(void **state)
{
    (void)state;
    static table log;
    double before = 0.0;
    for (int k = 0; k <= 9; k++) {
        char begin[40];
        (void)snprintf(begin, sizeof begin, "%d,50,1.0,", k);
        read_rows("nmc18650_log_N030_pulses.csv", begin, 3, &log);
        const lw_log l = {log.t, log.v, log.a, log.n};
        lw_pulse p;
        lw_error err = {0};
        assert_true(lw_pulse_resistance(&l, 10.0, &p, &err));
        assert_true(p.resistance_ohm > before - 0.001);
        before = p.resistance_ohm;
        if (k == 0)
            assert_true(fabs(p.resistance_ohm - 0.0473) < 0.002);
        assert_true(p.at_2s_ohm.given && p.at_20s_ohm.given);
        /* published for this set: 2 s is 0.84 to 0.87 of 10 s; 20 s 1.1 to 1.15 */
        assert_true(p.at_2s_ohm.value / p.resistance_ohm > 0.80 && p.at_2s_ohm.value / p.resistance_ohm < 0.91);
        assert_true(p.at_20s_ohm.value / p.resistance_ohm > 1.07 && p.at_20s_ohm.value / p.resistance_ohm < 1.18);
        assert_true(p.fitted && p.tau_s > 5.0 && p.tau_s < 60.0);
    }
    assert_true(before > 1.45 * 0.0473 && before < 1.65 * 0.0473);
    /* a log that begins when most of the step is over tells nothing */
    read_rows("nmc18650_log_N043_pulses.csv", "7,50,1.0,", 3, &log);
    const lw_log l = {log.t, log.v, log.a, log.n};
    lw_pulse p;
    lw_error err = {0};
    assert_false(lw_pulse_resistance(&l, 10.0, &p, &err));
    assert_int_equal(err.family, LW_NOT_COMPUTABLE);
}

static lw_resistor_run usual_run(const table *log, double load_ohm)
{
    return (lw_resistor_run){.load_ohm = load_ohm,
                             .load_tolerance_pct = 1.0,
                             .lead_tolerance_ohm = 0.02,
                             .times_s = log->t,
                             .volts_v = log->v,
                             .n = log->n,
                             .open_after_s = 60.0,
                             .end_v = 3.0,
                             .temp_c = 25.0,
                             .clock_s = 5.0,
                             .meter = {0.5, 2.0, 0.001},
                             .class = lw_test_class_find("4v2")};
}

static void read_resistor_log(int number, table *log, double *before, double *after)
{
    char line[100];
    FILE *file = open_data("constant_resistor_logs_model_made.csv");
    log->n = 0;
    *before = 0.0;
    while (fgets(line, sizeof line, file)) {
        char *end;
        if (strtol(line, &end, 10) != number || *end != ',')
            continue;
        const bool open = strncmp(end + 1, "open", 4) == 0;
        const double t = strtod(strchr(end + 1, ',') + 1, &end), v = strtod(end + 1, NULL);
        if (open && *before == 0.0)
            *before = v;
        else if (open)
            *after = v;
        else {
            log->t[log->n] = t;
            log->v[log->n++] = v;
        }
    }
    (void)fclose(file);
}

/* Truth of the four runs: charge within 0.1 %, restated capacity within 0.15 %, 10 s resistance within 3 mohm; and
 * broken off after a half the truth lies within two standard uncertainties. */
static void resistor_runs(void **state)
{
    (void)state;
    static const double truth[][4] = {{3.9, 1.8377, 1.8443, 0.0487},
                                      {3.9, 1.6828, 1.6948, 0.0591},
                                      {5.6, 1.5568, 1.5624, 0.0655},
                                      {3.9, 1.3844, 1.3963, 0.0689}};
    static table log;
    for (int k = 0; k < 4; k++) {
        double before, after = 0.0;
        read_resistor_log(k + 1, &log, &before, &after);
        lw_resistor_run run = usual_run(&log, truth[k][0]);
        run.lead_ohm = 0.06;
        run.open_before_v = (lw_reading){true, before};
        run.open_after_v = (lw_reading){true, after};
        run.rate_a = (lw_reading){true, 0.37};
        lw_resistor_result r;
        lw_error err = {0};
        assert_true(lw_resistor_discharge(&run, &r, &err));
        assert_true(r.finished);
        assert_true(fabs(r.drawn_ah / truth[k][1] - 1.0) < 0.001);
        assert_true(fabs(r.capacity_ah / truth[k][2] - 1.0) < 0.0015);
        assert_true(fabs(r.resistance_10s_ohm.value - truth[k][3]) < 0.003);
        assert_true(r.capacity_sd_ah > 0.003 * r.capacity_ah && r.capacity_sd_ah < 0.02 * r.capacity_ah);
        const double finished_sd = r.capacity_sd_ah;
        for (size_t n = log.n / 2; n < log.n - 2; n += 3) {
            run.n = n;
            run.open_after_v.given = false;
            assert_true(lw_resistor_discharge(&run, &r, &err));
            assert_false(r.finished);
            assert_true(r.capacity_sd_ah > finished_sd);
            assert_true(fabs(r.capacity_ah - truth[k][2]) < 2.0 * r.capacity_sd_ah);
        }
    }
}

/* One cell as it is, and what its resistor run gives: open voltage on the LCO curve, one resistance. */
typedef struct truth {
    double capacity_ah, ohm; /* between full and empty of the curve */
} truth;

static double drawn_at(const truth *cell, double amps, double end_v)
{
    const lw_cell_curve *curve = lw_test_class_find("4v2")->curves[1];
    return cell->capacity_ah * (1.0 - lw_curve_charge(curve, end_v + amps * cell->ohm));
}

/* A reading every five minutes, a last one when the end voltage is reached. */
static void discharge(const truth *cell, double loop_ohm, double end_v, table *log)
{
    const lw_cell_curve *curve = lw_test_class_find("4v2")->curves[1];
    double charge = 1.0, next = 10.0;
    log->n = 0;
    for (double t = 0.0; log->n < MOST; t += 1.0) {
        const double v = lw_curve_v(curve, charge) / (1.0 + cell->ohm / loop_ohm);
        if (t >= next || v <= end_v) {
            log->t[log->n] = t;
            log->v[log->n++] = v;
            next += 300.0;
        }
        if (v <= end_v)
            return;
        charge -= v / loop_ohm / 3600.0 / cell->capacity_ah;
    }
}

static double within(lw_rng *rng, double limit)
{
    return limit * (2.0 * lw_rng_uniform(rng) - 1.0);
}

/* Instruments wrong by any amount inside their sheets: the 90 % band holds the truth at least as often as it says and
 * is not twice as wide as it must be. */
static void coverage_of_capacity(void **state)
{
    (void)state;
    enum { TRIALS = 600 };
    static table log;
    lw_rng rng = lw_rng_stream(3, 1, 4);
    int held = 0;
    double square = 0.0;
    for (int k = 0; k < TRIALS; k++) {
        const truth cell = {1.2 + 1.2 * lw_rng_uniform(&rng), 0.05 + 0.06 * lw_rng_uniform(&rng)};
        const double load = 4.0 * (1.0 + within(&rng, 0.01)), lead = 0.06 + within(&rng, 0.02);
        discharge(&cell, load + lead, 3.0, &log);
        const double gain = 1.0 + within(&rng, 0.005), offset = within(&rng, 0.002);
        for (size_t i = 0; i < log.n; i++)
            log.v[i] = round((log.v[i] * gain + offset) * 1000.0) / 1000.0;
        if (log.t[log.n - 1] - log.t[log.n - 2] > 15.0)
            log.t[log.n - 1] += within(&rng, 5.0);
        lw_resistor_run run = usual_run(&log, 4.0);
        run.lead_ohm = 0.06;
        run.rate_a = (lw_reading){true, 0.4};
        run.open_after_v = (lw_reading){true, log.v[log.n - 1] * (1.0 + cell.ohm / 4.06)};
        lw_resistor_result r;
        lw_error err = {0};
        assert_true(lw_resistor_discharge(&run, &r, &err));
        const double z = (r.capacity_ah - drawn_at(&cell, 0.4, 3.0)) / r.capacity_sd_ah;
        held += fabs(z) < 1.645;
        square += z * z / TRIALS;
    }
    if (held < TRIALS * 85 / 100 || square < 0.25)
        fail_msg("the 90 %% band held %d of %d, mean square %.2f", held, TRIALS, square);
}

/* A self-discharge line with noise of one digit: the band holds the truth about as often as it says. */
static void coverage_of_leak(void **state)
{
    (void)state;
    enum { TRIALS = 2000 };
    lw_rng rng = lw_rng_stream(5, 1, 4);
    const lw_meter meter = {0.5, 1.0, 0.001};
    int held = 0;
    for (int k = 0; k < TRIALS; k++) {
        const double leak = 0.0025 * lw_rng_uniform(&rng);
        static const double days[] = {3, 6, 10, 17};
        double v[4];
        for (int i = 0; i < 4; i++)
            v[i] = round((4.18 - leak * (days[i] - 3) + within(&rng, 0.001)) * 1000.0) / 1000.0;
        lw_rest_result r;
        lw_error err = {0};
        assert_true(lw_self_discharge(days, v, 4, &meter, 2.0, lw_test_class_find("4v2"), &r, &err));
        held += fabs(r.k_mv_per_day - 1000.0 * leak) < 1.645 * r.k_sd_mv_per_day;
    }
    if (held < TRIALS * 84 / 100 || held > TRIALS * 98 / 100)
        fail_msg("the 90 %% band held %d of %d", held, TRIALS);
}

/* Curves must rise. */
static void curves_rise(void **state)
{
    (void)state;
    static const char *const names[] = {"4v2", "4v35", "lfp"};
    for (int k = 0; k < 3; k++) {
        const lw_test_class *class = lw_test_class_find(names[k]);
        for (size_t c = 0; c < class->curve_count; c++)
            for (int i = 1; i < LW_CLASS_POINTS; i++) {
                assert_true(class->curves[c]->points[i].v > class->curves[c]->points[i - 1].v);
                assert_true(class->curves[c]->points[i].charge > class->curves[c]->points[i - 1].charge);
            }
        for (double v = class->end_v + 0.3; v < class->full_v; v += 0.013) {
            const double charge = lw_curve_charge(class->curves[0], v);
            assert_true(fabs(lw_curve_v(class->curves[0], charge) - v) < 1e-9);
        }
    }
    assert_null(lw_test_class_find("lead"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(log_capacities),       cmocka_unit_test(pulse_resistances), cmocka_unit_test(resistor_runs),
        cmocka_unit_test(coverage_of_capacity), cmocka_unit_test(coverage_of_leak),  cmocka_unit_test(curves_rise),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
