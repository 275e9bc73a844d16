/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast as a cantilever: section, strength of its material with temperature and age, bending, sway, resonance. Every
 * check here is a screening: a licensed engineer decides. Height 0.5 to 12 m.
 */
#ifndef LANEWICK_MAST_H
#define LANEWICK_MAST_H

#include "lanewick/error.h"

#include <stddef.h>

/* Round tube; wall_mm = diameter_mm / 2 is a solid pole. */
typedef struct lw_tube {
    double diameter_mm, wall_mm;
} lw_tube;

typedef struct lw_tube_section {
    double area_mm2, inertia_mm4, modulus_mm3, plastic_mm3;
} lw_tube_section;

/* LW_WRONG_INPUT when the wall is thicker than the radius. */
LW_MUST_CHECK bool lw_tube_section_of(const lw_tube *tube, lw_tube_section *out, lw_error *err);

typedef struct lw_mast_conditions {
    double wall_c;    /* hottest wall when the wind comes; a sunlit grey pipe runs 15 to 25 K above the air */
    double age_years; /* at the end of the planned life */
    double wall_mm;
} lw_mast_conditions;

typedef struct lw_mast_strength {
    double allowed_mpa;  /* to compare with the stress times load_factor */
    double load_factor;  /* 1.5 for limit-state checks (EN 1990), 1.0 for allowable stress */
    double standing_mpa; /* allowed under a load that never leaves (head off centre); 0: as allowed_mpa */
    double stiffness_mpa, density_kg_m3;
    double creep_share;     /* of stiffness_mpa that is left for good: plastic and wood creep, steel rusts; 0: all */
    double thickness_limit; /* greatest diameter over wall before the wall buckles */
} lw_mast_strength;

/* One material a file: section_*.c. */
typedef struct lw_mast_material {
    const char *name;
    const char *source;
    const char *caution;
    bool (*strength)(const lw_mast_conditions *conditions, lw_mast_strength *out, lw_error *err);
} lw_mast_material;

#define LW_MAST_MATERIAL_WORDS "steel|steel_unmarked|aluminium|pvc|timber|timber_c24|timber_c30|bamboo"
/* By its place in LW_MAST_MATERIAL_WORDS; NULL beyond them. steel: marked S235; timber: C16. */
const lw_mast_material *lw_mast_material_at(size_t place);

/* Loads on a cantilever; wind from one side. */
typedef struct lw_mast_load {
    double height_m;
    double head_force_n, head_height_m; /* sum of the panel, box and head forces and where it acts */
    double line_n_m;                    /* wind on the pipe: pressure x force coefficient x diameter */
    double head_kg;                     /* swings on the top; the column's weights are the three below */
    double standing_nm;                 /* moment that never leaves: weights off centre */
    double weight_kg, column_kg;        /* all weights without the pipe; the same moved to the top (lw_column_share) */
    double lean_nm;                     /* their moment when the mast leans by lw_mast_lean */
} lw_mast_load;

/* A mast that stands out of plumb by this share of its height: EN 1993-1-1 5.3.2, phi_0, from memory. */
extern const double lw_mast_lean;

/* Part of a weight at that height that counts for buckling as if it hung on the top: Rayleigh's quotient with Euler's
 * line 1 - cos(pi x/2h), z/h - sin(pi z/h)/pi; on a stiff arm above the top 1 + 2 (z - h)/h. */
double lw_column_share(double at_m, double height_m);

/* A mast as a column: Euler's weight of a cantilever pi^2 E I/(4 h^2), 0.315 of the pipe's own weight taken from it
 * (pi^2/4 over 7.837, Greenhill 1881; both added by Dunkerley's rule, which errs to the safe side), E as it is left
 * after years. Moments of wind and lean grow by 1/(1 - 1/a) (EN 1993-1-1 5.2.2(5)), those of weights off centre by
 * sec(pi/2 sqrt(1/a)) (Timoshenko and Gere 1961, eccentric column); a = alpha_cr. All from memory. */
typedef struct lw_mast_column {
    double on_top_kg;   /* weights moved to the top, without the pipe */
    double critical_kg; /* on the top, without any factor; 0: the pipe does not carry itself */
    double alpha_cr;    /* critical weight over 1.35 times the weight (EN 1990); at least 3 is asked for */
    double gust_grows;  /* with the stiffness of a gust */
    double lean_grows, off_centre_grows;
    double pipe_lean_nm, compression_mpa; /* of the pipe leaning; of all weights, with factor 1.35 */
} lw_mast_column;
/* `softer`: stiffness of this pipe over that of the whole mast, 1 for one pipe. Without weights on it (weight_kg 0) a
 * mast with alpha_cr of 10 or more counts nothing of the second order (EN 1993-1-1 5.2.1(3)). */
lw_mast_column lw_mast_column_of(const lw_tube_section *section, const lw_mast_strength *strength,
                                 const lw_mast_load *load, double softer);

typedef struct lw_mast_bending {
    double moment_nm, shear_n, stress_mpa, factored_mpa, allowed_mpa, sway_mm;
    double bends, buckles;    /* reserves: allowed over factored stress; alpha_cr over 3 */
    double reserve;           /* the lower of both */
    double least_modulus_mm3; /* section modulus that would not bend over */
    lw_mast_column column;
} lw_mast_bending;

/* Never refuses by itself: reserve < 1 means it does not stand. LW_REFUSED when the wall is so thin that it buckles.
 * Below an alpha_cr of 1.1 the mast falls anyway, and its moments are told as for 1.1. */
LW_MUST_CHECK bool lw_mast_bend(const lw_tube *tube, const lw_mast_strength *strength, const lw_mast_load *load,
                                lw_mast_bending *out, lw_error *err);

/* Common steel tubes (EN 10255, EN 10219 sizes), thin ones first. */
extern const lw_tube lw_mast_common_tubes[];
extern const size_t lw_mast_common_tube_count;

/* The first common steel tube (S235) that stands under this load, the wind on the pipe scaled with its diameter; false
 * when none does. */
bool lw_mast_steel_that_stands(const lw_mast_load *load, double diameter_mm, lw_tube *out);

typedef struct lw_mast_vibration {
    double frequency_hz, critical_m_s;
} lw_mast_vibration;
/* First mode of a mast with a head mass at its top (Rayleigh, 33/140 of the pipe's mass), and the wind in which
 * vortices shed with it, Strouhal number 0.18. */
LW_MUST_CHECK bool lw_mast_vibrate(const lw_tube *tube, const lw_mast_strength *strength, double height_m,
                                   double head_kg, lw_mast_vibration *out, lw_error *err);

#endif
