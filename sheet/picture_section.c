/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A person under the lamp, drawn to scale, with the light on the ground and on the face. See lanewick/sheet_light.h.
 */
#include "lanewick/sheet_light.h"

#include <math.h>
#include <stdio.h>

static void person(lw_canvas *canvas, double x, double ground, double scale)
{
    const double head = 0.115 * scale, top = ground - 1.7 * scale;
    lw_canvas_pen(canvas, 0.5, lw_black);
    lw_canvas_circle(canvas, x, top + head, head);
    lw_canvas_line(canvas, x, top + 2.0 * head, x, ground - 0.8 * scale);
    lw_canvas_line(canvas, x, ground - 0.8 * scale, x - 0.18 * scale, ground);
    lw_canvas_line(canvas, x, ground - 0.8 * scale, x + 0.18 * scale, ground);
    lw_canvas_line(canvas, x, ground - 1.35 * scale, x - 0.25 * scale, ground - 0.9 * scale);
    lw_canvas_line(canvas, x, ground - 1.35 * scale, x + 0.25 * scale, ground - 0.9 * scale);
}

static void label(lw_canvas *canvas, double x, double y, const char *format, double value)
{
    char text[32];
    (void)snprintf(text, sizeof text, format, value);
    (void)lw_canvas_text(canvas, x, y, (lw_type){.size_pt = 7.5, .align = LW_ALIGN_CENTRE}, text);
}

void lw_picture_section(lw_canvas *canvas, double x, double y, double width, double height, const lw_lamp *lamp,
                        const lw_words *words)
{
    const double reach_m = fmax(8.0, 3.0 * lamp->height_m), text_mm = 13.0;
    const double scale = fmin((width - 12.0) / reach_m, (height - text_mm - 4.0) / (lamp->height_m + 0.4));
    const double foot = x + 6.0, ground = y + 4.0 + (lamp->height_m + 0.4) * scale;
    lw_canvas_pen(canvas, 0.8, lw_black);
    lw_canvas_line(canvas, foot, ground, foot, ground - lamp->height_m * scale);
    lw_canvas_line(canvas, x, ground, x + width, ground);
    lw_canvas_hatch(canvas, x, ground, width, 1.5, 1.2);
    lw_canvas_fill_box(canvas, foot - 1.0, ground - lamp->height_m * scale - 1.0, 5.0, 2.0, lw_black);
    person(canvas, foot + 4.0 * scale, ground, scale);
    char tall[24];
    (void)snprintf(tall, sizeof tall, "%.1f m", lamp->height_m);
    (void)lw_canvas_text(canvas, foot + 2.0, ground - 0.5 * lamp->height_m * scale, (lw_type){.size_pt = 7.5}, tall);
    lw_canvas_pen(canvas, 0.2, lw_grey);
    for (double d = 0.0; d <= reach_m + 0.01; d += reach_m / 6.0) {
        lw_lamp one = *lamp;
        one.x_m = one.y_m = 0.0;
        one.turn_deg = 0.0;
        lw_lux lux = {0};
        lw_lux_add(&one, d, 0.0, 180.0, &lux);
        const double px = foot + d * scale;
        lw_canvas_line(canvas, px, ground, px, ground + 2.5);
        label(canvas, px, ground + 2.6, "%.1f m", d);
        label(canvas, px, ground + 6.0, lux.horizontal_lx < 9.95 ? "%.1f lx" : "%.0f lx", lux.horizontal_lx);
        label(canvas, px, ground + 9.4, lw_say(words, "face %.1f lx"), lux.semicylindrical_lx);
    }
}
