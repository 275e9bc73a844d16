/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What holds a mast together and what it takes to raise it: bolts, clamps, sleeve joints, a plate on the ground, thin
 * walls, vortex shedding, hands, overhead lines. Screening: a licensed engineer decides.
 */
#ifndef LANEWICK_MAST_PARTS_H
#define LANEWICK_MAST_PARTS_H

#include "lanewick/mast.h"

/* ---- bolts, EN 1993-1-8 Table 3.4 (from memory) with the stress areas of ISO 898-1, M5 to M24 ---- */

typedef enum lw_bolt_grade { LW_BOLT_4_6, LW_BOLT_5_6, LW_BOLT_8_8, LW_BOLT_10_9, LW_BOLT_A2_70 } lw_bolt_grade;
#define LW_BOLT_GRADE_WORDS "4.6|5.6|8.8|10.9|A2-70"
typedef struct lw_bolt {
    double area_mm2, tension_n, shear_n; /* design strength of one bolt; shear through the thread, one plane */
} lw_bolt;
/* LW_WRONG_INPUT for a size that is not M5, 6, 8, 10, 12, 16, 20 or 24. */
LW_MUST_CHECK bool lw_bolt_of(double size_mm, lw_bolt_grade grade, lw_bolt *out, lw_error *err);
/* Fv/Fv,Rd + Ft/(1.4 Ft,Rd): 1 or less holds. */
double lw_bolt_use(const lw_bolt *bolt, double tension_n, double shear_n);

/* ---- clamps: friction against sliding along the pipe and turning round it ---- */

typedef struct lw_clamp {
    double slide_n, turn_nm;
} lw_clamp;
/* A band pulled with tension_n all round: 2 pi mu T. */
lw_clamp lw_clamp_band(double tension_n, double friction, double diameter_m);
/* A U-bolt, each leg F = torque/(0.2 d): 4 mu F. */
lw_clamp lw_clamp_ubolt(double bolt_mm, double tighten_nm, double friction, double diameter_m);

/* ---- vortex shedding: EN 1991-1-4 Annex E.1, approach 1, first mode of a cantilever (from memory) ---- */

typedef struct lw_shedding {
    double critical_m_s;  /* wind that sheds with the first mode, St 0.18 */
    double reynolds;      /* at it */
    double mass_kg_m;     /* equivalent mass a metre */
    double scruton;       /* 2 delta m / (rho b^2) */
    double lateral;       /* c_lat: 0.7 to Re 3e5, 0.2 from 5e5 */
    double length_factor; /* K_w */
    double amplitude_mm;  /* of the top */
    double stress_mpa;    /* at the ground, one way */
} lw_shedding;
/* damping: logarithmic decrement, 0.012 for a plain steel tube. LW_WRONG_INPUT as lw_tube_section_of(). */
LW_MUST_CHECK bool lw_shedding_of(const lw_tube *tube, const lw_mast_strength *strength, double height_m,
                                  double head_kg, double damping, lw_shedding *out, lw_error *err);

/* ---- a thin wall in compression: EN 1993-1-6 Annex D.1.2, long cylinder (from memory) ---- */

typedef struct lw_wall_buckling {
    double critical_mpa, imperfection, slenderness, reduction, design_mpa; /* design with gamma_M1 1.1 */
} lw_wall_buckling;
/* quality: Q of Table D.2: 40 excellent, 25 high, 16 normal. */
lw_wall_buckling lw_wall_buckle(const lw_tube *tube, double strength_mpa, double stiffness_mpa, double quality);

/* ---- a block or plate that stands on the ground ---- */

typedef struct lw_plate {
    double width_m, thickness_m; /* square; the force acts arm_m above its top */
    double weight_n, force_n, arm_m;
    double bolt_spacing_m; /* four bolts on a square; 0: none */
} lw_plate;
typedef struct lw_plate_result {
    double moment_nm, eccentricity_m; /* at the underside */
    double overturning;               /* weight's moment over the wind's */
    double pressure_pa;               /* greatest under the edge; wind along a side */
    double bolt_tension_n;            /* of one bolt, wind along the diagonal */
} lw_plate_result;
/* LW_REFUSED when the resultant leaves the block. */
LW_MUST_CHECK bool lw_plate_check(const lw_plate *plate, lw_plate_result *out, lw_error *err);

/* Pull of the outer one of four bolts on a square of side spacing_m, wind along the diagonal. */
double lw_plate_bolt_n(double moment_nm, double spacing_m);

/* ---- two pipes, one inside the other over a lap ---- */

typedef struct lw_sleeve {
    double mouth_n_m, foot_n_m; /* contact load a metre at the two ends of the lap */
    double contact_n;           /* sum at the mouth's end */
} lw_sleeve;
/* Least lap of a pipe in a pipe: one and a half diameters of the inner one. */
double lw_sleeve_least_lap(double inner_m);
/* Rigid pipe on an even bed: p = V/L +- 6 (M + V L/2)/L^2. */
lw_sleeve lw_sleeve_contact(double moment_nm, double shear_n, double lap_m);

/* ---- raising ---- */

typedef struct lw_raising {
    double first_n; /* to lift the top end off the ground */
    double most_n;  /* while walking it up with the hands at hands_m */
    double at_deg;  /* the angle of that */
    int people;     /* each gives 115 N above the shoulder */
    double clear_m; /* nobody else within */
} lw_raising;
lw_raising lw_raise(double length_m, double weight_n, double moment_nm, double hands_m);

/* Least distance of anything raised from a live overhead line, 29 CFR 1926.1408 Table A; local rules come first. */
LW_MUST_CHECK bool lw_line_clearance_m(double line_kv, double *clear_m, lw_error *err);

#endif
