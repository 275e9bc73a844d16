/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An LED board as fabrication data: layers in Gerber X2 (Ucamco, The Gerber Layer Format Specification), holes in the
 * Excellon drill format as that specification's companion XNC keeps it. Millimetres; nothing in them depends on the
 * clock, so that the same board gives the same bytes.
 */
#ifndef LANEWICK_GERBER_H
#define LANEWICK_GERBER_H

#include "lanewick/led_board.h"

typedef enum lw_board_file {
    LW_BOARD_FILE_COPPER,
    LW_BOARD_FILE_MASK,   /* where the copper stays bare */
    LW_BOARD_FILE_LEGEND, /* white print */
    LW_BOARD_FILE_OUTLINE,
    LW_BOARD_FILE_DRILL,
    LW_BOARD_FILES
} lw_board_file;

/* "copper.gbr" */
const char *lw_board_file_ending(lw_board_file file);
/* The whole file as text, free() it; NULL when memory is out. */
LW_MUST_CHECK char *lw_board_file_text(const lw_led_board *board, lw_board_file file);

#endif
