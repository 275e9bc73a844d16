/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One page of pictures of light: see lanewick/sheet_light.h.
 */
#include "lanewick/sheet_light.h"

#include "finish.h"

#include <math.h>

static const double edge_mm = 12.0, dots_per_inch = 150.0;

/* Width and height of the page: A4 lying, or as small as one picture wants it. */
static void page_size(const lw_light_page *page, double *width, double *height)
{
    *width = 297.0;
    *height = 210.0;
    if (page->show == LW_SHOW_INTENSITY)
        *width = 150.0, *height = 165.0;
    if (page->show == LW_SHOW_SECTION)
        *width = 210.0, *height = 130.0;
}

/* Title and sentence; where the pictures begin. */
static double head(lw_canvas *canvas, const lw_light_page *page, double width)
{
    double y = edge_mm;
    if (page->title[0])
        y += lw_canvas_text(canvas, edge_mm, y,
                            (lw_type){.size_pt = 14.0, .bold = true, .width_mm = width - 2.0 * edge_mm}, page->title) +
             1.5;
    if (page->line[0])
        y += lw_canvas_text(canvas, edge_mm, y, (lw_type){.size_pt = 9.0, .width_mm = width - 2.0 * edge_mm},
                            page->line) +
             1.5;
    return y + 2.0;
}

static void intensity(lw_canvas *canvas, const lw_light_page *page, double y, double width, double height)
{
    const char *note = page->planes ? lw_say(page->words, "full line: plane 0-180; dashed: plane 90-270")
                                    : lw_say(page->words, "full line: across the lane; dashed: along it");
    lw_picture_intensity(canvas, edge_mm, y, width, height, &page->lamp->beam, note);
}

static void all(lw_canvas *canvas, const lw_light_page *page, double y, double width, double height)
{
    const double wide = width - 2.0 * edge_mm, lower = 88.0;
    double top = y;
    if (page->lane.count)
        top += lw_picture_lane(canvas, edge_mm, y, wide, height - edge_mm - lower - 4.0 - y, &page->lane, page->words);
    const double below = fmax(top + 4.0, page->lane.count ? 0.0 : y), room = height - edge_mm - below;
    const double polar = fmin(room, 110.0);
    intensity(canvas, page, below, polar, polar);
    lw_picture_section(canvas, edge_mm + polar + 8.0, below, wide - polar - 8.0, polar, page->lamp, page->words);
}

static void draw(lw_canvas *canvas, const lw_light_page *page, double width, double height)
{
    const double y = head(canvas, page, width), wide = width - 2.0 * edge_mm, high = height - edge_mm - y;
    switch (page->show) {
    case LW_SHOW_LANE:
        (void)lw_picture_lane(canvas, edge_mm, y, wide, high, &page->lane, page->words);
        break;
    case LW_SHOW_INTENSITY:
        intensity(canvas, page, y, wide, high);
        break;
    case LW_SHOW_SECTION:
        lw_picture_section(canvas, edge_mm, y, wide, high, page->lamp, page->words);
        break;
    case LW_SHOW_ALL:
        all(canvas, page, y, width, height);
        break;
    }
}

bool lw_light_page_draw(const lw_light_page *page, lw_paper paper, unsigned char **bytes, size_t *length, lw_error *err)
{
    double width = 0.0, height = 0.0;
    *bytes = NULL;
    if (page->show == LW_SHOW_LANE && !page->lane.count)
        return lw_fail(err, LW_WRONG_INPUT, "show", "A head alone has no lane to show; take intensity or section.");
    page_size(page, &width, &height);
    lw_canvas *canvas =
        lw_canvas_new(paper, width, height, dots_per_inch, page->title[0] ? page->title : "lanewick", err);
    if (!canvas)
        return false;
    draw(canvas, page, width, height);
    return lw_canvas_finish(canvas, bytes, length, err) &&
           (paper != LW_PAPER_PDF || lw_pdf_finish(page->words ? page->words->code : "en", bytes, length, err));
}
