/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tests that a poor bench can do - a voltmeter, a resistor, a clock - turned into charge, capacity, resistance
 * and self-discharge, each with its standard uncertainty. docs/models/cell-tests.md.
 *
 * Units: volt, ampere (discharge positive), ohm, second, ampere-hour, degree Celsius. A single cell reads
 * 0 to 4.6 V; anything else is refused with a guess of what was meant (42.0 for 4.20, 3712 for 3.712).
 * Standard uncertainties (sd) follow JCGM 100:2008 (GUM): a limit +-a counts as a / sqrt(3).
 */
#ifndef LANEWICK_CELL_TEST_H
#define LANEWICK_CELL_TEST_H

#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>

/* --- what a test must know of the voltage class ------------------------------------------------------------- */

enum { LW_CLASS_POINTS = 71, LW_CLASS_CURVES = 3 };

typedef struct lw_cell_curve {
    const char *name;
    struct {
        double charge, v; /* share of charge 0..1, open voltage; both rising */
    } points[LW_CLASS_POINTS];
} lw_cell_curve;

/* Share of charge at an open voltage; straight on with the slope of the last tenth above the table (a class charged
 * higher than the measured cell), clamped to 0 below. */
double lw_curve_charge(const lw_cell_curve *curve, double open_v);
double lw_curve_v(const lw_cell_curve *curve, double charge); /* inverse; clamped at 0 */

typedef struct lw_test_class {
    const char *name;               /* 4v2, 4v35, lfp */
    double full_v;                  /* end of charge of the capacity test */
    double end_v;                   /* usual end of discharge: 3.0 V; LFP 2.5 V */
    double floor_v;                 /* never below: 2.5 V; LFP 2.0 V */
    double flat_low_v, flat_high_v; /* between them resting voltage says nothing (LFP); 0, 0: nowhere */
    const lw_cell_curve *curves[LW_CLASS_CURVES];
    size_t curve_count;
} lw_test_class;
const lw_test_class *lw_test_class_find(const char *name); /* NULL for unknown */

/* --- readings ------------------------------------------------------------------------------------------------ */

/* Percentage of the reading plus digits of the last place, as on the instrument's sheet. */
typedef struct lw_meter {
    double percent, digits, step; /* step: value of one digit, in the unit of the reading */
} lw_meter;
double lw_meter_limit(const lw_meter *meter, double reading); /* +- limit */
double lw_meter_sd(const lw_meter *meter, double reading);    /* limit / sqrt(3) */

typedef struct lw_reading {
    bool given;
    double value;
} lw_reading;

/* True when every voltage can be one cell's; else the error names volts[i] and guesses what was meant. */
LW_MUST_CHECK bool lw_cell_volts(const char *field, const double *volts_v, size_t n, lw_error *err);
/* True when the times never go back (strict: always go forward). */
LW_MUST_CHECK bool lw_times_forward(const char *field, const double *times_s, size_t n, bool strict, lw_error *err);

/* --- constant-resistor discharge ----------------------------------------------------------------------------- */

typedef struct lw_resistor_run {
    double load_ohm, load_tolerance_pct; /* tolerance, or that of the ohmmeter that measured it */
    double lead_ohm, lead_tolerance_ohm;
    bool meter_on_load; /* voltmeter across the resistor; else across the cell */
    const double *times_s, *volts_v;
    size_t n;               /* >= 2 */
    lw_reading connected_s; /* when the load was connected; not given: 0 if the first reading is within 900 s of 0,
                               else the first reading */
    lw_reading open_before_v, open_after_v;
    double open_after_s; /* seconds after disconnecting; a value beyond the last time is taken as clock time */
    double end_v;        /* loaded voltage at which the capacity is counted */
    lw_reading rate_a;   /* current of the restated capacity; not given: 0.2 C of the result */
    double temp_c;       /* of the cell during the run */
    double clock_s;      /* +- limit of the time readings at the start and the end */
    lw_meter meter;
    const lw_test_class *class;
} lw_resistor_run;

typedef struct lw_resistor_result {
    double drawn_ah, drawn_wh;            /* whole log */
    double capacity_ah, capacity_sd_ah;   /* to end_v at rate_a and 25 degC */
    double rate_a;                        /* the current it is restated to */
    double correction_ah;                 /* for the current */
    double remaining_ah, remaining_sd_ah; /* added because the run stopped above end_v; 0 when finished */
    double temperature_factor;            /* capacity at 25 degC / at temp_c */
    bool finished;
    lw_reading resistance_10s_ohm, resistance_10s_sd_ohm; /* needs open_before and a reading in the first 60 s */
    lw_reading resistance_end_ohm;                        /* needs open_after */
} lw_resistor_result;

