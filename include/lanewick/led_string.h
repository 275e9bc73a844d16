/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A string of LEDs on a pack whose voltage falls: ballast resistor, current sink, step-down or step-up driver.
 */
#ifndef LANEWICK_LED_STRING_H
#define LANEWICK_LED_STRING_H

#include "lanewick/error.h"

typedef enum lw_drive { LW_DRIVE_RESISTOR, LW_DRIVE_CONSTANT, LW_DRIVE_BUCK, LW_DRIVE_BOOST } lw_drive;
#define LW_DRIVE_WORDS "resistor|constant|buck|boost"

typedef struct lw_led_string {
    double vf_v;      /* one LED at current_a */
    double current_a; /* wanted; the design current */
    double slope_ohm; /* of one LED around it: Vf = vf_v + slope (I - current_a) */
    double count;     /* LEDs in series */
    double dropout_v; /* of switch and sink over the string */
    lw_drive drive;
    double resistor_ohm; /* ballast, or sense resistor of a driver */
    double converter;    /* efficiency of a buck or boost */
    double kept_a;       /* what sink or driver really keeps, by its sense resistor; 0: current_a */
} lw_led_string;

/* Forward voltage of the string at this current. */
double lw_led_string_v(const lw_led_string *string, double current_a);
/* Current through the string at this supply; 0 when it is dark. */
double lw_led_string_a(const lw_led_string *string, double supply_v);
/* Electrical power of the LEDs over power taken from the supply; 0 when dark. */
double lw_led_string_efficiency(const lw_led_string *string, double supply_v);

/* Whether the drive can work between these supplies: a buck needs the string below 0.8 of the lowest, a boost above
 * 1.15 of the highest supply (common practice). A boost over 30 V is refused: an open string runs it to destruction. */
LW_MUST_CHECK bool lw_led_string_fits(const lw_led_string *string, double supply_min_v, double supply_max_v,
                                      lw_error *err);

#endif
