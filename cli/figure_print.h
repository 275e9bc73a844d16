/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figures as text for a person, printed from their descriptions.
 */
#ifndef LANEWICK_FIGURE_PRINT_H
#define LANEWICK_FIGURE_PRINT_H

#include "lanewick/figure.h"

void lw_figure_print_list(bool json);
void lw_figure_print_help(const lw_figure *figure);
void lw_figure_print_answer(const lw_figure_call *call);
void lw_figure_print_reference(void);

#endif
