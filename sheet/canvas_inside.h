/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The inside of a canvas, for the files that draw on it.
 */
#ifndef LANEWICK_CANVAS_INSIDE_H
#define LANEWICK_CANVAS_INSIDE_H

#include "lanewick/canvas.h"

#include <cairo.h>
#include <pango/pango.h>

struct lw_canvas {
    lw_paper paper;
    double dots_per_mm; /* PNG */
    cairo_surface_t *surface;
    cairo_t *cairo;
    unsigned char *bytes;
    size_t length, room, pages;
    size_t only_page; /* 0: every page is kept */
    lw_ink ink;
};

/* Attributes for a text that keep numbers with their units; the caller's. */
PangoAttrList *lw_text_kept(const char *text);

#endif
