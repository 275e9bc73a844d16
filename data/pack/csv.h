/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The plain CSV of our own tables: commas, no quotes, one header line. Any fault ends the build with the line.
 */
#ifndef LANEWICK_PACK_CSV_H
#define LANEWICK_PACK_CSV_H

#include <stddef.h>

enum { CSV_MAX_COLUMNS = 128, CSV_MAX_LINE = 4096 };

typedef struct csv {
    const char *path;
    void *file; /* FILE */
    size_t line, columns;
    char header_text[CSV_MAX_LINE], row_text[CSV_MAX_LINE];
    char *header[CSV_MAX_COLUMNS], *row[CSV_MAX_COLUMNS];
} csv;

void csv_open(csv *c, const char *path);
int csv_next(csv *c); /* 1: a row was read; 0: end, file closed */
size_t csv_column(const csv *c, const char *name);
/* A number between low and high; when the cell is empty: absent. */
double csv_number(const csv *c, size_t column, double low, double high, double absent);
/* Twelve columns name_01..name_12. */
void csv_months(const csv *c, const char *name, double low, double high, double out[12]);
void csv_stop(const csv *c, const char *what); /* message with file and line, ends the program */

#endif
