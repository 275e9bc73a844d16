/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The frame of a sheet: pages, header, footer with the bar of 100 mm. See lanewick/sheet.h.
 */
#include "finish.h"
#include "lanewick/sheet.h"
#include "lanewick/version.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

static const double page_width_mm = 210.0, page_height_mm = 297.0, paper_dpi = 150.0;
const char lw_sheet_program[] = "lanewick " LW_VERSION;
static const double header_mm = 10.5, header_line_mm = 4.7, footer_mm = 284.0;

/* The title has the room that the lamp's name leaves; the longer of them get smaller. */
static void title_and_lamp(lw_sheet *sheet)
{
    lw_canvas *c = sheet->canvas;
    lw_type lamp = {.size_pt = 11, .align = LW_ALIGN_RIGHT};
    double lamp_mm, tall_mm, wide_mm;
    lw_canvas_measure(c, lamp, sheet->lamp, &lamp_mm, &tall_mm);
    if (lamp_mm > 80.0) {
        lamp.size_pt = 9;
        lw_canvas_measure(c, lamp, sheet->lamp, &lamp_mm, &tall_mm);
    }
    lw_type title = {.size_pt = 15, .bold = true, .width_mm = fmax(50.0, lw_sheet_width_mm - lamp_mm - 5.0)};
    title.width_mm = fmin(118.0, title.width_mm);
    lw_canvas_measure(c, title, sheet->title, &wide_mm, &tall_mm);
    if (tall_mm > 14.0)
        title.size_pt = 11;
    (void)lw_canvas_text(c, lw_sheet_left_mm, header_mm, title, sheet->title);
    (void)lw_canvas_text(c, lw_sheet_left_mm + lw_sheet_width_mm, header_mm, lamp, sheet->lamp);
}

static void header(lw_sheet *sheet)
{
    lw_canvas *c = sheet->canvas;
    char text[200];
    const double right = lw_sheet_left_mm + lw_sheet_width_mm;
    title_and_lamp(sheet);
    (void)snprintf(text, sizeof text, "%s · %s", sheet->code, sheet->date);
    (void)lw_canvas_text(c, right, header_mm + header_line_mm, (lw_type){.size_pt = 11, .align = LW_ALIGN_RIGHT}, text);
    (void)snprintf(text, sizeof text, lw_say(sheet->words, "page %zu of %zu"), sheet->page, sheet->pages);
    (void)lw_canvas_text(c, right, header_mm + 2.0 * header_line_mm, (lw_type){.size_pt = 11, .align = LW_ALIGN_RIGHT},
                         text);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_line(c, lw_sheet_left_mm, 26.0, right, 26.0);
}

void lw_sheet_bar(lw_canvas *c, double x, double y, double length_mm)
{
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_line(c, x, y, x + length_mm, y);
    for (int i = 0; 10.0 * i <= length_mm; i++) {
        const double tick = i % 5 == 0 ? 2.2 : 1.2;
        lw_canvas_line(c, x + 10.0 * i, y - tick, x + 10.0 * i, y);
    }
}

static void footer(lw_sheet *sheet)
{
    lw_canvas *c = sheet->canvas;
    const double below = footer_mm + 0.3;
    char text[160];
    (void)snprintf(text, sizeof text, lw_say(sheet->words, "This bar is %d mm long on a true print."), 100);
    lw_sheet_bar(c, lw_sheet_left_mm, footer_mm, 100.0);
    (void)lw_canvas_text(c, lw_sheet_left_mm, below, (lw_type){.size_pt = 11}, text);
    (void)lw_canvas_text(c, lw_sheet_left_mm + lw_sheet_width_mm, below,
                         (lw_type){.size_pt = 11, .align = LW_ALIGN_RIGHT}, lw_sheet_program);
}

static void begin_page(lw_sheet *sheet)
{
    sheet->page++;
    sheet->y = lw_sheet_top_mm;
    if (sheet->bare)
        return;
    header(sheet);
    footer(sheet);
}

void lw_sheet_new_page(lw_sheet *sheet)
{
    if (sheet->failed)
        return;
    if (!lw_canvas_next_page(sheet->canvas, sheet->err)) {
        sheet->failed = true;
        return;
    }
    begin_page(sheet);
}

