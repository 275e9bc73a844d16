/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The grid of points of a field: see lanewick/lane.h for the rules.
 */
#include "lanewick/lane.h"

#include "lanewick/units.h"

#include <math.h>

typedef struct piece {
    double length_m, direction_deg, cos_d, sin_d;
} piece;

static piece piece_of(const lw_field *field, size_t i)
{
    const lw_corner a = field->corners[i], b = field->corners[i + 1];
    const double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, length = hypot(dx, dy);
    return (piece){length, atan2(dy, dx) * lw_degree_per_radian, dx / length, dy / length};
}

/* tan of half the turn at a corner, above 0 to the left: both pieces end at the line that halves the corner. */
static double half_turn_tan(const lw_field *field, size_t corner)
{
    if (corner == 0 || corner + 1 >= field->corner_count)
        return 0.0;
    const piece a = piece_of(field, corner - 1), b = piece_of(field, corner);
    return (a.cos_d * b.sin_d - a.sin_d * b.cos_d) / (1.0 + a.cos_d * b.cos_d + a.sin_d * b.sin_d);
}

/* Where a row across_m to the left of a piece's line begins and ends, along the piece. */
static void row_of(const lw_field *field, size_t i, double across_m, double *from_m, double *to_m)
{
    *from_m = across_m * half_turn_tan(field, i);
    *to_m = piece_of(field, i).length_m - across_m * half_turn_tan(field, i + 1);
}

void lw_field_piece(const lw_field *field, size_t i, lw_corner out[4])
{
    const piece k = piece_of(field, i);
    const lw_corner a = field->corners[i];
    double from_m, to_m;
    row_of(field, i, field->width_m, &from_m, &to_m);
    const double nx = a.x_m - field->width_m * k.sin_d, ny = a.y_m + field->width_m * k.cos_d;
    out[0] = a;
    out[1] = field->corners[i + 1];
    out[2] = (lw_corner){nx + to_m * k.cos_d, ny + to_m * k.sin_d};
    out[3] = (lw_corner){nx + from_m * k.cos_d, ny + from_m * k.sin_d};
}

/* The standard's steps in one bay. */
static double bay_steps(double bay_m)
{
    return bay_m <= 30.0 ? 10.0 : ceil(bay_m / 3.0 - 1e-9);
}

/* As fine as in the shortest bay, and at least the steps of one bay. */
static size_t steps_along(double length_m, double bay_m)
{
    const double by_bay = bay_m < length_m ? ceil(length_m * bay_steps(bay_m) / bay_m - 1e-6) : 0.0;
    return (size_t)fmin(1e7, fmax(bay_steps(length_m), by_bay));
}

static size_t steps_across(double width_m)
{
    const size_t n = (size_t)ceil(width_m / 1.5 - 1e-9);
    return n < 3 ? 3 : n;
}

void lw_field_steps(const lw_field *field, double bay_m, double *along_m, double *across_m)
{
    *along_m = *across_m = 1.0;
    if (field->kind != LW_FIELD_STRIP)
        return;
    const double length_m = piece_of(field, 0).length_m;
    *along_m = length_m / (double)steps_along(length_m, bay_m);
    *across_m = field->width_m / (double)steps_across(field->width_m);
}

/* Beyond two thirds of turning back the pieces meet far outside the lane. */
static bool check_turns(const lw_field *field, lw_error *err)
{
    for (size_t i = 1; i + 1 < field->corner_count; i++) {
        const double turn_deg = 2.0 * atan(half_turn_tan(field, i)) * lw_degree_per_radian;
        if (!(fabs(turn_deg) <= 120.0 + 1e-6))
            return lw_fail(err, LW_WRONG_INPUT, "corners",
                           "The lane turns by %.0f degree at corner %zu; at most 120 is possible: give a polygon.",
                           turn_deg, i + 1);
    }
    return true;
}

/* Above 0 when c lies to the left of the line from a to b. */
static double left_of(lw_corner a, lw_corner b, lw_corner c)
{
    return (b.x_m - a.x_m) * (c.y_m - a.y_m) - (b.y_m - a.y_m) * (c.x_m - a.x_m);
}

static bool cross(lw_corner a, lw_corner b, lw_corner c, lw_corner d)
{
    return left_of(a, b, c) * left_of(a, b, d) < 0.0 && left_of(c, d, a) * left_of(c, d, b) < 0.0;
}

static bool between(lw_corner a, lw_corner b, lw_corner c)
{
    return left_of(a, b, c) == 0.0 && c.x_m >= fmin(a.x_m, b.x_m) && c.x_m <= fmax(a.x_m, b.x_m) &&
           c.y_m >= fmin(a.y_m, b.y_m) && c.y_m <= fmax(a.y_m, b.y_m);
}

static bool meet(lw_corner a, lw_corner b, lw_corner c, lw_corner d)
{
    return cross(a, b, c, d) || between(a, b, c) || between(a, b, d) || between(c, d, a) || between(c, d, b);
}

