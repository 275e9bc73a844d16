/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the glass of a panel lets through at an angle: ASHRAE incidence modifier (Souka & Safwat 1966), with the
 * effective angles of sky and ground of Brandemuehl & Beckman (1980), Solar Energy 24, 511 (Duffie & Beckman eqs.
 * 5.4.1, 5.4.2).
 */
#include "lanewick/plane.h"

#include <math.h>

double lw_glass_factor(double b0, double cos_incidence)
{
    if (cos_incidence <= 0.0)
        return 0.0;
    return fmin(fmax(1.0 - b0 * (1.0 / cos_incidence - 1.0), 0.0), 1.0);
}

double lw_sky_angle_deg(double tilt_deg)
{
    return 59.7 - 0.1388 * tilt_deg + 0.001497 * tilt_deg * tilt_deg;
}

double lw_ground_angle_deg(double tilt_deg)
{
    return 90.0 - 0.5788 * tilt_deg + 0.002693 * tilt_deg * tilt_deg;
}
