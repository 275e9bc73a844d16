/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where masts go on a lane, a bent lane or a square so that the wished light is met: for each number of masts, head and
 * height the side, tilt and turn that need the fewest lumens.
 *
 * The light of a layout is linear in the lumens of its heads, so one evaluation with 1 lm tells how many are needed:
 * the largest of wanted average over average, wanted minimum over minimum (and wanted face light over face light).
 * Lamps that stand there anyway add a light of their own: then it is a straight line in the lumens, solved point by
 * point. A uniformity alone does not depend on the lumens: a layout that misses it is left out.
 *
 * All lamps are turned down together late at night, so the least late level is the wanted late light over the light.
 */
#ifndef LANEWICK_LAYOUT_H
#define LANEWICK_LAYOUT_H

#include "lanewick/head.h"
#include "lanewick/lane.h"

enum { LW_LAYOUT_CHOICES = 16, LW_LAYOUT_HEADS = 12, LW_LAYOUT_MAX_MASTS = 120, LW_LAYOUT_FIXED = 16 };

/* Along a lane: all on its right-hand edge, in turn on both, or over its middle. Around a square masts stand on its
 * edge: only LW_SIDE_ONE. */
typedef enum lw_side { LW_SIDE_ONE, LW_SIDE_STAGGERED, LW_SIDE_MIDDLE } lw_side;

typedef struct lw_light_wish { /* maintained; 0: not asked for */
    double average_lx, minimum_lx, uniformity, semicylindrical_lx;
} lw_light_wish;

typedef struct lw_layout_head {
    lw_beam beam;        /* of 1 lm: peak for one lumen, or a table and the lumens it holds */
    double table_lumens; /* of the bare head: a diffuser takes its share of them */
    double yellowed;    /* what a yellowing diffuser still lets through when the light counts, over that of a new one */
    double most_lumens; /* that one head can give; 0: no limit */
} lw_layout_head;

typedef struct lw_layout_wish {
    lw_field field;  /* lanes 1..2000 m long, 0.5..50 m wide; polygons */
    double offset_m; /* masts stand so far outside the edge, 0..10 */
    lw_light_wish light, late;
    double maintenance; /* of the first light */
    lw_layout_head head[LW_LAYOUT_HEADS];
    size_t head_count;
    double heights_m[LW_LAYOUT_CHOICES], tilts_deg[LW_LAYOUT_CHOICES];
    double turns_deg[LW_LAYOUT_CHOICES]; /* from straight across the lane; 90: along it */
    size_t height_count, tilt_count, turn_count;
    bool sides[3]; /* lw_side: may it be used */
    size_t fewest_masts, most_masts;
    lw_corner place[LW_LAYOUT_MAX_MASTS]; /* given places: then nothing else may stand, and sides do not count */
    size_t place_count;
    lw_lamp fixed[LW_LAYOUT_FIXED]; /* lamps that stand there anyway, with their own light and maintenance */
    size_t fixed_count;
} lw_layout_wish;

typedef struct lw_layout {
    size_t masts, head, height; /* places in the lists of the wish */
    lw_side side;
    double height_m, tilt_deg, turn_deg;
    double spacing_m;   /* along the lane or the edge, from mast to mast whatever their sides; 0: given places */
    double end_m;       /* of a lane: from its ends to the outermost masts, at most half a spacing */
    double lumens_each; /* of a new head, so that the wish holds at the stated maintenance */
    double late_level;  /* least share of full light that meets the late wish; 0: none is asked for */
    lw_field_sum light; /* maintained, with those lumens, fixed lamps counted */
} lw_layout;

typedef enum lw_lane_aim { LW_AIM_COST, LW_AIM_MASTS, LW_AIM_WATTS } lw_lane_aim;

/* A wish as its document states it. */
typedef struct lw_layout_request {
    lw_layout_wish wish;
    char wanted_class[8], late_class[8];  /* "" when none is wanted */
    lw_head head[LW_LAYOUT_HEADS];        /* as stated, without lumens */
    lw_head fixed_head[LW_LAYOUT_FIXED];  /* of the lamps that stand there anyway, with their lumens */
    double lumens_per_w[LW_LAYOUT_HEADS]; /* of each head: without a brief LEDs, driver and diffuser together */
    lw_lane_aim aim;
} lw_layout_request;

/* Advice about the white of a layout's head near houses, hooded when less than 5 % goes upward (a flat
 * board tilted by 20 degree: 3 %). Only when its colour_k
 * is stated.
 */
lw_light_colour lw_layout_colour(const lw_layout_request *request, const lw_layout *layout);
/* Length along which masts are spaced: a lane's edge, or all round a polygon. */
double lw_layout_length_m(const lw_field *field);
/* Ways of setting the outermost masts back from a lane's ends, where one lamp alone gives the light: the first is half
 * a spacing, which around a polygon, for one mast and on given places is the only one. */
size_t lw_layout_ends(const lw_layout_wish *wish, size_t masts);
/* Spacing and end_m of one of those ways, both 0 on given places. */
void lw_layout_space(const lw_layout_wish *wish, size_t way, lw_layout *layout);
/* Places the lamps of a layout, the first end_m from the end. lamps has room for masts. */
void lw_layout_lamps(const lw_layout_wish *wish, const lw_layout *layout, lw_lamp *lamps);
/* The grid of the lane with the bays of a layout (lw_field_grid()): where it is judged. */
LW_MUST_CHECK bool lw_layout_grid(const lw_layout_wish *wish, const lw_layout *layout, lw_arena *arena,
                                  lw_field_point **points, size_t *count, lw_error *err);
/* Share of the first light that is left when the head of a layout is oldest: the wish's, its diffuser yellowed. */
double lw_layout_left(const lw_layout_wish *wish, const lw_layout *layout);
/* The light of a layout at the stated lumens and level, of new and clean heads or aged ones; points: the grid of
 * the layout. */
void lw_layout_light(const lw_layout_wish *wish, const lw_layout *layout, bool aged, double level,
                     lw_field_point *points, size_t count, lw_field_sum *out);

/* The layout with the fewest lumens for each number of masts, head and height that can meet the wish, in this order;
 * count may be 0. out has room for lw_layout_room(). Arena for one grid, some 100 bytes a point, given back. Errors:
 * ranges, no choice of height, tilt or side, places far from the lane. */
size_t lw_layout_room(const lw_layout_wish *wish);
LW_MUST_CHECK bool lw_layout_all(const lw_layout_wish *wish, lw_arena *arena, lw_layout *out, size_t *count,
                                 lw_error *err);

/* Of those the one with the fewest watts for each number of masts (the first head's watts count as 1 for each lumen
 * when lumens_per_w is NULL), in rising number of masts. out has room for LW_LAYOUT_MAX_MASTS. */
LW_MUST_CHECK bool lw_layout_search(const lw_layout_wish *wish, const double *lumens_per_w, lw_arena *arena,
                                    lw_layout *out, size_t *count, lw_error *err);

#endif
