/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the masts of a layout stand and look: see lanewick/layout.h.
 */
#include "layout_place.h"

#include "lanewick/units.h"

#include <math.h>

/* At a lane's end one lamp lights what two light between masts: nearer ends need fewer lumens, wider bays more. */
static const double end_shares[] = {0.5, 0.45, 0.4, 0.35, 0.3};

/* A place on the edge: the point and the direction across the lane, to its inside. */
typedef struct edge_place {
    double x_m, y_m, across_deg;
} edge_place;

static size_t pieces(const lw_field *field)
{
    return field->kind == LW_FIELD_STRIP ? field->corner_count - 1 : field->corner_count;
}

static lw_corner corner(const lw_field *field, size_t i)
{
    return field->corners[i % field->corner_count];
}

static double piece_m(const lw_field *field, size_t i)
{
    const lw_corner a = corner(field, i), b = corner(field, i + 1);
    return hypot(b.x_m - a.x_m, b.y_m - a.y_m);
}

double lw_layout_length_m(const lw_field *field)
{
    double sum = 0.0;
    for (size_t i = 0; i < pieces(field); i++)
        sum += piece_m(field, i);
    return sum;
}

/* +1 when a polygon runs counter-clockwise (its inside is to the left), else -1; a lane lies to the left of its line.
 */
static double left_is_inside(const lw_field *field)
{
    double twice_area = 0.0;
    if (field->kind == LW_FIELD_STRIP)
        return 1.0;
    for (size_t i = 0; i < field->corner_count; i++) {
        const lw_corner a = corner(field, i), b = corner(field, i + 1);
        twice_area += a.x_m * b.y_m - b.x_m * a.y_m;
    }
    return twice_area >= 0.0 ? 1.0 : -1.0;
}

static edge_place edge_at(const lw_field *field, double along_m)
{
    size_t i = 0;
    while (i + 1 < pieces(field) && along_m > piece_m(field, i))
        along_m -= piece_m(field, i++);
    const lw_corner a = corner(field, i), b = corner(field, i + 1);
    const double share = along_m / piece_m(field, i);
    const double direction = atan2(b.y_m - a.y_m, b.x_m - a.x_m) * lw_degree_per_radian;
    return (edge_place){a.x_m + share * (b.x_m - a.x_m), a.y_m + share * (b.y_m - a.y_m),
                        direction + 90.0 * left_is_inside(field)};
}

/* Towards the middle of the lane that is nearest to a given place; of a polygon, the middle of its corners. */
static void towards_lane(const lw_field *field, lw_corner from, double *distance_m, double *turn_deg)
{
    lw_corner to = {0.0, 0.0};
    double least = INFINITY;
    for (size_t i = 0; field->kind == LW_FIELD_STRIP && i < pieces(field); i++) {
        const lw_corner a = corner(field, i), b = corner(field, i + 1);
        const double length = piece_m(field, i), dx = (b.x_m - a.x_m) / length, dy = (b.y_m - a.y_m) / length;
        const double along = fmin(length, fmax(0.0, (from.x_m - a.x_m) * dx + (from.y_m - a.y_m) * dy));
        const lw_corner middle = {a.x_m + along * dx - 0.5 * field->width_m * dy,
                                  a.y_m + along * dy + 0.5 * field->width_m * dx};
        const double away = hypot(from.x_m - middle.x_m, from.y_m - middle.y_m);
        if (away < least) {
            least = away;
            to = middle;
        }
    }
    for (size_t i = 0; field->kind == LW_FIELD_POLYGON && i < field->corner_count; i++) {
        to.x_m += field->corners[i].x_m / (double)field->corner_count;
        to.y_m += field->corners[i].y_m / (double)field->corner_count;
        least = fmin(least, hypot(from.x_m - field->corners[i].x_m, from.y_m - field->corners[i].y_m));
    }
    *distance_m = least;
    *turn_deg = atan2(to.y_m - from.y_m, to.x_m - from.x_m) * lw_degree_per_radian;
}

