/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Share of global radiation that is diffuse, from the clearness index k (global on the horizontal over
 * extraterrestrial on the horizontal, 1367 W/m2). Sources and limits: docs/models/diffuse.md.
 */
#ifndef LANEWICK_DIFFUSE_H
#define LANEWICK_DIFFUSE_H

/* Erbs, Klein & Duffie (1982), hourly; clearness 0 and more. */
double lw_diffuse_erbs_hour(double k);
/* The same authors for a day and for a monthly mean (fitted for 0.3..0.8, held at the ends), by season:
 * sunset hour angle [degree]. */
double lw_diffuse_erbs_day(double k, double sunset_angle_deg);
double lw_diffuse_erbs_month(double clearness, double sunset_angle_deg);
/* Boland & Ridley (2008), hourly. */
double lw_diffuse_boland(double k);
/* Ridley, Boland & Lauret (2010), hourly: solar time [h], sun's altitude [degree], clearness of the day and mean
 * clearness of the hours before and after. */
double lw_diffuse_brl(double k, double solar_time_h, double altitude_deg, double day_clearness, double persistence);
/* Collares-Pereira & Rabl (1979), daily. */
double lw_diffuse_collares_day(double k);

#endif
