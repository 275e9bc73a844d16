/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The whole mast: wind forces on panel, box, head and pipe, the pipe, its swing, its base, lifting. A screening: where
 * it refuses, nothing overrides it; where it passes, a licensed engineer still decides in the cases it names.
 */
#ifndef LANEWICK_MAST_CHECK_H
#define LANEWICK_MAST_CHECK_H

#include "lanewick/footing.h"
#include "lanewick/mast.h"
#include "lanewick/mast_parts.h"
#include "lanewick/wind.h"

typedef struct lw_mast_part {
    double area_m2, height_m, kg;
    double coefficient; /* of force: panel 1.8, box 1.4, bottle head 0.8 */
} lw_mast_part;

typedef struct lw_mast_wish {
    bool wind_given;
    lw_wind_site wind;
    double return_years; /* mean_10min only */
    lw_mast_part panel, box, head;
    double panel_tilt_deg, panel_width_m;
    double head_arm_m; /* how far the head's weight hangs beside the pipe */
    lw_tube pipe;
    double height_m;
    size_t material; /* place in LW_MAST_MATERIAL_WORDS */
    double wall_temp_c, age_years;
    double hole_mm; /* widest door or cable hole in the lowest metre */
    bool wall_measured;
    double collar_m; /* diameter of the concrete collar; the pipe's own when in tamped stone */
    double soil_pa_per_m;
    bool doubled, paved, flooded;
    double loose_m; /* depth that frost, ants, gardens or floods loosen */
    double depth_m; /* dug; 0: as computed */
    bool hill, on_building, people_below, power_line_near, guyed, welded;
} lw_mast_wish;

lw_mast_wish lw_mast_wish_default(void);

typedef enum lw_mast_verdict {
    LW_MAST_STANDS,
    LW_MAST_ENGINEER,    /* passes, but a licensed engineer decides for the reasons given */
    LW_MAST_NOT_CHECKED, /* no wind speed given */
    LW_MAST_FALLS        /* refused */
} lw_mast_verdict;
const char *lw_mast_verdict_text(lw_mast_verdict verdict);

/* A sentence in English with the places of at most three numbers ("%.3g m"), so that it can be said in another
 * language before they are filled in. */
typedef struct lw_mast_note {
    const char *text;
    double value[3];
} lw_mast_note;
/* Fills the numbers into `text`, which is the note's own or its translation. */
void lw_mast_note_say(const lw_mast_note *said, const char *text, char *out, size_t size);

enum { LW_MAST_NOTES = 24, LW_MAST_NOTE_BYTES = 320 };
typedef struct lw_mast_result {
    lw_mast_verdict verdict;
    lw_wind wind; /* at the panel */
    double panel_n, box_n, head_n, pipe_n, lift_n, twist_nm;
    double arm_m; /* where the sum of the forces acts */
    lw_mast_bending bending;
    lw_mast_vibration vibration;
    lw_shedding shedding;
    lw_raising raising;
    double clamp_nm; /* twist at which one hose clamp on the pole slips: band 1 kN, friction 0.2 (common practice) */
    double line_clear_m;         /* foot to an overhead line up to 50 kV: what is raised may fall towards it */
    double depth_m, base_margin; /* depth needed with what is loosened; margin against overturning: Broms, sand of 18
                                    kN/m3, or clay of 40 kPa where the soil is weak */
    double total_kg, tilting_nm; /* weight, and the moment that tilting it up needs at first */
    double panel_that_stands_m2; /* largest panel on this pipe; 0: none */
    lw_tube steel_that_stands;   /* diameter 0: none */
    lw_mast_note notes[LW_MAST_NOTES]; /* reasons first, then cautions */
    size_t reasons, note_count;
} lw_mast_result;

/* LW_WRONG_INPUT and LW_REFUSED (a wall that buckles, PVC above 50 degC, no depth that holds) as errors; a mast that
 * does not stand is a result with LW_MAST_FALLS, so that it can say what would. */
LW_MUST_CHECK bool lw_mast_check(const lw_mast_wish *wish, lw_mast_result *out, lw_error *err);

#endif
