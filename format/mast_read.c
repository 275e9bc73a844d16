/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keys of a base plate and of an upper pipe: see mast_read.h.
 */
#include "mast_read.h"

void lw_doc_plate(lw_doc *base, lw_plate_wish *out)
{
    out->on_rock = lw_doc_flag_or(base, "on_rock", false, NULL);
    out->block_m = lw_doc_number_or(base, "block_m", 0.0, 3.0, (lw_doc_or){0.0, "m", NULL});
    out->thickness_m = lw_doc_number_or(base, "block_height_m", 0.3, 1.5, (lw_doc_or){0.5, "m", NULL});
    out->bolt_mm = lw_doc_number_or(base, "bolt_mm", 10.0, 24.0, (lw_doc_or){16.0, "mm", NULL});
    out->bolt_spacing_m = lw_doc_number_or(base, "bolt_spacing_m", 0.0, 1.0, (lw_doc_or){0.0, "m", NULL});
    out->grade = (lw_bolt_grade)lw_doc_choice(base, "grade", LW_BOLT_GRADE_WORDS, (int)LW_BOLT_4_6, NULL);
    if (out->on_rock && out->bearing_pa < lw_soil_bearing_pa(LW_SOIL_ROCK))
        lw_doc_fail(base, "on_rock", "goes with the soil \"rock\" only.");
    if (out->bearing_pa > 0.0)
        lw_doc_set(base, "bearing_pa", 10e3, 1e6, "Pa", &out->bearing_pa);
    else if (!out->on_rock)
        out->bearing_pa = lw_doc_number(base, "bearing_pa", 10e3, 1e6, "Pa");
}

void lw_doc_upper(lw_doc *pipe, lw_mast_upper *out, double *upper_length_m)
{
    lw_doc doc = lw_doc_part(pipe, "upper", true);
    out->pipe.diameter_mm = lw_doc_number(&doc, "diameter_mm", 15.0, 400.0, "mm");
    out->pipe.wall_mm = lw_doc_number(&doc, "wall_mm", 0.5, 0.5 * out->pipe.diameter_mm, "mm");
    out->lap_m = lw_doc_number(&doc, "lap_m", 0.02, 6.0, "m");
    if (upper_length_m)
        *upper_length_m = lw_doc_number(&doc, "length_m", 0.5, 12.0, "m");
    else
        out->lower_length_m = lw_doc_number(&doc, "lower_length_m", 0.5, 16.0, "m");
    (void)lw_doc_done(&doc);
}
