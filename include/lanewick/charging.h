/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Charging limits of a pack, its temperature window, and what a trial of the wired charger tells.
 */
#ifndef LANEWICK_CHARGING_H
#define LANEWICK_CHARGING_H

#include "lanewick/error.h"

#include <stddef.h>

/* Voltage classes whose charge voltage is known; an unknown class is never charged. */
typedef enum lw_charge_class { LW_CHARGE_4V2, LW_CHARGE_4V35, LW_CHARGE_LFP } lw_charge_class;
#define LW_CHARGE_CLASS_WORDS "4v2|4v35|lfp"

typedef struct lw_charge_limits {
    double full_v;       /* constant voltage of a cell, as set */
    double full_worst_v; /* the same at the end of the charger's tolerance */
    double hard_v;       /* no cell of this class may ever pass it (DESIGN section 6) */
    double precharge_v;  /* below it a tenth of the current */
    double recharge_v;   /* starts again below it */
    double empty_v;      /* the lamp's own cut-off, under load */
    double empty_back_v; /* and where it comes back */
    double floor_v;      /* no cell may fall below it in use */
} lw_charge_limits;

/* Per cell. long_life sets 4.10 V (LFP 3.45 V). 4v35 cells are charged like 4v2: what is reclaimed has lost its
 * papers. tolerance is that of the charger's voltage as a part of one. */
lw_charge_limits lw_charge_limits_for(lw_charge_class kind, bool long_life, double tolerance);
/* The lamp goes off at empty_v instead, and comes back at least 0.3 V above it (common practice). */
void lw_charge_limits_end_at(lw_charge_limits *limits, double empty_v);
/* LW_REFUSED when the tolerance passes hard_v. */
LW_MUST_CHECK bool lw_charge_limits_check(const lw_charge_limits *limits, lw_error *err);

/* Thermistor R25 exp(B (1/T - 1/298.15)), ohm at celsius. */
double lw_thermistor_ohm(double r25_ohm, double b_k, double celsius);

typedef struct lw_charger_trial {
    double efficiency, standard_error; /* energy out over energy in; scatter of the readings and the meters together */
    double input_w, output_w;          /* means */
    size_t readings;
} lw_charger_trial;

/* From n >= 3 readings of panel and pack. meter_part is the calibration error of one meter reading (0.01 = 1 %),
 * the same for all readings of a meter. Ratio of the means, its standard error by Cochran (1977), Sampling
 * Techniques, eq. 2.46, the meters' errors of four quantities added in squares. */
LW_MUST_CHECK bool lw_charger_trial_of(const double *panel_v, const double *panel_a, const double *pack_v,
                                       const double *pack_a, size_t n, double meter_part, lw_charger_trial *out,
                                       lw_error *err);

/* The trial against what was planned, with its 90 % band. */
typedef struct lw_trial_verdict {
    double low, high;
    const char *verdict;  /* "lower than planned", ... */
    const char *look_for; /* where the energy may go */
} lw_trial_verdict;
/* currents: pack's over panel's, in one reading. LW_WRONG_INPUT: more comes out than goes in. */
LW_MUST_CHECK bool lw_trial_judge(const lw_charger_trial *trial, double currents, double planned, lw_trial_verdict *out,
                                  lw_error *err);

#endif
