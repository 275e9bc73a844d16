/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A text of the catalogue as a pattern: literal pieces between the places of printf.
 */
#ifndef LANEWICK_WORDS_TEMPLATE_H
#define LANEWICK_WORDS_TEMPLATE_H

#include <stdbool.h>
#include <stddef.h>

enum { LW_PLACES = 16 };

typedef struct lw_piece {
    const char *at;
    size_t n;
} lw_piece;

/* What stood at the places of a pattern, in their order. */
typedef struct lw_values {
    lw_piece value[LW_PLACES];
    bool text[LW_PLACES]; /* of %s; the others are numbers or single letters */
    size_t count;
} lw_values;

/* The place that begins here: its length, 0 when there is none. kind is its letter ('%' for a percent sign written
 * twice), number that of "%2$s", else 0. A % before a space or a comma is a percent sign by itself. */
size_t lw_place_read(const char *format, char *kind, int *number);

/* Where the text holds that piece first, NULL: nowhere. */
const char *lw_piece_find(lw_piece text, lw_piece what);

/* True when the whole text fits; values then tells what stands at the places. Each step of comparing is taken from
 * *steps; at 0 nothing fits any more. */
bool lw_template_fits(const char *format, lw_piece text, long *steps, lw_values *values);

#endif
