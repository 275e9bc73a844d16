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
    double head_kg;                     /* for the moment that sway adds; 0 leaves it out */
    double standing_nm;                 /* moment that never leaves: head weight off centre */
} lw_mast_load;

typedef struct lw_mast_bending {
    double moment_nm, shear_n, stress_mpa, factored_mpa, allowed_mpa, sway_mm, reserve;
    double least_modulus_mm3; /* section modulus that would stand */
} lw_mast_bending;

/* Never refuses by itself: reserve < 1 means it does not stand. LW_REFUSED when the wall is so thin that it buckles. */
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
