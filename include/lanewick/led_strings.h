/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * LED strings side by side on one driver: how they share its current when their voltages differ and each warms itself,
 * with and without a resistor in each; and what is left when LEDs fail.
 */
#ifndef LANEWICK_LED_STRINGS_H
#define LANEWICK_LED_STRINGS_H

#include "lanewick/led.h"

enum { LW_LED_STRINGS = 64 };

typedef struct lw_led_group {
    lw_led led;                      /* the middle part */
    double offset_v[LW_LED_STRINGS]; /* mean voltage of one LED of the string over that of led, cold */
    size_t count;                    /* strings, 1..64 */
    double series;                   /* LEDs in each */
    double total_a;                  /* of all strings together */
    double ballast_ohm;              /* in each string */
    double air_c, board_to_air_k_w;  /* the heat of all */
    double own_k_w;                  /* one LED's junction over the board: 15 on metal, 60 to 80 on plain FR4 */
    /* results */
    double current_a[LW_LED_STRINGS], junction_c[LW_LED_STRINGS];
    double supply_v, lumens;
    size_t strongest, weakest;
} lw_led_group;

/* LW_REFUSED when the strongest string never settles: its junction passes 400 degC. */
LW_MUST_CHECK bool lw_led_strings_solve(lw_led_group *group, lw_error *err);
/* The resistor with which no string takes more than most_over_mean (above 1) of the mean; NAN when 500 kohm are not
 * enough. */
double lw_led_strings_ballast_ohm(const lw_led_group *group, double most_over_mean);

/* Strings that still burn after hours when each LED fails with a constant rate and open_share of the failures are
 * interruptions, which darken the string; a short leaves the others of its string alight. */
typedef struct lw_led_survival {
    double led_failed;          /* share of LEDs that have failed */
    double string_out;          /* probability that a string is dark */
    double light_share;         /* expected, dark strings and shorted LEDs counted */
    double all_alight;          /* probability that no string is dark */
    double strings_out_at_most; /* not more than so many, with the confidence asked for */
} lw_led_survival;
lw_led_survival lw_led_survive(int series, int strings, double failures_per_hour, double hours_h, double open_share,
                               double confidence);
/* Strings to build so that with that confidence `strings` of them still burn; -1 when 1000 are not enough. */
int lw_led_strings_to_build(int strings, double string_out, double confidence);

#endif
