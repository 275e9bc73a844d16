/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How deep a mast stands in the ground. IBC 1807.3.2.1 with allowable soil pressures: use wind forces without load
 * factor (0.6 of ASCE 7 forces). Second opinion: Broms (1964), ultimate load of a short pile.
 */
#ifndef LANEWICK_FOOTING_H
#define LANEWICK_FOOTING_H

#include "lanewick/error.h"

typedef enum lw_soil { LW_SOIL_ROCK, LW_SOIL_GRAVEL, LW_SOIL_SAND, LW_SOIL_CLAY, LW_SOIL_SOFT } lw_soil;
#define LW_SOIL_WORDS "rock|gravel|sand|clay|soft"

/* Allowable lateral pressure per metre of depth, IBC Table 1806.2 (as reprinted in a geotechnical handbook): layered
 * rock 62.8, gravel 31.4, sand 23.56, clay 15.7 kPa/m. LW_REFUSED for soft ground (mud, peat, organic, loose fill). */
LW_MUST_CHECK bool lw_soil_lateral_pa_per_m(lw_soil soil, double *pa_per_m, lw_error *err);

/* Allowable pressure under a footing, IBC Table 1806.2: rock 192, gravel 144, sand 96, clay 72 kPa; 0 for soft. */
double lw_soil_bearing_pa(lw_soil soil);

typedef struct lw_footing {
    double force_n, arm_m; /* sideways force and its height above ground */
    double diameter_m;     /* of the pole, or of the concrete collar over the full depth */
    double soil_pa_per_m;
    bool doubled; /* 1806.3.4: pole may move 12 mm at the ground */
    bool paved;   /* held at the ground surface on both sides (Eq. 18-2, from memory) */
} lw_footing;

/* Eq. 18-1 A = 2.34 P / (S1 b), pressure s1_pa given. */
double lw_footing_a_m(double force_n, double s1_pa, double diameter_m);
/* Depth by Eq. 18-1 with S1 at a third of the depth (or 18-2 with S3 at the depth), solved for the depth. LW_REFUSED
 * beyond 3.66 m, where the formula ends. */
LW_MUST_CHECK bool lw_footing_depth(const lw_footing *footing, double *depth_m, double *pressure_pa, lw_error *err);

/* Ultimate horizontal force of a short free-headed pile in sand: 0.5 gamma D L^3 Kp / (e + L). */
double lw_broms_sand_n(double unit_weight_n_m3, double friction_deg, double diameter_m, double depth_m, double arm_m);
/* The same in clay of undrained strength cu; also where and how great the moment in the pile is. */
LW_MUST_CHECK bool lw_broms_clay_n(double cu_pa, double diameter_m, double depth_m, double arm_m, double *force_n,
                                   double *f_m, double *moment_nm, lw_error *err);

#endif
