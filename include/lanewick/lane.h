/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The light on a lane, a square or any polygon: grid of points, sums over all lamps, class reached.
 *
 * Grid of a lane (EN 13201-3:2015 / CIE 140:2000, from memory): the standard's field lies between two neighbouring
 * masts S apart and has N points along it, N = 10 when S is at most 30 m, else the fewest with steps of at most 3 m;
 * across it the fewest with steps of at most 1.5 m, at least 3; the first point half a step from the edge. A lane that
 * ends is all field here (own): people walk beyond the outermost masts too; its steps are those of its shortest bay, or
 * finer. Masts of either side are neighbours: for masts in turn on both sides this is finer than the standard, which
 * takes S on one side. Where a lane bends, both pieces end at the line that halves the
 * corner (own), so that every place counts once; a bend turns by at most 120 degree. Polygons: square-like cells of at
 * most 1 m, at least 10 by 10 (own).
 */
#ifndef LANEWICK_LANE_H
#define LANEWICK_LANE_H

#include "lanewick/arena.h"
#include "lanewick/light.h"

enum { LW_LANE_MAX_CORNERS = 64, LW_LANE_MAX_LAMPS = 2000, LW_LANE_MAX_POINTS = 100000 };

typedef struct lw_corner {
    double x_m, y_m;
} lw_corner;

typedef enum lw_field_kind {
    LW_FIELD_STRIP,  /* a line of two or more corners with a width: a straight or bent lane */
    LW_FIELD_POLYGON /* three or more corners: a square, a junction, a market place */
} lw_field_kind;

typedef struct lw_field {
    lw_field_kind kind;
    lw_corner corners[LW_LANE_MAX_CORNERS]; /* a strip's line runs along the lane's right-hand edge seen forward */
    size_t corner_count;
    double width_m; /* strips: to the left of the line */
} lw_field;

typedef struct lw_field_point {
    double x_m, y_m;
    double along_deg; /* direction of the lane here; faces are judged along it, both ways */
    double area_m2;   /* of its cell: averages are those of the ground */
    lw_lux ahead;     /* what is received facing along_deg */
    lw_lux back;      /* facing the other way */
} lw_field_point;

/* The shortest distance along a lane between two neighbouring masts of either side. Lamps less than 1 m on from the
 * last one count as on its mast (or opposite it). INFINITY: fewer than two masts, or a polygon. */
double lw_field_bay_m(const lw_field *field, const lw_lamp *lamps, size_t count);

/* The grid of a field in the arena. bay_m, above 0: see lw_field_bay_m(); polygons do not need it. */
LW_MUST_CHECK bool lw_field_grid(const lw_field *field, double bay_m, lw_arena *arena, lw_field_point **points,
                                 size_t *count, lw_error *err);

/* Its checks alone, and the most points it can have (of a field that passes them). */
LW_MUST_CHECK bool lw_field_check(const lw_field *field, lw_error *err);
size_t lw_field_most_points(const lw_field *field, double bay_m);

/* The steps of that grid: of a strip's first piece; of a polygon's cells, about one metre. */
void lw_field_steps(const lw_field *field, double bay_m, double *along_m, double *across_m);

/* Piece i of a strip as it counts: along its line, back along its left edge. */
void lw_field_piece(const lw_field *field, size_t i, lw_corner out[4]);

/* Whether a place lies in a polygon. */
bool lw_field_holds(const lw_field *field, double x, double y);
/* From a place to the nearest point of the field, 0 inside it. Pieces of a strip are at least 0.1 m long. */
double lw_field_distance_m(const lw_field *field, double x_m, double y_m);

/* Fills the light of every point. reach_heights: only lamps within so many of their heights in plan count (the
 * standard's rule is 5); 0: all lamps count, which is what the lane really gets. */
void lw_field_light(const lw_lamp *lamps, size_t lamp_count, double reach_heights, lw_field_point *points,
                    size_t count);

typedef struct lw_field_sum {
    double average_lx, minimum_lx, maximum_lx, uniformity;  /* horizontal, on the ground */
    double vertical_minimum_lx, semicylindrical_minimum_lx; /* at face height, the worse of both ways */
    double hemispherical_average_lx;
    double upward_share; /* light of the heads above the horizontal */
    double threshold_increment_pct;
} lw_field_sum;

lw_field_sum lw_field_summary(const lw_field_point *points, size_t count);

/* Share of the lamps' light that goes above the horizontal, tilt counted, by summing over directions (about 0.1 %). */
double lw_upward_share(const lw_lamp *lamps, size_t lamp_count);

/* Glare of the lane in per cent, the worst over all points and both ways; EN 13201-2 allows 20 (P1) to 35 (P6).
 * average_lx: of these lamps. left: the share of their first light that lamps and average_lx still count, above 0; new
 * and clean lamps dazzle more and are what is judged. ground_reflectance: 0.1 (wet earth) to 0.4 (dry sand). */
double lw_threshold_increment_pct(const lw_lamp *lamps, size_t lamp_count, const lw_field_point *points, size_t count,
                                  double average_lx, double left, double ground_reflectance);

/* Light on a window at (x, y, z) that looks towards facing_deg; EN 12193 and common practice: at most 2 lx in dark
 * places. */
double lw_window_lx(const lw_lamp *lamps, size_t lamp_count, double x_m, double y_m, double z_m, double facing_deg);

/* Lighting classes for people on foot, EN 13201-2:2015 Table 3 (P) and Table 2 (C), as restated by makers' pages.
 * The highest class whose average and minimum are met; NULL below the lowest. */
typedef struct lw_light_class {
    const char *name;
    double average_lx, minimum_lx; /* C classes: uniformity instead of a minimum */
    double uniformity;
} lw_light_class;

const lw_light_class *lw_light_class_find(const char *name); /* "P1".."P6", "C0".."C5", NULL when there is none */
const lw_light_class *lw_light_class_reached(const lw_field_sum *sum, bool crossing);
/* What that much light is like, in plain words, from the minimum and the light on faces. */
const char *lw_light_in_words(const lw_field_sum *sum);

#endif
