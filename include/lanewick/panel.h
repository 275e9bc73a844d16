/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A photovoltaic panel: five-parameter one-diode model from the label, or plain rated watts; translation to
 * any irradiance and cell temperature; the curve, its maximum, the current at a voltage; dirt on the glass.
 * Model: De Soto, Klein & Beckman (2006), Solar Energy 80, 78. Method and limits: docs/models/panel.md.
 *
 *     lw_panel_label label = {.voc_v = 21.6, .isc_a = 1.24, .vmp_v = 17.6, .imp_a = 1.14, .cells = 36,
 *                             .isc_temp_a_per_k = NAN, .voc_temp_v_per_k = NAN};
 *     lw_diode d;
 *     lw_panel_fit fit;
 *     if (lw_panel_from_label(&label, &d, &fit, &err)) {
 *         lw_diode_point p = lw_diode_max_power(lw_diode_at(&d, 800.0, 47.0));
 */
#ifndef LANEWICK_PANEL_H
#define LANEWICK_PANEL_H

#include "lanewick/dust.h"
#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>

/* I = photo_a - saturation_a (exp((V + I series_ohm)/ideality_v) - 1) - (V + I series_ohm)/shunt_ohm.
 * ideality_v = n cells kT/q. As a panel's description the values hold at 25 degC and 1000 W/m2. */
typedef struct lw_diode {
    double photo_a, saturation_a, ideality_v, series_ohm, shunt_ohm;
    double isc_temp_a_per_k; /* at 1000 W/m2 */
    int cells;               /* in series; 0: not known */
} lw_diode;

/* What the label says at 1000 W/m2, 25 degC. NAN in a temperature coefficient: the usual value of
 * crystalline silicon, +0.05 % of Isc and -0.34 % of Voc per kelvin (from memory, typical). */
typedef struct lw_panel_label {
    double voc_v, isc_a, vmp_v, imp_a;
    double isc_temp_a_per_k, voc_temp_v_per_k;
    int cells; /* in series, 1..200 */
} lw_panel_label;

typedef enum lw_panel_fit {
    LW_FIT_FIVE,  /* all five conditions of De Soto hold */
    LW_FIT_THREE, /* the label fits no five: n = 1.2, no shunt; Isc, Voc and the point (Vmp, Imp) hold */
    LW_FIT_STEEP  /* knee too sharp even for that: no series resistance, n from the same three conditions */
} lw_panel_fit;
const char *lw_panel_fit_text(lw_panel_fit fit);

/* LW_WRONG_INPUT with the field when no diode can have this label: Vmp >= Voc, Imp >= Isc, fill factor
 * outside 0.4..0.9, voltage per cell outside 0.3..0.9 V, a temperature coefficient of the wrong sign. */
LW_MUST_CHECK bool lw_panel_from_label(const lw_panel_label *label, lw_diode *out, lw_panel_fit *fit, lw_error *err);

/* n series and m parallel panels of one kind as one. */
lw_diode lw_diode_array(const lw_diode *panel, int series, int parallel);

/* The same panel at another effective irradiance (0..2000 W/m2; below 0.01 it is dark) and cell temperature
 * (-60..120 degC). */
lw_diode lw_diode_at(const lw_diode *standard, double irradiance_w_m2, double cell_c);

typedef struct lw_diode_point {
    double v, a, w;
} lw_diode_point;
/* Current at a voltage, negative beyond the open voltage; Newton on the diode voltage, to 1e-12 A. */
double lw_diode_current_a(const lw_diode *d, double v);
double lw_diode_open_v(const lw_diode *d);
double lw_diode_short_a(const lw_diode *d);
lw_diode_point lw_diode_max_power(const lw_diode *d);
/* n >= 2 points from short to open circuit, evenly in voltage. */
void lw_diode_curve(const lw_diode *d, size_t n, double *v, double *a);

/* Current when one of the panel's cells (no bypass diode) gets only share (0..1) of the light of the others:
 * the shaded cell limits the string. At the total voltage v. */
LW_MUST_CHECK bool lw_diode_shaded_cell_a(const lw_diode *d, double share, double v, double *a, lw_error *err);

/* Readings of a panel without label. */
typedef struct lw_panel_readings {
    double voc_v, isc_a;        /* by meter in the sun */
    double load_ohm[2];         /* one or two known resistors; 0: not used */
    double load_v[2];           /* voltage over each */
    double irradiance_w_m2;     /* at the panel when it was read */
    double irradiance_band_pct; /* one standard deviation: reference panel about 3, clear-sky estimate about 10 */
    double cell_c;              /* cell temperature then */
    double cell_band_k;         /* one standard deviation, about 5 */
    int cells;
} lw_panel_readings;
typedef struct lw_panel_measured {
    lw_panel_label label; /* at standard conditions */
    lw_diode diode;
    double max_w, max_w_low, max_w_high; /* about 90 % band */
} lw_panel_measured;
LW_MUST_CHECK bool lw_panel_from_readings(const lw_panel_readings *readings, lw_panel_measured *out, lw_error *err);

typedef enum lw_panel_kind { LW_PANEL_RATED, LW_PANEL_DIODE } lw_panel_kind;
typedef struct lw_panel {
    lw_panel_kind kind;
    double rated_w;          /* RATED: one panel at 1000 W/m2 and 25 degC */
    double power_temp_per_k; /* RATED: -0.0043 */
    lw_diode diode;          /* DIODE: one panel, at standard conditions */
    lw_panel_fit fit;
    int series, parallel; /* panels of this kind, at least 1 each */
    double factor;        /* what is left of the light current after ageing or by tolerance, 1 as stated */
    double clean_share;   /* constant share of the light that passes the dirt on the glass, 1 clean */
    bool dusty;           /* dust that grows and is washed off multiplies it day by day (lanewick/dust.h) */
    lw_dust dust;
} lw_panel;
lw_panel lw_panel_default(void); /* one rated panel of 0 W, clean_share 0.95 (wiped monthly, common practice) */
/* Watts of the whole array at standard conditions. */
double lw_panel_standard_w(const lw_panel *panel);

#endif
