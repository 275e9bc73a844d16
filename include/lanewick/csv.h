/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Tables of text as spreadsheets write them (RFC 4180): separator comma, semicolon or tab, told by the first line;
 * fields in double quotes; line ends LF, CRLF or CR; a byte-order mark; UTF-16 is decoded. Decimal commas are read
 * where they cannot be meant otherwise. Bytes in memory only.
 */
#ifndef LANEWICK_CSV_H
#define LANEWICK_CSV_H

#include "lanewick/arena.h"
#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { LW_CSV_MAX_BYTES = 100 * 1024 * 1024, LW_CSV_MAX_COLUMNS = 64, LW_CSV_MAX_ROWS = 1000000 };

typedef struct lw_csv {
    size_t rows, columns; /* rows without the header */
    const char **header;  /* [columns], lower case, without spaces around */
    const char **field;   /* of all rows, one after the other, without spaces around */
    size_t *start;        /* [rows + 1] where the fields of a row begin */
    int *line;            /* [rows] line of the file on which the row begins, from 1 */
    char separator;
    int points, commas; /* decimals seen so far by lw_csv_number */
} lw_csv;

/* Bytes of arena that reading this text needs; 0 when it is longer than LW_CSV_MAX_BYTES. */
size_t lw_csv_memory(const char *bytes, size_t length);

/* Errors: empty, too long, no header, a row with more or fewer fields than the header, a quote that does not end, a
 * column twice, bytes that are no text. */
LW_MUST_CHECK bool lw_csv_read(const char *bytes, size_t length, lw_arena *arena, lw_csv *out, lw_error *err);

/* The same, but a row that does not fit the header is no error as long as one fits: lw_csv_row_fits() tells of it. */
LW_MUST_CHECK bool lw_csv_read_ragged(const char *bytes, size_t length, lw_arena *arena, lw_csv *out, lw_error *err);
/* Whether the row has as many fields as the header; always so after lw_csv_read(). */
LW_MUST_CHECK bool lw_csv_row_fits(const lw_csv *csv, size_t row, lw_error *err);

/* Column of that name, -1 when there is none. */
int lw_csv_column(const lw_csv *csv, const char *name);
const char *lw_csv_text(const lw_csv *csv, size_t row, int column); /* "" for column -1 and fields that lack */

/* A number; an empty field leaves *given false. A file that mixes decimal points and commas is refused. */
LW_MUST_CHECK bool lw_csv_number(lw_csv *csv, size_t row, int column, bool *given, double *x, lw_error *err);

/* Writes a field in double quotes, those of the text twice. */
void lw_csv_quote(FILE *out, const char *text);

#endif
