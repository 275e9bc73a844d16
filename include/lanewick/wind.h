/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wind on a mast. Three kinds of wind speed exist and must never be mixed: the ten-minute mean of EN 1991-1-4, the
 * three-second design gust of ASCE 7, and a gust somebody observed. The load differs by up to 2.4 times.
 */
#ifndef LANEWICK_WIND_H
#define LANEWICK_WIND_H

#include "lanewick/error.h"

typedef enum lw_wind_label { LW_WIND_MEAN_10MIN, LW_WIND_GUST_DESIGN, LW_WIND_GUST_OBSERVED } lw_wind_label;
#define LW_WIND_LABEL_WORDS "mean_10min|gust_design|gust_observed"

/* EN 1991-1-4 Table 4.1 categories, then the exposures of ASCE 7. */
typedef enum lw_terrain {
    LW_TERRAIN_0,
    LW_TERRAIN_I,
    LW_TERRAIN_II,
    LW_TERRAIN_III,
    LW_TERRAIN_IV,
    LW_EXPOSURE_B,
    LW_EXPOSURE_C,
    LW_EXPOSURE_D
} lw_terrain;
#define LW_TERRAIN_WORDS "0|I|II|III|IV|B|C|D"

typedef struct lw_wind {
    double mean_m_s;   /* EN: ten minutes; ASCE: one hour; observed gust: the gust itself */
    double turbulence; /* standard deviation over mean; 0 for an observed gust */
    double peak_pressure_pa;
    double exposure; /* EN: peak over basic pressure ce(z); ASCE: Kz */
} lw_wind;

/* EN 1991-1-4 4.2 to 4.5: basic_m_s the ten-minute mean at 10 m over open ground, 50 years; height_m 0 to 200;
 * air_kg_m3 at most 1.25. orography and turbulence factors 1. LW_WRONG_INPUT for an exposure of ASCE 7. */
LW_MUST_CHECK bool lw_wind_en(double basic_m_s, lw_terrain terrain, double height_m, double air_kg_m3, lw_wind *out,
                              lw_error *err);
/* ASCE 7-16 26.10: gust_m_s the three-second gust at 10 m, exposure C; q = 0.613 Kz Kzt Kd V^2. Mean and turbulence by
 * 26.11 (from memory). */
LW_MUST_CHECK bool lw_wind_asce(double gust_m_s, lw_terrain exposure, double height_m, double directionality,
                                double topography, lw_wind *out, lw_error *err);
/* q = 0.5 rho gust^2: not a 50-year value, and said so wherever it is used. */
void lw_wind_observed(double gust_m_s, double air_kg_m3, lw_wind *out);

/* One door for the three: the label decides the formula, and a terrain that belongs to the other is refused. */
typedef struct lw_wind_site {
    double speed_m_s;
    lw_wind_label label;
    lw_terrain terrain;
    double air_kg_m3;
    double directionality, topography; /* ASCE only: 0.85 and 1 */
} lw_wind_site;
LW_MUST_CHECK bool lw_wind_at(const lw_wind_site *site, double height_m, lw_wind *out, lw_error *err);

/* EN 1991-1-4 4.2 note 4: basic velocity of another return period over that of 50 years; years > 1. */
double lw_wind_return_factor(double years);

/* Circular cylinder across the flow: cf0 of EN 1991-1-4 Fig. 7.28 and the end effect of Fig. 7.36. */
double lw_cylinder_reynolds(double diameter_m, double peak_pressure_pa, double air_kg_m3);
double lw_cylinder_force_coefficient(double reynolds, double roughness_mm, double diameter_m);
double lw_end_effect(double slenderness);

#endif
