/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The files of a board, each written by its own file here.
 */
#ifndef LANEWICK_GERBER_INSIDE_H
#define LANEWICK_GERBER_INSIDE_H

#include "lanewick/gerber.h"

#include <stdio.h>

/* A length in the unit of the layers, a millionth of a millimetre. */
long long lw_gerber_unit(double mm);
/* What follows the head of the legend's layer. */
void lw_gerber_legend(FILE *out, const lw_led_board *board);
void lw_gerber_drill(FILE *out, const lw_led_board *board);

#endif
