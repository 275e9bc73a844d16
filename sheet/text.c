/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Text on a canvas, laid out by pango: broken into lines, shaped with its accents and hooks.
 */
#include "canvas_inside.h"

#include "lanewick/units.h"

#include <pango/pangocairo.h>

/* The canvas counts in millimetres: a point is 25.4/72 of one. */
static const double mm_per_point = 25.4 / 72.0;

/* The same widths and heights on every paper: letters are not fitted to the dots of a PNG, or a page would hold less
 * there than it was counted to hold. */
static void measure_alike(PangoContext *context)
{
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    /* places of letters in parts of a millimetre, not whole ones */
    pango_context_set_round_glyph_positions(context, FALSE);
}

static PangoLayout *layout_of(lw_canvas *canvas, lw_type type, const char *text)
{
    PangoLayout *layout = pango_cairo_create_layout(canvas->cairo);
    PangoFontDescription *font = pango_font_description_from_string("DejaVu Sans");
    pango_font_description_set_absolute_size(font, type.size_pt * mm_per_point * PANGO_SCALE);
    pango_font_description_set_weight(font, type.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);
    pango_cairo_context_set_resolution(pango_layout_get_context(layout), 72.0);
    measure_alike(pango_layout_get_context(layout));
    pango_layout_context_changed(layout);
    if (type.width_mm > 0.0) {
        pango_layout_set_width(layout, (int)(type.width_mm * PANGO_SCALE));
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    }
    static const PangoAlignment sides[] = {PANGO_ALIGN_LEFT, PANGO_ALIGN_CENTER, PANGO_ALIGN_RIGHT};
    pango_layout_set_alignment(layout, sides[type.align]);
    pango_layout_set_text(layout, text, -1);
    PangoAttrList *kept = lw_text_kept(text);
    pango_layout_set_attributes(layout, kept);
    pango_attr_list_unref(kept);
    return layout;
}

static void size_of(PangoLayout *layout, double *width_mm, double *height_mm)
{
    int width = 0, height = 0;
    pango_layout_get_size(layout, &width, &height);
    *width_mm = (double)width / PANGO_SCALE;
    *height_mm = (double)height / PANGO_SCALE;
}

void lw_canvas_measure(lw_canvas *canvas, lw_type type, const char *text, double *width_mm, double *height_mm)
{
    PangoLayout *layout = layout_of(canvas, type, text);
    size_of(layout, width_mm, height_mm);
    g_object_unref(layout);
}

double lw_canvas_text(lw_canvas *canvas, double x, double y, lw_type type, const char *text)
{
    PangoLayout *layout = layout_of(canvas, type, text);
    double width = 0.0, height = 0.0;
    size_of(layout, &width, &height);
    /* a broken text starts at its left edge, whatever its lines are aligned to */
    const double span = type.width_mm > 0.0 ? type.width_mm : width;
    static const double shift[] = {0.0, 0.5, 1.0};
    cairo_move_to(canvas->cairo, x - shift[type.align] * span, y);
    pango_cairo_show_layout(canvas->cairo, layout);
    cairo_new_path(canvas->cairo);
    g_object_unref(layout);
    return height;
}

void lw_canvas_text_turned(lw_canvas *canvas, double x, double y, lw_type type, double degrees, const char *text)
{
    cairo_save(canvas->cairo);
    cairo_translate(canvas->cairo, x, y);
    cairo_rotate(canvas->cairo, -degrees * lw_radian_per_degree);
    (void)lw_canvas_text(canvas, 0.0, 0.0, type, text);
    cairo_restore(canvas->cairo);
}
