/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Radiation on a horizontal plane above the air, the measure of clearness: Duffie & Beckman, Solar Engineering
 * of Thermal Processes, eqs. 1.4.1a, 1.6.1a, 1.10.3, with Cooper's declination, as in the handbooks; 1367 W/m2
 * is the constant with which clearness was defined in the correlations used here.
 */
#ifndef LANEWICK_EXTRATERRESTRIAL_H
#define LANEWICK_EXTRATERRESTRIAL_H

static const double lw_solar_constant_w_m2 = 1367.0;

double lw_cooper_declination_deg(double day_of_year); /* Cooper 1969 */
double lw_distance_factor(double day_of_year);        /* (mean distance / distance)^2, eq. 1.4.1a */

/* Hour angle of sunset [degree], 0 in the polar night, 180 in the polar day. */
double lw_sunset_angle_deg(double lat_deg, double declination_deg);

/* Radiation of a whole day [kWh/m2], 0 in the polar night. Latitude -90..90, day of year 1..366. */
double lw_h0_day_kwh_m2(double lat_deg, double day_of_year, double solar_constant_w_m2);

/* Mean over all days of the month (1..12, February with 28 days) of the daily radiation [kWh/m2 a day] with
 * 1367 W/m2. 0 in the polar night. */
double lw_h0_month_kwh_m2(double lat_deg, int month);

#endif