/* A lane over itself counts that place twice. Only its two ends may touch it: a path round a field, a turning loop. */
static bool check_line(const lw_field *field, lw_error *err)
{
    const size_t pieces = field->corner_count - 1;
    const lw_corner *c = field->corners;
    for (size_t i = 0; i + 2 < pieces; i++)
        for (size_t j = i + 2; j < pieces; j++) {
            const double off = 1e-6;
            lw_corner first = c[i], last = c[j + 1];
            if (i == 0)
                first = (lw_corner){first.x_m + off * (c[1].x_m - first.x_m), first.y_m + off * (c[1].y_m - first.y_m)};
            if (j + 1 == pieces)
                last = (lw_corner){last.x_m + off * (c[j].x_m - last.x_m), last.y_m + off * (c[j].y_m - last.y_m)};
            if (meet(first, c[i + 1], c[j], last))
                return lw_fail(err, LW_WRONG_INPUT, "line",
                               "The lane crosses itself: its piece from corner %zu and its piece from corner %zu meet; "
                               "end it at the crossing, or give the crossing as a polygon of its own.",
                               i + 1, j + 1);
        }
    return true;
}

/* Sides that cross have no inside between them: the corners are not in order round the field. */
static bool check_sides(const lw_field *field, lw_error *err)
{
    const size_t n = field->corner_count;
    const lw_corner *c = field->corners;
    for (size_t i = 0; i < n; i++)
        for (size_t j = i + 1; j < n; j++)
            if (cross(c[i], c[(i + 1) % n], c[j], c[(j + 1) % n]))
                return lw_fail(err, LW_WRONG_INPUT, "polygon",
                               "The polygon's sides from corner %zu and from corner %zu cross; give the corners in "
                               "order round the field.",
                               i + 1, j + 1);
    return true;
}

/* Corners on one line hold no ground. */
static bool check_area(const lw_field *field, lw_error *err)
{
    static const double least_m2 = 0.01; /* a straight lane of the least length and width has 0.05 */
    double twice_m2 = 0.0;
    for (size_t i = 1; i + 1 < field->corner_count; i++)
        twice_m2 += left_of(field->corners[0], field->corners[i], field->corners[i + 1]);
    return fabs(twice_m2) >= 2.0 * least_m2 ||
           lw_fail(err, LW_WRONG_INPUT, "polygon",
                   "The polygon holds %.2g m2, at least %g are needed: its corners lie on one line, or the field is "
                   "hardly there.",
                   0.5 * fabs(twice_m2), least_m2);
}

bool lw_field_check(const lw_field *field, lw_error *err)
{
    const size_t least = field->kind == LW_FIELD_STRIP ? 2 : 3;
    if (field->corner_count < least || field->corner_count > LW_LANE_MAX_CORNERS)
        return lw_fail(err, LW_WRONG_INPUT, "corners", "The field has %zu corners; it needs between %zu and %d.",
                       field->corner_count, least, LW_LANE_MAX_CORNERS);
    for (size_t i = 0; i < field->corner_count; i++)
        if (!lw_in_range(err, "x_m", field->corners[i].x_m, -1e5, 1e5, "m") ||
            !lw_in_range(err, "y_m", field->corners[i].y_m, -1e5, 1e5, "m"))
            return false;
    if (field->kind == LW_FIELD_POLYGON)
        return check_sides(field, err) && check_area(field, err);
    for (size_t i = 0; i + 1 < field->corner_count; i++)
        if (!(piece_of(field, i).length_m >= 0.1))
            return lw_fail(err, LW_WRONG_INPUT, "corners", "Corners %zu and %zu are less than 0.1 m apart.", i + 1,
                           i + 2);
    return check_turns(field, err) && check_line(field, err) &&
           lw_in_range(err, "width_m", field->width_m, 0.1, 1000.0, "m");
}

static lw_field_point *room(lw_arena *arena, size_t count, lw_error *err)
{
    if (count <= LW_LANE_MAX_POINTS)
        return lw_arena_take(arena, count ? count : 1, sizeof(lw_field_point), err);
    (void)lw_fail(err, LW_WRONG_INPUT, "corners", "The field needs %zu points; the most is %d: divide it.", count,
                  LW_LANE_MAX_POINTS);
    return NULL;
}

/* Steps along a piece: of its line or of its left edge, whichever is longer. */
static size_t piece_steps(const lw_field *field, double bay_m, size_t i)
{
    double from_m, to_m;
    row_of(field, i, field->width_m, &from_m, &to_m);
    return steps_along(fmax(piece_of(field, i).length_m, to_m - from_m), bay_m);
}

/* Points of a strip, those of rows to which a sharp bend leaves no length counted too. */
static size_t strip_count(const lw_field *field, double bay_m)
{
    const size_t across = steps_across(field->width_m);
    size_t total = 0;
    for (size_t i = 0; i + 1 < field->corner_count; i++)
        total += piece_steps(field, bay_m, i) * across;
    return total;
}

