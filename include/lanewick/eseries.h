/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Preferred numbers of resistors and capacitors, IEC 60063 (2015): E3 to E24 are historical values, E48 to E192
 * are the powers of 10^(1/N) rounded to three digits, with the one exception 920 in E192 (from memory).
 */
#ifndef LANEWICK_ESERIES_H
#define LANEWICK_ESERIES_H

#include "lanewick/error.h"

#include <stddef.h>

typedef enum lw_eseries { LW_E3, LW_E6, LW_E12, LW_E24, LW_E48, LW_E96, LW_E192, LW_ESERIES_COUNT } lw_eseries;

/* The words of the choice inputs, in the order of the enumerations. */
#define LW_ESERIES_WORDS "E3|E6|E12|E24|E48|E96|E192"
#define LW_ROUND_WORDS "nearest|up|down"

/* LW_ROUND_NEAREST is nearest by ratio, as fits dividers. Current-limiting resistors are rounded up. */
typedef enum lw_round { LW_ROUND_NEAREST, LW_ROUND_UP, LW_ROUND_DOWN } lw_round;

int lw_eseries_size(lw_eseries series); /* values in a decade */
/* Value number i (0 <= i < size) of the decade from 1 to 10. */
double lw_eseries_value(lw_eseries series, int i);
/* Usual tolerance of parts of this series as a part of one: 0.2 for E6 to 0.005 for E192 (common practice). */
double lw_eseries_tolerance(lw_eseries series);

/* The preferred value for x > 0. A value that already is a member (to 1e-9) stays itself in every direction. */
double lw_eseries_round(double x, lw_eseries series, lw_round direction);

/* Resistors at hand: a whole series, or these values only. */
enum { LW_RESISTOR_VALUES = 48 };
typedef struct lw_resistors {
    lw_eseries series;
    double tolerance; /* as a part of one */
    double value_ohm[LW_RESISTOR_VALUES];
    size_t count; /* 0: the whole series */
} lw_resistors;

/* The nearest by ratio of what is at hand. */
double lw_resistor_near(const lw_resistors *at_hand, double ohm);
/* Every value between two, in rising order for a series; returns their number, at most `room`. */
size_t lw_resistors_between(const lw_resistors *at_hand, double low_ohm, double high_ohm, double *out, size_t room);

/* Two members of the series that together come nearest to x by ratio. */
typedef struct lw_resistor_pair {
    double first_ohm, second_ohm, together_ohm;
    bool parallel; /* false: in series */
} lw_resistor_pair;
lw_resistor_pair lw_eseries_pair(double x, lw_eseries series);

#endif
