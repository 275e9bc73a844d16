/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly radiation on a horizontal plane above the air, the measure of clearness.
 */
#ifndef LANEWICK_EXTRATERRESTRIAL_H
#define LANEWICK_EXTRATERRESTRIAL_H

/* Mean over all days of the month (1..12, February with 28 days) of the daily extraterrestrial radiation
 * [kWh/m2 a day] at a latitude of -90..90: Duffie & Beckman, Solar Engineering of Thermal Processes,
 * eq. 1.10.3 with Cooper's declination and 1367 W/m2, the constant with which clearness was defined in
 * the correlations used here. 0 in the polar night. */
double lw_h0_month_kwh_m2(double lat_deg, int month);

#endif