/* Points of a piece, across it at each step along; none in a row to which a sharp bend leaves no length. */
static lw_field_point *piece_points(const lw_field *field, double bay_m, size_t i, lw_field_point *p)
{
    const piece k = piece_of(field, i);
    const size_t along = piece_steps(field, bay_m, i), across = steps_across(field->width_m);
    const double step_m = field->width_m / (double)across;
    for (size_t a = 0; a < along; a++)
        for (size_t c = 0; c < across; c++) {
            const double w = step_m * ((double)c + 0.5);
            double from_m, to_m;
            row_of(field, i, w, &from_m, &to_m);
            if (!(to_m > from_m))
                continue;
            const double s = from_m + (to_m - from_m) * ((double)a + 0.5) / (double)along;
            *p++ = (lw_field_point){.x_m = field->corners[i].x_m + s * k.cos_d - w * k.sin_d,
                                    .y_m = field->corners[i].y_m + s * k.sin_d + w * k.cos_d,
                                    .along_deg = k.direction_deg,
                                    .area_m2 = step_m * (to_m - from_m) / (double)along};
        }
    return p;
}

static bool strip_grid(const lw_field *field, double bay_m, lw_arena *arena, lw_field_point **points, size_t *count,
                       lw_error *err)
{
    lw_field_point *p = *points = room(arena, strip_count(field, bay_m), err);
    *count = 0;
    if (!p)
        return false;
    for (size_t i = 0; i + 1 < field->corner_count; i++)
        p = piece_points(field, bay_m, i, p);
    *count = (size_t)(p - *points);
    return *count > 0 || lw_fail(err, LW_WRONG_INPUT, "corners",
                                 "The lane bends so sharply that nothing is left of it: give a polygon.");
}

/* Even-odd rule, counting the edges crossed by a ray towards +x. */
bool lw_field_holds(const lw_field *field, double x, double y)
{
    bool in = false;
    for (size_t i = 0, j = field->corner_count - 1; i < field->corner_count; j = i++) {
        const lw_corner a = field->corners[i], b = field->corners[j];
        if ((a.y_m > y) != (b.y_m > y) && x < (b.x_m - a.x_m) * (y - a.y_m) / (b.y_m - a.y_m) + a.x_m)
            in = !in;
    }
    return in;
}

/* The rectangle round a polygon and its cells. */
typedef struct cells {
    lw_corner low, high;
    double wide, deep;
} cells;

static cells cells_of(const lw_field *field)
{
    cells c = {.low = field->corners[0], .high = field->corners[0]};
    for (size_t i = 1; i < field->corner_count; i++) {
        c.low.x_m = fmin(c.low.x_m, field->corners[i].x_m);
        c.low.y_m = fmin(c.low.y_m, field->corners[i].y_m);
        c.high.x_m = fmax(c.high.x_m, field->corners[i].x_m);
        c.high.y_m = fmax(c.high.y_m, field->corners[i].y_m);
    }
    c.wide = fmax(10.0, ceil(c.high.x_m - c.low.x_m));
    c.deep = fmax(10.0, ceil(c.high.y_m - c.low.y_m));
    return c;
}

size_t lw_field_most_points(const lw_field *field, double bay_m)
{
    const cells c = cells_of(field);
    return field->kind == LW_FIELD_STRIP ? strip_count(field, bay_m)
                                         : (size_t)fmin(c.wide * c.deep, LW_LANE_MAX_POINTS);
}

static bool polygon_grid(const lw_field *field, lw_arena *arena, lw_field_point **points, size_t *count, lw_error *err)
{
    const cells k = cells_of(field);
    const lw_corner low = k.low, high = k.high;
    if (k.wide * k.deep > 100.0 * LW_LANE_MAX_POINTS)
        return lw_fail(err, LW_WRONG_INPUT, "corners", "The field is %g m by %g m: divide it.", k.wide, k.deep);
    const double cell_m2 = (high.x_m - low.x_m) / k.wide * (high.y_m - low.y_m) / k.deep;
    lw_field_point *p = *points = room(arena, (size_t)fmin(k.wide * k.deep, LW_LANE_MAX_POINTS), err);
    *count = 0;
    if (!p)
        return false;
    for (double j = 0.5; j < k.deep; j += 1.0)
        for (double i = 0.5; i < k.wide; i += 1.0) {
            const double x = low.x_m + (high.x_m - low.x_m) * i / k.wide,
                         y = low.y_m + (high.y_m - low.y_m) * j / k.deep;
            if (!lw_field_holds(field, x, y))
                continue;
            if (*count == LW_LANE_MAX_POINTS)
                return lw_fail(err, LW_WRONG_INPUT, "corners", "The field needs more than %d points: divide it.",
                               LW_LANE_MAX_POINTS);
            p[(*count)++] = (lw_field_point){.x_m = x, .y_m = y, .area_m2 = cell_m2};
        }
    if (*count == 0)
        return lw_fail(err, LW_WRONG_INPUT, "corners", "The polygon holds no point of the grid; is its area zero?");
    return true;
}

bool lw_field_grid(const lw_field *field, double bay_m, lw_arena *arena, lw_field_point **points, size_t *count,
                   lw_error *err)
{
    if (!lw_field_check(field, err))
        return false;
    return field->kind == LW_FIELD_STRIP ? strip_grid(field, bay_m, arena, points, count, err)
                                         : polygon_grid(field, arena, points, count, err);
}
