/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light: where a head sends its light and what arrives at a point.
 *
 * Frame of a lane: x along it, y across it, z up, metres; directions in plan are counted from +x towards +y
 * (counter-clockwise seen from above), degrees. A head looks straight down; its street side points to turn_deg;
 * tilt_deg lifts the street side (the axis moves from straight down towards the street side).
 *
 * Intensity tables are of type C (ANSI/IES LM-63, CIE 121): the vertical angle gamma is 0 straight down, 180
 * straight up; the plane angle C is counted counter-clockwise seen from above. Intensities are absolute candela.
 */
#ifndef LANEWICK_LIGHT_H
#define LANEWICK_LIGHT_H

#include "lanewick/error.h"

#include <stddef.h>

typedef enum lw_symmetry {
    LW_SYMMETRY_ROUND,     /* one plane: the same all round */
    LW_SYMMETRY_QUADRANT,  /* planes 0..90, mirrored twice */
    LW_SYMMETRY_MIRROR_0,  /* planes 0..180, mirrored in the plane 0-180 */
    LW_SYMMETRY_MIRROR_90, /* planes 90..270, mirrored in the plane 90-270 */
    LW_SYMMETRY_NONE       /* planes 0..360, first and last the same */
} lw_symmetry;

const char *lw_symmetry_text(lw_symmetry symmetry);

/* A measured table; the arrays belong to the caller. Angles rise strictly. candela[h * vertical_count + v] >= 0. */
typedef struct lw_intensity {
    size_t vertical_count, horizontal_count;
    const double *vertical_deg, *horizontal_deg, *candela;
    lw_symmetry symmetry;
} lw_intensity;

/* Checks angles and symmetry and sets table->symmetry from the horizontal angles. */
LW_MUST_CHECK bool lw_intensity_check(lw_intensity *table, lw_error *err);

/* Candela at plane c_deg (any value) and gamma_deg (0..180), linear in both angles; 0 outside the measured vertical
 * range (EN 13201-3:2015, from memory: linear interpolation is allowed where the steps are small). */
double lw_intensity_cd(const lw_intensity *table, double c_deg, double gamma_deg);

/* Lumens between two vertical angles: the exact integral of the straight lines in gamma times the sine, and the mean
 * over planes by trapezium over the stated range. */
double lw_intensity_flux_lm(const lw_intensity *table, double from_deg, double to_deg);
double lw_intensity_peak_cd(const lw_intensity *table);
/* Lumens of a table of photometric type A (true) or B (false), angles about a horizontal axis. */
double lw_intensity_flux_ab_lm(const lw_intensity *table, bool type_a);

/* A head's light: a table, or peak_cd cos(gamma)^cos_power below the horizontal (power 1: Lambertian, a flat diffuse
 * board), or the same in all directions with cos_power 0 and round = true. */
typedef struct lw_beam {
    const lw_intensity *table; /* NULL: closed form */
    double street_plane_deg;   /* the table's plane that points to the street side: 0 or 90 as the file was made */
    double peak_cd, cos_power;
    bool round;
} lw_beam;

double lw_beam_cd(const lw_beam *beam, double c_deg, double gamma_deg);

/* flux = 2 pi peak/(power + 1), and back. Lambert (1760); cos_power > -1. */
double lw_cosine_flux_lm(double peak_cd, double cos_power);
double lw_cosine_peak_cd(double flux_lm, double cos_power);
/* Power from the angle at which intensity has fallen to half: -ln 2 / ln cos(half_deg), 0 < half_deg < 90. */
double lw_cosine_power(double half_deg);

typedef struct lw_lamp {
    double x_m, y_m, height_m; /* of the light's centre */
    double turn_deg, tilt_deg;
    double maintenance; /* share of the first light that is left when it counts, 0..1 */
    lw_beam beam;
} lw_lamp;

/* What arrives at a place (x, y): horizontal and hemispherical on the ground, vertical and semi-cylindrical at face
 * height (1.5 m), facing the direction facing_deg. Formulas: CIE 140:2000 and EN 13201-3:2015 clause 7 (from memory),
 * written without angles: Eh = I h/r^3, Ehs = I (1 + h/r)/(4 r^2), Ev = I d cos(alpha)/r^3 where cos(alpha) > 0,
 * Esc = I d (1 + cos(alpha))/(pi r^3); h the height difference, d the distance in plan, r the true distance. */
typedef struct lw_lux {
    double horizontal_lx, hemispherical_lx, vertical_lx, semicylindrical_lx;
} lw_lux;

static const double lw_face_height_m = 1.5;

/* Candela that the lamp, tilt and turn counted, sends towards a place at height z_m; maintenance is not counted. */
double lw_lamp_towards_cd(const lw_lamp *lamp, double x_m, double y_m, double z_m);

/* Adds the light of one lamp to sum. */
void lw_lux_add(const lw_lamp *lamp, double x_m, double y_m, double facing_deg, lw_lux *sum);

#endif
