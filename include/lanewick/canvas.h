/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A drawing surface for sheets and pictures: the same drawing code gives PDF, SVG and PNG (cairo and pango).
 *
 * Lengths in millimetres, the origin at the top left, y downward; text sizes in points. Ink 0 is white paper, 1 is
 * black; colours only repeat what shape and word already say, so that a bad copier loses nothing.
 */
#ifndef LANEWICK_CANVAS_H
#define LANEWICK_CANVAS_H

#include "lanewick/error.h"

#include <stddef.h>

typedef enum lw_paper { LW_PAPER_PDF, LW_PAPER_SVG, LW_PAPER_PNG } lw_paper;
typedef enum lw_align { LW_ALIGN_LEFT, LW_ALIGN_CENTRE, LW_ALIGN_RIGHT } lw_align;

typedef struct lw_canvas lw_canvas;

typedef struct lw_point_mm {
    double x, y;
} lw_point_mm;

typedef struct lw_ink {
    double red, green, blue; /* 0..1 */
} lw_ink;

static const lw_ink lw_black = {0.0, 0.0, 0.0}, lw_grey = {0.45, 0.45, 0.45}, lw_pale = {0.85, 0.85, 0.85},
                    lw_white = {1.0, 1.0, 1.0};

/* A new drawing of one page; PNG at png_dpi dots per inch on white. NULL on error. PDF takes title and language
 * later through the document's finishing step. */
lw_canvas *lw_canvas_new(lw_paper paper, double width_mm, double height_mm, double png_dpi, const char *title,
                         lw_error *err);
/* The next page of a PDF, or of a document of which one page is kept; else SVG and PNG have one page. */
LW_MUST_CHECK bool lw_canvas_next_page(lw_canvas *canvas, lw_error *err);
/* Keeps only page number `page` of what is drawn from here on, for SVG and PNG of a document of many pages: other
 * pages are drawn and thrown away. 0: all (PDF). */
void lw_canvas_only_page(lw_canvas *canvas, size_t page);
size_t lw_canvas_pages(const lw_canvas *canvas);
/* Ends the drawing; the bytes belong to the caller: free(). The canvas is gone afterwards, also on error. */
LW_MUST_CHECK bool lw_canvas_finish(lw_canvas *canvas, unsigned char **bytes, size_t *length, lw_error *err);
/* Throws the drawing away. */
void lw_canvas_drop(lw_canvas *canvas);

/* The pen holds until it is changed. */
void lw_canvas_pen(lw_canvas *canvas, double width_mm, lw_ink ink);
void lw_canvas_dashes(lw_canvas *canvas, double on_mm, double off_mm); /* 0: a full line */

void lw_canvas_line(lw_canvas *canvas, double x0, double y0, double x1, double y1);
void lw_canvas_polyline(lw_canvas *canvas, const lw_point_mm *points, size_t count, bool closed);
/* Many short lines as one path: add pairs of ends (an odd last point is left out), then stroke them. */
void lw_canvas_add_segments(lw_canvas *canvas, const lw_point_mm *ends, size_t count);
void lw_canvas_stroke(lw_canvas *canvas);
void lw_canvas_fill(lw_canvas *canvas, const lw_point_mm *points, size_t count, lw_ink ink);
void lw_canvas_box(lw_canvas *canvas, double x, double y, double width, double height);
void lw_canvas_fill_box(lw_canvas *canvas, double x, double y, double width, double height, lw_ink ink);
void lw_canvas_circle(lw_canvas *canvas, double x, double y, double radius);
void lw_canvas_disc(lw_canvas *canvas, double x, double y, double radius, lw_ink ink);
void lw_canvas_arc(lw_canvas *canvas, double x, double y, double radius, double from_deg, double to_deg);
/* Slanted lines inside a box, spacing apart: danger, dark nights, ground. */
void lw_canvas_hatch(lw_canvas *canvas, double x, double y, double width, double height, double spacing);
void lw_canvas_arrow(lw_canvas *canvas, double x0, double y0, double x1, double y1, double head_mm);
/* A line with arrows at both ends and its text above the middle. */
void lw_canvas_dimension(lw_canvas *canvas, double x0, double y0, double x1, double y1, const char *text,
                         double size_pt);

typedef struct lw_type {
    double size_pt;
    bool bold;
    lw_align align;
    double width_mm; /* 0: one line that is never broken; else broken into lines of at most this width */
} lw_type;

/* Text (UTF-8) with its top left, middle or right at (x, y); returns its height in mm. */
double lw_canvas_text(lw_canvas *canvas, double x, double y, lw_type type, const char *text);
/* The room that the text would take. */
void lw_canvas_measure(lw_canvas *canvas, lw_type type, const char *text, double *width_mm, double *height_mm);
/* Turned counter-clockwise by degrees about (x, y). */
void lw_canvas_text_turned(lw_canvas *canvas, double x, double y, lw_type type, double degrees, const char *text);

/* The text as a QR code (ISO/IEC 18004, level M) in a square of side_mm with its quiet zone of four modules. */
LW_MUST_CHECK bool lw_canvas_qr(lw_canvas *canvas, double x, double y, double side_mm, const char *text, lw_error *err);

#endif
