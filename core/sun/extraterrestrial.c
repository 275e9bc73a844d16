/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly extraterrestrial radiation: Duffie & Beckman eq. 1.10.3 averaged over all days of the month.
 */
#include "lanewick/extraterrestrial.h"

#include <math.h>

static const double rad = 0.017453292519943295;
static const int month_start[13] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};

static double day_kwh_m2(double lat_rad, int day)
{
    const double dec = 23.45 * rad * sin(360.0 * rad * (284 + day) / 365.0); /* Cooper 1969, D&B eq. 1.6.1a */
    const double eccentricity = 1.0 + 0.033 * cos(360.0 * rad * day / 365.0);
    const double a = sin(lat_rad) * sin(dec), b = cos(lat_rad) * cos(dec);
    const double sunset = a >= b ? 180.0 * rad : (a <= -b ? 0.0 : acos(-a / b));
    return 24.0 * 1.367 / (180.0 * rad) * eccentricity * (b * sin(sunset) + sunset * a);
}

double lw_h0_month_kwh_m2(double lat_deg, int month)
{
    double sum = 0.0;
    for (int day = month_start[month - 1] + 1; day <= month_start[month]; day++)
        sum += day_kwh_m2(lat_deg * rad, day);
    const double mean = sum / (month_start[month] - month_start[month - 1]);
    return mean > 0.0 ? mean : 0.0;
}
