/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The drawing surface: opens and ends PDF, SVG and PNG in memory. See lanewick/canvas.h.
 */
#include "canvas_inside.h"
#include "png_file.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_BYTES = 256 << 20, MOST_PIXELS = 20000 };
static const double point_per_mm = 72.0 / 25.4;

static cairo_status_t keep(void *payload, const unsigned char *data, unsigned int length)
{
    lw_canvas *canvas = payload;
    if (canvas->length + length > MOST_BYTES)
        return CAIRO_STATUS_WRITE_ERROR;
    if (canvas->length + length > canvas->room) {
        const size_t room = 2 * (canvas->length + length) + 65536;
        unsigned char *larger = realloc(canvas->bytes, room);
        if (!larger)
            return CAIRO_STATUS_NO_MEMORY;
        canvas->bytes = larger;
        canvas->room = room;
    }
    memcpy(canvas->bytes + canvas->length, data, length);
    canvas->length += length;
    return CAIRO_STATUS_SUCCESS;
}

static cairo_surface_t *surface_of(lw_canvas *canvas, double width_mm, double height_mm, const char *title)
{
    const double width_pt = width_mm * point_per_mm, height_pt = height_mm * point_per_mm;
    if (canvas->paper == LW_PAPER_PNG)
        return cairo_image_surface_create(CAIRO_FORMAT_RGB24, (int)ceil(width_mm * canvas->dots_per_mm),
                                          (int)ceil(height_mm * canvas->dots_per_mm));
    if (canvas->paper == LW_PAPER_SVG) {
        cairo_surface_t *svg = cairo_svg_surface_create_for_stream(keep, canvas, width_pt, height_pt);
        cairo_svg_surface_set_document_unit(svg, CAIRO_SVG_UNIT_PT);
        return svg;
    }
    cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream(keep, canvas, width_pt, height_pt);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_TITLE, title);
    cairo_pdf_surface_set_metadata(pdf, CAIRO_PDF_METADATA_CREATOR, "lanewick");
    return pdf;
}

static void start_page(lw_canvas *canvas)
{
    const double scale = canvas->paper == LW_PAPER_PNG ? canvas->dots_per_mm : point_per_mm;
    cairo_identity_matrix(canvas->cairo);
    if (canvas->paper == LW_PAPER_PNG) {
        cairo_set_source_rgb(canvas->cairo, 1.0, 1.0, 1.0);
        cairo_paint(canvas->cairo);
    }
    cairo_scale(canvas->cairo, scale, scale);
    cairo_set_line_cap(canvas->cairo, CAIRO_LINE_CAP_ROUND);
    cairo_set_line_join(canvas->cairo, CAIRO_LINE_JOIN_ROUND);
    lw_canvas_pen(canvas, 0.3, lw_black);
    canvas->pages++;
}

lw_canvas *lw_canvas_new(lw_paper paper, double width_mm, double height_mm, double png_dpi, const char *title,
                         lw_error *err)
{
    const double dots_per_mm = png_dpi / 25.4;
    if (!lw_in_range(err, "width_mm", width_mm, 5.0, 5000.0, "mm") ||
        !lw_in_range(err, "height_mm", height_mm, 5.0, 5000.0, "mm") ||
        (paper == LW_PAPER_PNG && !lw_in_range(err, "png_dpi", png_dpi, 20.0, 1200.0, "dots per inch")))
        return NULL;
    if (paper == LW_PAPER_PNG && fmax(width_mm, height_mm) * dots_per_mm > MOST_PIXELS) {
        (void)lw_fail(err, LW_WRONG_INPUT, "png_dpi",
                      "The picture would be wider than %d dots; ask for fewer per inch.", MOST_PIXELS);
        return NULL;
    }
    lw_canvas *canvas = calloc(1, sizeof *canvas);
    if (!canvas) {
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for a drawing.");
        return NULL;
    }
    canvas->paper = paper;
    canvas->dots_per_mm = dots_per_mm;
    canvas->surface = surface_of(canvas, width_mm, height_mm, title);
    canvas->cairo = cairo_create(canvas->surface);
    start_page(canvas);
    return canvas;
}

size_t lw_canvas_pages(const lw_canvas *canvas)
{
    return canvas->pages;
}

/* A page that is not kept is drawn into an empty clip. */
static void hide(lw_canvas *canvas)
{
    const bool hidden = canvas->only_page != 0 && canvas->only_page != canvas->pages;
    cairo_reset_clip(canvas->cairo);
    if (hidden) {
        cairo_rectangle(canvas->cairo, 0.0, 0.0, 0.0, 0.0);
        cairo_clip(canvas->cairo);
    }
}

void lw_canvas_only_page(lw_canvas *canvas, size_t page)
{
    canvas->only_page = page;
    hide(canvas);
}

bool lw_canvas_next_page(lw_canvas *canvas, lw_error *err)
{
    if (canvas->only_page) {
        canvas->pages++;
        hide(canvas);
        return true;
    }
    if (canvas->paper != LW_PAPER_PDF)
        return lw_fail(err, LW_WRONG_INPUT, "", "Only a PDF has more than one page.");
    cairo_show_page(canvas->cairo);
    start_page(canvas);
    return true;
}

void lw_canvas_drop(lw_canvas *canvas)
{
    if (!canvas)
        return;
    cairo_destroy(canvas->cairo);
    cairo_surface_destroy(canvas->surface);
    free(canvas->bytes);
    free(canvas);
}

bool lw_canvas_finish(lw_canvas *canvas, unsigned char **bytes, size_t *length, lw_error *err)
{
    cairo_status_t status = cairo_status(canvas->cairo);
    if (status == CAIRO_STATUS_SUCCESS && canvas->paper == LW_PAPER_PNG)
        status = lw_png_write(canvas->surface, canvas->dots_per_mm, keep, canvas);
    cairo_surface_finish(canvas->surface);
    if (status == CAIRO_STATUS_SUCCESS)
        status = cairo_surface_status(canvas->surface);
    *bytes = canvas->bytes;
    *length = canvas->length;
    canvas->bytes = NULL;
    lw_canvas_drop(canvas);
    if (status == CAIRO_STATUS_SUCCESS)
        return true;
    free(*bytes);
    *bytes = NULL;
    return lw_fail(err, LW_STORAGE, "", "The drawing could not be finished: %s.", cairo_status_to_string(status));
}
