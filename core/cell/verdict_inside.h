/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner steps of the verdict.
 */
#ifndef LANEWICK_VERDICT_INSIDE_H
#define LANEWICK_VERDICT_INSIDE_H

#include "lanewick/verdict.h"

void lw_add_reason(lw_judgement *out, const char *text, const char *source);

/* The refusals that no grading rule can change; adds a reason for each. True when the cell is scrap by them. */
bool lw_unsafe_cell(const lw_cell_facts *facts, lw_judgement *out);

/* The next test for a cell that is unsure: that with the greatest chance of an answer for a minute of bench time. */
void lw_choose_next(const lw_cell_facts *facts, const lw_grading *grading, const bool open[LW_TEST_COUNT],
                    lw_judgement *out);

/* Scrap limit of capacity for this cell [Ah]. */
double lw_scrap_ah(const lw_cell_facts *facts, const lw_grading *grading);
/* Limits of resistance [ohm]. */
double lw_scrap_ohm(const lw_cell_facts *facts, const lw_grading *grading);

/* Chance that a normal quantity lies below a limit. */
double lw_chance_below(const lw_estimate *e, double limit);

#endif