/* Errors: fewer than two readings, times that go back, loaded voltage that rises by more than 30 mV, no real cell
 * voltage, a run that drew too little to tell the rest (LW_NOT_COMPUTABLE). */
LW_MUST_CHECK bool lw_resistor_discharge(const lw_resistor_run *run, lw_resistor_result *out, lw_error *err);

/* --- logs ---------------------------------------------------------------------------------------------------- */

typedef struct lw_log {
    const double *times_s, *volts_v, *amps_a; /* discharge positive */
    size_t n;
} lw_log;

typedef struct lw_log_charge {
    double drawn_ah, drawn_wh; /* negative when the log is a charge */
    double end_s;              /* where it was cut */
    double mean_a;
    bool reached; /* end_v was reached */
} lw_log_charge;
/* Charge and energy to the first crossing of end_v (downwards in a discharge; a charge is counted to its end).
 * Straight lines between the samples: charge by trapezoids, energy as the exact integral of the product. */
LW_MUST_CHECK bool lw_log_capacity(const lw_log *log, double end_v, lw_log_charge *out, lw_error *err);

typedef struct lw_pulse {
    double resistance_ohm;  /* at at_s after the step */
    double step_a, start_s; /* the current step and when it began */
    double length_s;        /* how long the current was held */
    lw_reading at_2s_ohm, at_10s_ohm, at_20s_ohm;
    bool fitted;                  /* the RC pair below exists: at least 6 samples over at least 2 s */
    double r0_ohm, r1_ohm, tau_s; /* V = V0 - I (r0 + r1 (1 - exp(-t / tau))) */
} lw_pulse;
LW_MUST_CHECK bool lw_pulse_resistance(const lw_log *log, double at_s, lw_pulse *out, lw_error *err);

/* IEC 61960-3, d.c. resistance: (u1 - u2) / (i2 - i1). */
LW_MUST_CHECK bool lw_resistance_two_pulse(double u1_v, double i1_a, double u2_v, double i2_a, const lw_meter *meter,
                                           double *ohm, double *sd_ohm, lw_error *err);

/* --- other tests --------------------------------------------------------------------------------------------- */

/* A capacity read off some charger, restated. */
typedef struct lw_restate {
    double capacity_ah, capacity_sd_ah; /* as read */
    double from_a, from_end_v, from_c;
    double to_a, to_end_v;                    /* at 25 degC */
    double resistance_ohm, resistance_sd_ohm; /* of the cell, slow (a minute or more) */
    const lw_test_class *class;
} lw_restate;
LW_MUST_CHECK bool lw_capacity_restated(const lw_restate *ask, double *capacity_ah, double *sd_ah, lw_error *err);

typedef struct lw_rest_result {
    double k_mv_per_day; /* leakage part of the fall; positive when the voltage falls */
    double k_sd_mv_per_day;
    double pct_per_month; /* of the capacity in 30 days */
    double pct_sd;
    double leak_ua;         /* steady current that explains it */
    double relaxation_v;    /* fall that is relaxation after the charge, 0 when not told apart */
    double relaxation_days; /* its time constant */
    size_t used;            /* readings that the leakage line rests on */
} lw_rest_result;
LW_MUST_CHECK bool lw_self_discharge(const double *days_d, const double *volts_v, size_t n, const lw_meter *meter,
                                     double capacity_ah, const lw_test_class *class, lw_rest_result *out,
                                     lw_error *err);

typedef struct lw_join {
    double current_a;            /* at the moment of joining, from the higher to the lower cell */
    double allowed_difference_v; /* smaller of 0.05 V and what keeps the current below limit_a */
    double charge_moved_ah;      /* until both stand alike, 0 without capacities */
    bool allowed;
} lw_join;
LW_MUST_CHECK bool lw_equalising_current(const double open_v[2], const double ohm[2], const double capacity_ah[2],
                                         double path_ohm, double limit_a, const lw_test_class *class, lw_join *out,
                                         lw_error *err);

typedef struct lw_meter_check {
    double spread_v, allowed_v; /* greatest difference; what the meters' sheets allow */
    bool agree;
    int suspect;     /* which one lies, from 1; 0: none, or it cannot be told */
    bool reads_high; /* the suspect reads too high, as with a weak battery in the meter */
    const char *advice;
} lw_meter_check;
enum { LW_MAX_METERS = 8 };
/* cell_v[i]: meter i on the same resting cell; fresh_v (may be NULL): the same on one fresh alkaline cell,
 * 1.55 to 1.65 V open (common practice). */
LW_MUST_CHECK bool lw_meters_compare(const double *cell_v, const double *fresh_v, size_t n, const lw_meter *meter,
                                     lw_meter_check *out, lw_error *err);

#endif
