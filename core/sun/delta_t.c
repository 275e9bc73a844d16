/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Difference between the even time of the ephemeris and the time of the turning Earth: polynomials of Espenak &
 * Meeus (2006), Five Millennium Canon of Solar Eclipses, NASA/TP-2006-214141. Their error of some seconds
 * after 2015 moves the sun by less than 0.0001 degree.
 */
#include "lanewick/sun.h"

#include <stddef.h>

typedef struct piece {
    double before, origin; /* years */
    double c[6];           /* rising powers of years from the origin */
} piece;

static const piece pieces[] = {
    {1920, 1900, {-2.79, 1.494119, -0.0598939, 0.0061966, -0.000197, 0}},
    {1941, 1920, {21.20, 0.84493, -0.076100, 0.0020936, 0, 0}},
    {1961, 1950, {29.07, 0.407, -1.0 / 233.0, 1.0 / 2547.0, 0, 0}},
    {1986, 1975, {45.45, 1.067, -1.0 / 260.0, -1.0 / 718.0, 0, 0}},
    {2005, 2000, {63.86, 0.3345, -0.060374, 0.0017275, 0.000651814, 0.00002373599}},
    {2050, 2000, {62.92, 0.32217, 0.005589, 0, 0, 0}},
};

double lw_delta_t_s(double utc_days)
{
    const double year = 2000.0 + utc_days / 365.2425;
    for (size_t i = 0; i < sizeof pieces / sizeof pieces[0]; i++) {
        if (year >= pieces[i].before)
            continue;
        const double t = year - pieces[i].origin;
        double sum = 0.0;
        for (int k = 5; k >= 0; k--)
            sum = sum * t + pieces[i].c[k];
        return sum;
    }
    const double century = (year - 1820.0) / 100.0;
    const double bridge = year < 2150.0 ? 0.5628 * (2150.0 - year) : 0.0;
    return -20.0 + 32.0 * century * century - bridge;
}
