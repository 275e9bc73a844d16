/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The mast of a planned lamp: the smallest pole of the shelf that stands in the wind of the place, its base and what
 * is bought for them. No wind given: not checked. None stands: the plan is refused. A screening; a licensed engineer
 * decides.
 */
#ifndef LANEWICK_PLAN_MAST_H
#define LANEWICK_PLAN_MAST_H

#include "lanewick/brief.h"
#include "lanewick/mast_check.h"

/* The light hangs so far below the top of its mast. */
static const double lw_light_below_top_m = 0.35;
/* Common panels give so many watts a square metre with their frames. */
static const double lw_panel_w_m2 = 170.0;

typedef struct lw_plan_mast {
    bool checked; /* a wind was given, and the mast stands */
    int pole;     /* in shelf.mast; -1: a common steel tube (S235), bought, its price not counted */
    char pole_name[LW_NAME];
    lw_mast_wish wish;
    lw_mast_result result;
    double depth_m, length_m; /* of the hole (or block), and of the pole with its part in the ground */
    double concrete_m3;
    int missing; /* poles that the shelf lacks for these lamps */
    int64_t cost_minor;
} lw_plan_mast;

/* Width of what is dug: collar, block, or the pole with stones rammed round it. */
double lw_plan_mast_hole_m(const lw_plan_mast *mast);

/* What the shelf and the building of the brief say of a mast with a panel of panel_w, a pack of pack_wh and a light
 * light_m above the ground, 0.35 m below the top (0: the mast is as high as the brief says); the pole is left open.
 * Weights and areas by common practice: 170 W and 12 kg a square metre of panel, 150 Wh a kilogram of cells, a box of
 * 0.3 x 0.35 m. LW_REFUSED: soft ground; *out lacks its pressure then. */
LW_MUST_CHECK bool lw_plan_mast_wish(const lw_brief *brief, double panel_w, double pack_wh, double tilt_deg,
                                     double light_m, lw_mast_wish *out, lw_error *err);

/* The pole and the collar round it. Rust is counted from a wall as it was measured; wood and plastic remember all their
 * years. */
void lw_plan_mast_take(lw_mast_wish *wish, const lw_brief *brief, const lw_shelf_mast *mast);

/* The mast of one lamp, as a plan tells it and as somebody tries it; NAN, -1 or empty: not told. */
typedef struct lw_mast_pipe {
    lw_tube tube;
    int material; /* place in LW_MAST_MATERIAL_WORDS */
} lw_mast_pipe;
typedef struct lw_lamp_mast {
    double panel_w, pack_wh, tilt_deg;
    char pole[LW_NAME];     /* that the plan took */
    lw_mast_pipe pole_pipe; /* its measures */
    lw_mast_pipe other;     /* tried instead: a new one; what is not told of it is the pole's */
    double collar_m;        /* tried instead, taken as it is */
} lw_lamp_mast;
lw_lamp_mast lw_lamp_mast_untold(void);

/* What is asked about that mast. Not told: the strongest panel of the shelf (34 W), a pack of 80 Wh, the tilt of the
 * brief (15 degrees), the thickest pole of the shelf (a steel tube of 76.1 x 3.2 mm). A pole that is not on the shelf
 * is taken by its measures. Soft ground, which nothing may stand in, is left to the check: its pressure is 0. */
void lw_lamp_mast_wish(const lw_brief *brief, const lw_lamp_mast *lamp, lw_mast_wish *out);

/* The smallest pole (diameter, then wall) that stands, of those of which `left` holds count or more; else the smallest
 * that stands, with `missing`. false: none stands, `why` says it of the strongest, `remedy` what would. */
bool lw_plan_mast_choose(const lw_brief *brief, const lw_mast_wish *wish, const int *left, int count, lw_plan_mast *out,
                         char why[LW_REASON], char remedy[LW_REASON]);

#endif
