/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How far a place lies from a field: see lanewick/lane.h.
 */
#include "lanewick/lane.h"

#include <math.h>

/* From (x, y) to the rectangle of one piece of a strip, in the piece's own axes. */
static double piece_distance(const lw_field *f, size_t i, double x, double y)
{
    const lw_corner a = f->corners[i], b = f->corners[i + 1];
    const double length = hypot(b.x_m - a.x_m, b.y_m - a.y_m);
    const double cos_d = (b.x_m - a.x_m) / length, sin_d = (b.y_m - a.y_m) / length;
    const double along = (x - a.x_m) * cos_d + (y - a.y_m) * sin_d, across = (y - a.y_m) * cos_d - (x - a.x_m) * sin_d;
    const double over = fmax(fmax(-along, along - length), 0.0), beside = fmax(fmax(-across, across - f->width_m), 0.0);
    return hypot(over, beside);
}

static double edge_distance(lw_corner a, lw_corner b, double x, double y)
{
    const double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, square = dx * dx + dy * dy;
    const double share = square > 0.0 ? ((x - a.x_m) * dx + (y - a.y_m) * dy) / square : 0.0;
    const double at = fmin(1.0, fmax(0.0, share));
    return hypot(x - a.x_m - at * dx, y - a.y_m - at * dy);
}

double lw_field_distance_m(const lw_field *field, double x_m, double y_m)
{
    double least = INFINITY;
    if (field->kind == LW_FIELD_STRIP) {
        for (size_t i = 0; i + 1 < field->corner_count; i++)
            least = fmin(least, piece_distance(field, i, x_m, y_m));
        return least;
    }
    if (lw_field_holds(field, x_m, y_m))
        return 0.0;
    for (size_t i = 0; i < field->corner_count; i++)
        least = fmin(least, edge_distance(field->corners[i], field->corners[(i + 1) % field->corner_count], x_m, y_m));
    return least;
}
