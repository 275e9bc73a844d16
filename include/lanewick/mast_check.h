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

/* What the mast stands in or on: its own foot in tamped stone, the foot in a concrete collar over the full depth, or a
 * steel plate that is welded to it and bolted to a block of concrete or to rock. */
typedef enum lw_base_kind { LW_BASE_BURIED, LW_BASE_COLLAR, LW_BASE_PLATE } lw_base_kind;
#define LW_BASE_WORDS "buried|collar|plate"

typedef struct lw_plate_wish {
    double block_m;        /* side of the square block; 0: as needed, up to 2 m */
    double thickness_m;    /* its height, all of it in the ground */
    double bolt_mm;        /* four anchor bolts on a square */
    double bolt_spacing_m; /* its side; 0: 0.12 m more than the pipe */
    lw_bolt_grade grade;
    bool on_rock;      /* bolted to sound rock, no block */
    double bearing_pa; /* allowable pressure of the soil */
} lw_plate_wish;

/* A second pipe of the same material inside the top of the first; its diameter 0: there is none. */
typedef struct lw_mast_upper {
    lw_tube pipe;
    double lower_length_m; /* of the first pipe, with its part in the ground */
    double lap_m;
} lw_mast_upper;

typedef struct lw_mast_wish {
    bool wind_given;
    lw_wind_site wind;
    double return_years; /* mean_10min only */
    lw_mast_part panel, box, head;
    double panel_tilt_deg, panel_width_m;
    double head_arm_m; /* how far the head's weight hangs beside the pipe */
    lw_tube pipe;
    lw_mast_upper upper;
    double height_m;
    size_t material; /* place in LW_MAST_MATERIAL_WORDS */
    double wall_temp_c, age_years;
    double hole_mm; /* widest door or cable hole in the lowest metre */
    bool wall_measured;
    lw_base_kind base;
    lw_plate_wish plate;
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

/* Where the upper pipe leaves the lower one; all 0 where the mast is one pipe. */
typedef struct lw_mast_joint {
    double mouth_m, upper_length_m; /* above ground; of the upper pipe with its lap */
    lw_mast_bending bending;        /* of the upper pipe at the mouth */
    double contact_n_mm, wall_use;  /* load on the wall at the mouth; share of its strength, with load factor */
    double bolt_n, bolt_use;        /* one bolt M10 of grade 4.6 through both: shear in each plane */
} lw_mast_joint;

/* A base plate with its block; all 0 where the base is another. */
typedef struct lw_mast_foot {
    double block_m, thickness_m;    /* 0 on rock */
    double block_that_holds_m;      /* smallest of 0.1 m steps; 0: none up to 2 m */
    double overturning;             /* what holds over what overturns; 1.5 is wanted */
    double pressure_pa, allowed_pa; /* greatest under the edge */
    double spacing_m, bolt_n;       /* pull of one bolt, without load factor */
    double bolt_use;                /* of its strength, with load factor */
    double anchor_m;                /* straight bar in hand-mixed concrete; 0 on rock: asked of an engineer */
    double plate_m, plate_mm;       /* side and thickness of the steel plate */
} lw_mast_foot;

enum { LW_MAST_NOTES = 28, LW_MAST_NOTE_BYTES = 320 };
typedef struct lw_mast_result {
    lw_mast_verdict verdict;
    lw_wind wind; /* at the panel */
    double panel_n, box_n, head_n, pipe_n, lift_n, twist_nm;
    double arm_m; /* where the sum of the forces acts */
    lw_mast_bending bending;
    lw_wall_buckling thin_wall; /* all 0 where the wall is no thinner than its material's limit */
    lw_mast_vibration vibration;
    lw_shedding shedding;
    lw_raising raising;
    double clamp_nm; /* twist at which one hose clamp on the pole slips: band 1 kN, friction 0.2 (common practice) */
    double line_clear_m; /* foot to an overhead line up to 50 kV: the whole pole may fall towards it before its foot
                            is in the ground */
    double depth_m, base_margin; /* depth needed with what is loosened; margin against overturning: Broms, sand of 18
                                    kN/m3, or clay of 40 kPa where the soil is weak */
    lw_mast_foot foot;
    lw_mast_joint joint;
    double total_kg, tilting_nm;       /* weight, and the moment that tilting it up needs at first */
    double panel_that_stands_m2;       /* largest panel on this pipe; 0: none */
    lw_tube steel_that_stands;         /* diameter 0: none */
    lw_mast_note notes[LW_MAST_NOTES]; /* reasons first, then cautions */
    size_t reasons, note_count;
} lw_mast_result;

/* LW_WRONG_INPUT and LW_REFUSED (a wall that buckles, PVC above 50 degC, no depth that holds) as errors; a mast that
 * does not stand is a result with LW_MAST_FALLS, so that it can say what would. */
LW_MUST_CHECK bool lw_mast_check(const lw_mast_wish *wish, lw_mast_result *out, lw_error *err);

#endif
