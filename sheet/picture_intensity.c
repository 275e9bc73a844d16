/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head's intensity as a polar diagram, 0 degree straight down. See lanewick/sheet_light.h.
 */
#include "lanewick/sheet_light.h"

#include "lanewick/units.h"

#include <math.h>
#include <stdio.h>

enum { STEPS = 72 };

/* The next of 1, 2, 5, 10 ... at or above value. */
static double round_up(double value)
{
    const double decade = pow(10.0, floor(log10(value)));
    static const double steps[] = {1.0, 2.0, 5.0, 10.0};
    for (size_t i = 0; i < 4; i++)
        if (value <= steps[i] * decade * 1.0000001)
            return steps[i] * decade;
    return 10.0 * decade;
}

static void curve(lw_canvas *canvas, double cx, double cy, double mm_per_cd, const lw_beam *beam, double plane_deg)
{
    lw_point_mm points[2 * STEPS + 1];
    for (int i = 0; i <= 2 * STEPS; i++) {
        const double angle = -180.0 + 180.0 * i / STEPS; /* negative: the opposite half plane */
        const double c = angle < 0.0 ? plane_deg + 180.0 : plane_deg;
        const double r = lw_beam_cd(beam, c + beam->street_plane_deg, fabs(angle)) * mm_per_cd;
        points[i] =
            (lw_point_mm){cx + r * sin(angle * lw_radian_per_degree), cy + r * cos(angle * lw_radian_per_degree)};
    }
    lw_canvas_polyline(canvas, points, 2 * STEPS + 1, false);
}

static double largest(const lw_beam *beam)
{
    double peak = 0.0;
    for (int gamma = 0; gamma <= 180; gamma += 2)
        for (int c = 0; c < 360; c += 90)
            peak = fmax(peak, lw_beam_cd(beam, c, gamma));
    return peak;
}

void lw_picture_intensity(lw_canvas *canvas, double x, double y, double width, double height, const lw_beam *beam,
                          const char *note)
{
    const double peak = largest(beam), full = round_up(fmax(peak, 1e-9));
    const double note_mm = 5.0, radius = 0.5 * fmin(width, height - note_mm) - 6.0;
    const double cx = x + 0.5 * width, cy = y + 0.5 * (height - note_mm);
    lw_canvas_pen(canvas, 0.15, lw_grey);
    for (int i = 1; i <= 4; i++) {
        char text[24];
        lw_canvas_circle(canvas, cx, cy, radius * i / 4.0);
        (void)snprintf(text, sizeof text, i < 4 ? "%g" : "%g cd", full * i / 4.0);
        (void)lw_canvas_text(canvas, cx + 0.5, cy - radius * i / 4.0 + 0.3, (lw_type){.size_pt = 6.5}, text);
    }
    for (int angle = 0; angle < 360; angle += 30) {
        const double s = sin(angle * lw_radian_per_degree), c = cos(angle * lw_radian_per_degree);
        char text[16];
        lw_canvas_line(canvas, cx, cy, cx + radius * s, cy + radius * c);
        (void)snprintf(text, sizeof text, "%d°", angle <= 180 ? angle : 360 - angle);
        (void)lw_canvas_text(canvas, cx + (radius + 3.2) * s, cy + (radius + 3.2) * c - 1.3,
                             (lw_type){.size_pt = 7.0, .align = LW_ALIGN_CENTRE}, text);
    }
    lw_canvas_pen(canvas, 0.6, lw_black);
    curve(canvas, cx, cy, radius / full, beam, 0.0);
    lw_canvas_dashes(canvas, 1.5, 1.2);
    curve(canvas, cx, cy, radius / full, beam, 90.0);
    lw_canvas_dashes(canvas, 0.0, 0.0);
    const lw_type small = {.size_pt = 7.0};
    (void)lw_canvas_text(canvas, x, y + height - 3.5, small, note);
}
