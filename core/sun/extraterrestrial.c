/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Daily and monthly extraterrestrial radiation: Duffie & Beckman, Solar Engineering of Thermal Processes.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/units.h"
#include "lanewick/utc.h"

#include <math.h>

static double rad(double degree)
{
    return degree * lw_radian_per_degree;
}

double lw_cooper_declination_deg(double day_of_year)
{
    return 23.45 * sin(rad(360.0 * (284.0 + day_of_year) / 365.0)); /* eq. 1.6.1a */
}

double lw_distance_factor(double day_of_year)
{
    return 1.0 + 0.033 * cos(rad(360.0 * day_of_year / 365.0)); /* eq. 1.4.1a */
}

double lw_sunset_angle_deg(double lat_deg, double declination_deg)
{
    const double a = sin(rad(lat_deg)) * sin(rad(declination_deg)), b = cos(rad(lat_deg)) * cos(rad(declination_deg));
    if (a >= b)
        return 180.0;
    return a <= -b ? 0.0 : acos(-a / b) * lw_degree_per_radian; /* eq. 1.6.10 */
}

double lw_h0_day_kwh_m2(double lat_deg, double day_of_year, double solar_constant_w_m2)
{
    const double dec_deg = lw_cooper_declination_deg(day_of_year);
    const double sunset = rad(lw_sunset_angle_deg(lat_deg, dec_deg));
    const double a = sin(rad(lat_deg)) * sin(rad(dec_deg)), b = cos(rad(lat_deg)) * cos(rad(dec_deg));
    const double scale = 24.0 / lw_pi * solar_constant_w_m2 / 1000.0 * lw_distance_factor(day_of_year);
    return fmax(scale * (b * sin(sunset) + sunset * a), 0.0); /* eq. 1.10.3 */
}

double lw_h0_month_kwh_m2(double lat_deg, int month)
{
    const int first = lw_first_day_of_month(month), days = lw_days_in_month(2026, month);
    double sum = 0.0;
    for (int day = first + 1; day <= first + days; day++)
        sum += lw_h0_day_kwh_m2(lat_deg, day, lw_solar_constant_w_m2);
    return sum / days;
}
