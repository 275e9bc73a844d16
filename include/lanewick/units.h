/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Constants of nature and of the clock. Physical values: 2019 SI definitions (exact) where defined there.
 */
#ifndef LANEWICK_UNITS_H
#define LANEWICK_UNITS_H

static const double lw_pi = 3.14159265358979323846;
static const double lw_radian_per_degree = 3.14159265358979323846 / 180.0;
static const double lw_degree_per_radian = 180.0 / 3.14159265358979323846;
static const double lw_gravity_m_s2 = 9.81; /* near the ground, rounded as load standards do */
static const double lw_zero_celsius_k = 273.15;
static const double lw_boltzmann_j_k = 1.380649e-23;            /* SI 2019, exact */
static const double lw_electron_charge_c = 1.602176634e-19;     /* SI 2019, exact */
static const double lw_gas_constant_j_mol_k = 8.31446261815324; /* SI 2019, exact */

enum { LW_HOURS = 8760, LW_DAYS = 365, LW_MONTHS = 12 };

#endif
