/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bays of a lane, from mast to mast: see lanewick/lane.h.
 */
#include "lanewick/lane.h"
#include "lanewick/stats.h"

#include <math.h>

static const double one_mast_m = 1.0;

/* How far along the lane's line a place lies, counted on the nearest piece; beyond the ends it runs on. */
static double along_m(const lw_field *field, double x_m, double y_m)
{
    const size_t pieces = field->corner_count - 1;
    double before = 0.0, least = INFINITY, found = 0.0;
    for (size_t i = 0; i < pieces; i++) {
        const lw_corner a = field->corners[i], b = field->corners[i + 1];
        const double length = hypot(b.x_m - a.x_m, b.y_m - a.y_m);
        const double c = (b.x_m - a.x_m) / length, s = (b.y_m - a.y_m) / length;
        const double on = (x_m - a.x_m) * c + (y_m - a.y_m) * s;
        const double at = fmin(i + 1 == pieces ? INFINITY : length, fmax(i == 0 ? -INFINITY : 0.0, on));
        const double away = hypot(x_m - a.x_m - at * c, y_m - a.y_m - at * s);
        if (away < least) {
            least = away;
            found = before + at;
        }
        before += length;
    }
    return found;
}

double lw_field_bay_m(const lw_field *field, const lw_lamp *lamps, size_t count)
{
    double at[LW_LANE_MAX_LAMPS], bay = INFINITY;
    const size_t n = count < LW_LANE_MAX_LAMPS ? count : LW_LANE_MAX_LAMPS;
    if (field->kind != LW_FIELD_STRIP || field->corner_count < 2)
        return INFINITY;
    for (size_t i = 0; i < n; i++)
        at[i] = along_m(field, lamps[i].x_m, lamps[i].y_m);
    lw_sort(at, n);
    for (size_t i = 1, last = 0; i < n; i++) {
        if (at[i] - at[last] < one_mast_m)
            continue;
        bay = fmin(bay, at[i] - at[last]);
        last = i;
    }
    return bay;
}
