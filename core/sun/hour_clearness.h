/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Clearness of the hours of a day of known clearness: the TAG model of Aguiar & Collares-Pereira (1992), Solar Energy
 * 49, 167. An hour's clearness is mean + sd y, y a Gaussian AR(1) series whose innovations have the standard
 * deviation sqrt(1 - phi^2) (one listing multiplies the noise by sd twice: an error).
 */
#ifndef LANEWICK_HOUR_CLEARNESS_H
#define LANEWICK_HOUR_CLEARNESS_H

#include "quick_exp.h"

/* Coefficients of a day. */
typedef struct lw_tag {
    double lambda, eta, kappa; /* of the mean */
    double a, b;               /* of the standard deviation */
    double phi;                /* of the correlation from hour to hour */
} lw_tag;

lw_tag lw_tag_of_day(double day_clearness);

/* sin_height: sine of the sun's height, held at 0.03 and above by the caller (the mean is steep at the horizon). */
static inline double lw_tag_mean(double lambda, double eta, double kappa, double sin_height)
{
    return lambda + eta * lw_quick_exp(-kappa / sin_height);
}

static inline double lw_tag_sd(double a, double b, double sin_height)
{
    return a * lw_quick_exp(b * (1.0 - sin_height));
}

/* Clearness of a cloudless hour in the same paper; solar_time_h at the middle of the hour. */
double lw_tag_clear_sky(double solar_time_h);

#endif