double lw_layout_away_m(const lw_layout_wish *wish, size_t place)
{
    double away, turn;
    towards_lane(&wish->field, wish->place[place], &away, &turn);
    const double inside = wish->field.kind == LW_FIELD_STRIP ? 0.5 * wish->field.width_m : 0.0;
    return fmax(0.0, away - inside);
}

static void stand(const lw_layout_wish *wish, const lw_layout *layout, size_t i, lw_lamp *lamp)
{
    if (wish->place_count > 0) {
        double away;
        towards_lane(&wish->field, wish->place[i], &away, &lamp->turn_deg);
        lamp->x_m = wish->place[i].x_m;
        lamp->y_m = wish->place[i].y_m;
        lamp->turn_deg += layout->turn_deg;
        return;
    }
    const edge_place edge = edge_at(&wish->field, layout->end_m + layout->spacing_m * (double)i);
    const bool far_side = layout->side == LW_SIDE_STAGGERED && i % 2 == 1;
    double across_m = far_side ? wish->field.width_m + wish->offset_m : -wish->offset_m;
    if (layout->side == LW_SIDE_MIDDLE)
        across_m = 0.5 * wish->field.width_m;
    const double across = edge.across_deg * lw_radian_per_degree;
    lamp->x_m = edge.x_m + across_m * cos(across);
    lamp->y_m = edge.y_m + across_m * sin(across);
    lamp->turn_deg = edge.across_deg + (far_side ? 180.0 - layout->turn_deg : layout->turn_deg);
}

size_t lw_layout_ends(const lw_layout_wish *wish, size_t masts)
{
    const bool free_ends = wish->field.kind == LW_FIELD_STRIP && wish->place_count == 0 && masts > 1;
    return free_ends ? sizeof end_shares / sizeof end_shares[0] : 1;
}

void lw_layout_space(const lw_layout_wish *wish, size_t way, lw_layout *layout)
{
    layout->spacing_m = layout->end_m = 0.0;
    if (wish->place_count > 0)
        return;
    const double share = end_shares[way];
    layout->spacing_m = lw_layout_length_m(&wish->field) / ((double)layout->masts - 1.0 + 2.0 * share);
    layout->end_m = share * layout->spacing_m;
}

bool lw_layout_grid(const lw_layout_wish *wish, const lw_layout *layout, lw_arena *arena, lw_field_point **points,
                    size_t *count, lw_error *err)
{
    lw_lamp lamps[LW_LAYOUT_MAX_MASTS];
    double bay_m = layout->spacing_m;
    if (!(bay_m > 0.0)) {
        lw_layout_lamps(wish, layout, lamps);
        bay_m = lw_field_bay_m(&wish->field, lamps, layout->masts);
    }
    return lw_field_grid(&wish->field, bay_m, arena, points, count, err);
}

double lw_layout_left(const lw_layout_wish *wish, const lw_layout *layout)
{
    return wish->maintenance * wish->head[layout->head].yellowed;
}

lw_light_colour lw_layout_colour(const lw_layout_request *request, const lw_layout *layout)
{
    return lw_light_colour_of(request->head[layout->head].colour_k, layout->light.upward_share < 0.05, true, false);
}

void lw_layout_lamps(const lw_layout_wish *wish, const lw_layout *layout, lw_lamp *lamps)
{
    const lw_layout_head *head = &wish->head[layout->head];
    for (size_t i = 0; i < layout->masts; i++) {
        lw_lamp *lamp = &lamps[i];
        *lamp = (lw_lamp){.height_m = layout->height_m,
                          .tilt_deg = layout->side == LW_SIDE_MIDDLE ? 0.0 : layout->tilt_deg,
                          .maintenance = lw_layout_left(wish, layout),
                          .beam = head->beam};
        if (head->beam.table)
            lamp->maintenance *= layout->lumens_each / head->table_lumens;
        else
            lamp->beam.peak_cd *= layout->lumens_each;
        stand(wish, layout, i, lamp);
        lamp->turn_deg = remainder(lamp->turn_deg, 360.0);
    }
}