void lw_sheet_need(lw_sheet *sheet, double room_mm)
{
    const double bottom = lw_sheet_bottom_mm + (sheet->tight ? 3.0 : 0.0);
    if (sheet->y + room_mm > bottom && sheet->y > lw_sheet_top_mm)
        lw_sheet_new_page(sheet);
}

/* How a document is set; pages 0: they are being counted. */
typedef struct setting {
    size_t pages;
    bool tight;
} setting;

static lw_sheet run(lw_canvas *canvas, const lw_sheet_head *head, lw_sheet_draw *draw, const void *payload, setting how,
                    lw_error *err)
{
    lw_sheet sheet = {.canvas = canvas,
                      .words = head->words,
                      .title = head->title,
                      .lamp = head->lamp,
                      .code = head->code,
                      .date = head->date,
                      .pages = how.pages,
                      .tight = how.tight,
                      .bare = head->bare,
                      .err = err};
    begin_page(&sheet);
    draw(&sheet, payload);
    return sheet;
}

/* Counted on the same paper: where a line only just fits, papers may differ. */
static bool count_on(lw_paper paper, const lw_sheet_head *head, lw_sheet_draw *draw, const void *payload, bool tight,
                     lw_sheet *counted, lw_error *err)
{
    const double corner_mm = 10.0; /* nothing is looked at: the corner of a page is enough */
    lw_canvas *canvas = lw_canvas_new(paper, corner_mm, corner_mm, paper_dpi, head->title, err);
    if (!canvas)
        return false;
    if (paper != LW_PAPER_PDF)
        lw_canvas_only_page(canvas, SIZE_MAX);
    *counted = run(canvas, head, draw, payload, (setting){.tight = tight}, err);
    lw_canvas_drop(canvas);
    return !counted->failed;
}

/* The usual setting, or the tight one where that spares a last page of a few lines. */
static bool choose_setting(lw_paper paper, const lw_sheet_head *head, lw_sheet_draw *draw, const void *payload,
                           setting *out, lw_error *err)
{
    lw_sheet usual, tight;
    if (!count_on(paper, head, draw, payload, false, &usual, err))
        return false;
    *out = (setting){.pages = usual.page};
    const double few_lines_mm = 0.3 * (lw_sheet_bottom_mm - lw_sheet_top_mm);
    if (usual.page < 2 || usual.y > lw_sheet_top_mm + few_lines_mm)
        return true;
    if (!count_on(paper, head, draw, payload, true, &tight, err))
        return false;
    if (tight.page < usual.page)
        *out = (setting){.pages = tight.page, .tight = true};
    return true;
}

bool lw_sheet_count(const lw_sheet_head *head, lw_sheet_draw *draw, const void *payload, size_t *pages, lw_error *err)
{
    setting how;
    const bool counted = choose_setting(LW_PAPER_PDF, head, draw, payload, &how, err);
    *pages = counted ? how.pages : 0;
    return counted;
}

bool lw_sheet_print(lw_paper paper, size_t page, const lw_sheet_head *head, lw_sheet_draw *draw, const void *payload,
                    unsigned char **bytes, size_t *length, size_t *pages, lw_error *err)
{
    setting how;
    if (!choose_setting(paper, head, draw, payload, &how, err))
        return false;
    *pages = how.pages;
    if (paper != LW_PAPER_PDF && (page < 1 || page > *pages))
        return lw_fail(err, LW_WRONG_INPUT, "page", "page is %zu; this sheet has pages 1 to %zu.", page, *pages);
    lw_canvas *canvas = lw_canvas_new(paper, page_width_mm, page_height_mm, paper_dpi, head->title, err);
    if (!canvas)
        return false;
    lw_canvas_only_page(canvas, paper == LW_PAPER_PDF ? 0 : page);
    const lw_sheet second = run(canvas, head, draw, payload, how, err);
    if (second.failed) {
        lw_canvas_drop(canvas);
        return false;
    }
    if (!lw_canvas_finish(canvas, bytes, length, err))
        return false;
    if (paper != LW_PAPER_PDF || lw_pdf_finish(head->words ? head->words->code : "en", bytes, length, err))
        return true;
    free(*bytes);
    *bytes = NULL;
    return false;
}
