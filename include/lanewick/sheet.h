/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The frame of a printed sheet: header with lamp, plan code, date and page, footer with a bar of 100 mm to check the
 * print; headings, sentences, steps with a box to tick, tables, cautions in a ruled box with a black triangle. A new
 * page begins by itself where the room ends. Black on white, 11 pt or larger, A4.
 */
#ifndef LANEWICK_SHEET_H
#define LANEWICK_SHEET_H

#include "lanewick/canvas.h"
#include "lanewick/words.h"

#include <stdbool.h>
#include <stddef.h>

enum { LW_SHEET_COLUMNS = 8, LW_SHEET_HEAD = 80 };

typedef struct lw_sheet_table {
    size_t columns;
    double width_mm[LW_SHEET_COLUMNS]; /* together at most lw_sheet_width_mm */
    bool right[LW_SHEET_COLUMNS];      /* numbers stand at the right */
} lw_sheet_table;

typedef struct lw_sheet {
    lw_canvas *canvas;
    const lw_words *words;
    const char *title;  /* in the person's language */
    const char *lamp;   /* "path lamp" */
    const char *code;   /* of the plan */
    const char *date;   /* 2026-11-25 */
    size_t page, pages; /* pages 0: being counted */
    double y;           /* where the next thing is drawn, mm from the top */
    bool failed, bare;
    double text_pt;                              /* of sentences and values; 0: 11 */
    double keep_mm;                              /* room that the next rows leave on their page for what follows */
    bool tight;                                  /* less room between lines: a last page of a few lines is spared */
    const lw_sheet_table *table;                 /* whose rows are being drawn; NULL: none */
    char heads[LW_SHEET_COLUMNS][LW_SHEET_HEAD]; /* of its columns, said again on its next page */
    lw_error *err;
} lw_sheet;

static const double lw_sheet_left_mm = 18.0, lw_sheet_width_mm = 174.0, lw_sheet_top_mm = 30.0,
                    lw_sheet_bottom_mm = 277.0;

/* Draws a whole document: called at least twice, first to count the pages, then on paper. Where the last page would
 * hold only a few lines, a tighter setting is taken if it saves that page. */
typedef void lw_sheet_draw(lw_sheet *sheet, const void *payload);

typedef struct lw_sheet_head {
    const lw_words *words;
    const char *title, *lamp, *code, *date;
    bool bare; /* no header and footer */
} lw_sheet_head;

/* A PDF (all pages), or page number `page` as SVG or PNG at 150 dots per inch. The bytes belong to the caller. */
LW_MUST_CHECK bool lw_sheet_print(lw_paper paper, size_t page, const lw_sheet_head *head, lw_sheet_draw *draw,
                                  const void *payload, unsigned char **bytes, size_t *length, size_t *pages,
                                  lw_error *err);

/* How many pages it has. */
LW_MUST_CHECK bool lw_sheet_count(const lw_sheet_head *head, lw_sheet_draw *draw, const void *payload, size_t *pages,
                                  lw_error *err);

/* The pages of another PDF behind those of *bytes; then a PDF that asks the viewer for its printing dialogue. *bytes
 * is replaced, or stays as it is on error. */
LW_MUST_CHECK bool lw_pdf_join(unsigned char **bytes, size_t *length, const unsigned char *more, size_t more_length,
                               lw_error *err);
LW_MUST_CHECK bool lw_pdf_prints(unsigned char **bytes, size_t *length, lw_error *err);

/* What printed it, with its version. */
extern const char lw_sheet_program[];
/* A bar of so many millimetres with a tick every ten, to lay a ruler on. */
void lw_sheet_bar(lw_canvas *canvas, double x, double y, double length_mm);

/* Begins a new page when less than room_mm are left. Pictures ask for their height and draw at sheet->y. */
void lw_sheet_need(lw_sheet *sheet, double room_mm);
void lw_sheet_new_page(lw_sheet *sheet);
void lw_sheet_gap(lw_sheet *sheet, double mm);
/* So much room between two things as the sheet's setting gives for mm. */
double lw_sheet_space(const lw_sheet *sheet, double mm);

/* Texts come in the person's language already (lw_say). */
void lw_sheet_heading(lw_sheet *sheet, const char *text);
void lw_sheet_text(lw_sheet *sheet, const char *text);
void lw_sheet_caution(lw_sheet *sheet, const char *text);
/* A box to tick, a number, what to do. */
void lw_sheet_step(lw_sheet *sheet, int number, const char *text);
/* "name ........ value" */
void lw_sheet_value(lw_sheet *sheet, const char *name, const char *value);

/* One row with a rule below it; bold for the head of the table, which comes again where the table goes on on a new
 * page, and for its sum. NULL cells stay empty to be written in. */
void lw_sheet_row(lw_sheet *sheet, const lw_sheet_table *table, bool bold, const char *const *cells);

#endif
