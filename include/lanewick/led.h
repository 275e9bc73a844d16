/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An LED on its board: forward voltage, light and temperature at a current, solved together; light left after years.
 */
#ifndef LANEWICK_LED_H
#define LANEWICK_LED_H

#include "lanewick/error.h"

#include <stddef.h>

typedef struct lw_led {
    double rated_a;     /* current of the data sheet */
    double rated_vf_v;  /* forward voltage there, junction at 25 degC */
    double rated_lm;    /* light there, junction at 25 degC */
    double slope_ohm;   /* d(voltage)/d(current) near the working point */
    double vf_per_k_v;  /* change of the voltage, -0.002 to -0.004 V/K per die (data sheets) */
    double droop_power; /* b of efficacy(I) = efficacy(rated) (I/rated)^-b; 0.08 to 0.15 for mid-power parts
                           near and below rated current (from memory) */
    double
        flux_per_k; /* share of light lost per kelvin of the junction above 25 degC; 0.0015 to 0.0025 (from memory) */
    double junction_to_board_k_w;
    double max_junction_c; /* of the data sheet */
} lw_led;

/* A white mid-power part of size 2835, 0.5 W class, as one data sheet and common practice have it. */
lw_led lw_led_typical(void);

typedef struct lw_led_point {
    double vf_v, power_w, heat_w, lumens, lumens_per_w, junction_c, board_c;
    bool too_hot; /* junction above max_junction_c */
} lw_led_point;

/* White LEDs by type: a small table, place by place in the order of LW_LED_TYPE_WORDS; NULL beyond its end. */
#define LW_LED_TYPE_WORDS "2835_02w|2835_05w|2835_3v|5050|5730|bead_1w|emitter"
typedef struct lw_led_type {
    const char *name;
    double vf_low_v, vf_high_v; /* at the rated current */
    const char *source;
    lw_led led;
} lw_led_type;
const lw_led_type *lw_led_type_at(size_t place);

/* An LED's voltage from two multimeter readings at different currents, cold. */
typedef struct lw_led_reading {
    double amp, volt;
} lw_led_reading;
typedef struct lw_led_meter {
    int dice; /* in series inside, guessed from the voltage */
    double vf_v, vf_low_v, vf_high_v;
    double slope_ohm; /* at the wanted current */
    bool far;         /* the wanted current is more than three times away from both readings */
} lw_led_meter;
LW_MUST_CHECK bool lw_led_from_readings(const lw_led_reading readings[2], double wanted_a, double meter_share,
                                        lw_led_meter *out, lw_error *err);

/* One LED at a junction temperature that is known; the heat path is not looked at (board_c is left alone). */
void lw_led_at(const lw_led *led, double current_a, double junction_c, lw_led_point *out);

/* One LED of a board of count equal LEDs at current_a each. board_to_air_k_w carries the heat of all of them.
 * Heat = power minus the light that leaves, 320 lm per radiated watt of white light (290 to 340, from memory).
 * Errors: current above three times the rated one. */
LW_MUST_CHECK bool lw_led_solve(const lw_led *led, double current_a, size_t count, double board_to_air_k_w,
                                double air_c, lw_led_point *out, lw_error *err);

/* IES TM-21: phi(t) = B exp(-alpha t), least squares on ln(phi); hours rising, share above 0, count >= 2. */
typedef struct lw_decay {
    double b, alpha_per_h;
    double claim_limit_h; /* no claim beyond six times the test */
} lw_decay;
LW_MUST_CHECK bool lw_decay_fit(const double *hours_h, const double *share, size_t count, lw_decay *out, lw_error *err);
double lw_decay_share(const lw_decay *decay, double hours_h);
/* Hours until the share is reached; ln(B/share)/alpha; infinite when alpha is not above 0. */
double lw_decay_hours(const lw_decay *decay, double share);

/* alpha of LEDs without data: 5e-6, 1e-5, 3e-5 /h at 55, 85, 105 degC of the case (from memory, wide), between and
 * beyond them as exp(-E/kT) (Arrhenius, as TM-21 interpolates). */
double lw_decay_typical_per_h(double case_c);

/* Share of light left by dirt on the head after months since the last wiping: CIE 154:2003 / BS 5489 table (from
 * memory), linear in months, 1 at 0 months, the 36-month value beyond. */
typedef enum lw_sealing { LW_OPEN_BOTTLE, LW_DUST_PROTECTED, LW_DUST_TIGHT } lw_sealing;
typedef enum lw_air { LW_AIR_CLEAN, LW_AIR_MEDIUM, LW_AIR_DIRTY } lw_air;
double lw_dirt_share(lw_sealing sealing, lw_air air, double months);

/* Fit of I = peak cos^m(gamma) to lux readings at angles from the axis, all at one distance: least squares on
 * I = lux distance^2 over m, peak exact for each m. Relative standard error of one reading given by the user's meter.
 * LW_NOT_COMPUTABLE: no light, too steep, or lumens less sure than they are many; the reading to repeat is named.
 */
typedef struct lw_beam_fit {
    double peak_cd, cos_power, flux_lm;
    double flux_sd_lm, cos_power_sd; /* one standard deviation, from the scatter or the meter, whichever is larger */
    double misfit;                   /* root mean square of the residuals over the peak */
} lw_beam_fit;
LW_MUST_CHECK bool lw_beam_fit_cosine(const double *angle_deg, const double *lux_lx, size_t count, double distance_m,
                                      double meter_share, lw_beam_fit *out, lw_error *err);

#endif
