/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the parts of the LM-63 reader share.
 */
#ifndef LANEWICK_LM63_INSIDE_H
#define LANEWICK_LM63_INSIDE_H

#include "lanewick/lm63.h"

typedef struct lw_lm63_reader {
    const char *at, *end; /* the rest of the text */
    size_t line;          /* of at, from 1 */
    bool tolerant;
    bool failed;                      /* a fatal defect was told; err holds the first */
    bool ends;                        /* nothing more can be read: the file's end, or too many defects */
    size_t keywords_end, lumens_line; /* line of TILT=; of the lumens per lamp */
    lw_arena *arena;
    lw_lm63 *out;
    lw_error *err;
} lw_lm63_reader;

/* Puts a defect on the list; the first fatal one sets the error. False when reading cannot go on. */
bool lw_lm63_tell(lw_lm63_reader *r, size_t line, lw_severity severity, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
/* Fatal when strict, mended when tolerant. */
#define LW_LM63_MEND(r) ((r)->tolerant ? LW_MENDED : LW_FATAL)

/* Version, keywords and TILT: leaves the reader at the first number. */
bool lw_lm63_header(lw_lm63_reader *r);

/* The same for a defect that ends the reading: false. */
bool lw_lm63_end(lw_lm63_reader *r, size_t line, const char *format, ...) __attribute__((format(printf, 3, 4)));

/* The next number of the stream; its line is r->line. NaN where a word stands that is none, and it was told. */
bool lw_lm63_number(lw_lm63_reader *r, const char *what, double *number);
/* The next number, which must be whole and from low to high (from 1 up); 0 where it is not, and it was told. */
bool lw_lm63_whole(lw_lm63_reader *r, const char *what, int low, int high, int *number);
bool lw_lm63_numbers(lw_lm63_reader *r, const char *what, double *numbers, size_t count);
/* Tells what is odd but harmless and what only the whole table of type C shows; the candela begin on the line after. */
void lw_lm63_oddities(lw_lm63_reader *r, size_t angles_line);
/* Nothing but white space may follow. */
bool lw_lm63_finish(lw_lm63_reader *r);

#endif
