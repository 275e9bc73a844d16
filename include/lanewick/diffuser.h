/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a bottle or cover does to a head's light: how much it lets through, how far it spreads it, how it yellows.
 *
 * I(C, gamma) = T [(1 - s) I0(C, gamma) + s F ((1 - u) cos(gamma)/pi + u/(4 pi))]: T of the light gets through, the
 * share s of it is scattered, u of that all round (a whole bottle glows), the rest downward as from a flat diffuse
 * sheet; F is the bare board's flux. Own simple model: a lux meter knows better (figure diffuser_readings, readings in
 * the head document).
 */
#ifndef LANEWICK_DIFFUSER_H
#define LANEWICK_DIFFUSER_H

#include "lanewick/arena.h"
#include "lanewick/light.h"

typedef struct lw_band {
    double low, usual, high;
} lw_band;

typedef struct lw_diffuser_kind {
    const char *name;
    lw_band transmittance;
    double scattered, round;
    const char *source;
} lw_diffuser_kind;
#define LW_DIFFUSER_WORDS "clear_bottle|frosted_cover|frosted_bottle|milky_bottle|green_bottle|brown_bottle"
const lw_diffuser_kind *lw_diffuser_kind_at(size_t place); /* NULL beyond the end */

typedef struct lw_diffuser_material {
    const char *name;
    lw_band loss_per_year;             /* share of white light lost a year outdoors in the tropics */
    double change_from_y, change_to_y; /* when it gets brittle or too yellow; 0: it does not */
    const char *source;
} lw_diffuser_material;
#define LW_DIFFUSER_MATERIAL_WORDS "pet|polycarbonate|polycarbonate_coated|acrylic|hdpe|glass"
const lw_diffuser_material *lw_diffuser_material_at(size_t place);

typedef struct lw_diffuser {
    lw_band transmittance; /* new */
    double scattered, round;
    lw_band loss_per_year;
    double years; /* age at which its light counts */
} lw_diffuser;

/* A kind of a material; NAN keeps what the kind says, a measured transmittance has no band of its own. */
lw_diffuser lw_diffuser_of(size_t kind, size_t material, double years, double transmittance);

/* Share of the light that gets through at that age: low, usual, high. */
lw_band lw_diffuser_share(const lw_diffuser *diffuser);

/* Any beam as a table in the arena: a table as it stands, a closed form at each degree. */
LW_MUST_CHECK bool lw_beam_table(const lw_beam *beam, lw_arena *arena, lw_intensity *out, lw_error *err);
/* The light behind the diffuser (usual share), a table over 0 to 180 degree when any of it goes upward. */
LW_MUST_CHECK bool lw_diffuser_table(const lw_diffuser *diffuser, const lw_intensity *bare, lw_arena *arena,
                                     lw_intensity *out, lw_error *err);

/* A beam in numbers. Intensity class G*1 to G*6 of EN 13201-2:2015 Annex A (from memory), 0: none is met; for a level
 * head. */
typedef struct lw_beam_numbers {
    double lumens, peak_cd, half_deg; /* angle at which the mean over the planes has fallen to half of straight below */
    double zone_lm[5];                /* 0-30, 30-60, 60-80, 80-90, 90-180 degree */
    double upward_share;
    int glare_class;
} lw_beam_numbers;
lw_beam_numbers lw_beam_numbers_of(const lw_intensity *table);

#endif
