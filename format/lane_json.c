/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reader and answer of the lane document: see lanewick/lane_json.h and docs/lane.md.
 */
#include "lanewick/lane_json.h"

#include "doc.h"
#include "head_read.h"
#include "json_help.h"
#include "lane_wish.h"
#include "lanewick/units.h"

#include <math.h>
#include <string.h>

static const lw_doc_or no_tilt = {0.0, "degree", NULL};

static void read_field(lw_doc *lane, lw_field *field)
{
    lw_doc doc = lw_doc_part(lane, "field", true);
    lw_lane_read_field(&doc, (lw_field_range){0.1, 1000.0, 10000.0, lw_doc_has(lane, "row")}, field);
    (void)lw_doc_done(&doc);
}

/* The closed form; a file, readings or a bottle are worked out by the caller (lw_lane_use_beam). */
static lw_beam read_head(lw_doc *lane, lw_lane *out)
{
    lw_doc doc = lw_doc_part(lane, "head", true);
    lw_head *head = &out->head;
    lw_head_read(&doc, head);
    (void)lw_doc_done(&doc);
    return (lw_beam){.peak_cd =
                         head->round ? head->lumens / (4.0 * lw_pi) : lw_cosine_peak_cd(head->lumens, head->cos_power),
                     .cos_power = head->cos_power,
                     .round = head->round,
                     .street_plane_deg = head->street_plane_deg};
}

static void read_pose(lw_doc *doc, lw_lamp *lamp)
{
    lamp->height_m = lw_doc_number(doc, "height_m", 0.5, 100.0, "m");
    lamp->turn_deg = lw_doc_number_or(doc, "turn_deg", -360.0, 360.0, (lw_doc_or){90.0, "degree", NULL});
    lamp->tilt_deg = lw_doc_number_or(doc, "tilt_deg", -90.0, 90.0, no_tilt);
}

/* A mast so far away that it lights nothing there is a slip of the pen. Fields with faults are told by their grid. */
static void check_place(lw_doc *doc, const lw_field *field, const lw_lamp *lamp)
{
    const double away_m = lw_field_distance_m(field, lamp->x_m, lamp->y_m);
    const double most_m = fmax(30.0, 10.0 * lamp->height_m);
    if (away_m > most_m)
        lw_doc_fail(
            doc, "x_m",
            "and y_m put this mast %.4g m outside the field, more than %.4g m (10 heights, at least 30 m): it would "
            "light nothing there.",
            away_m, most_m);
}

static void read_masts(lw_doc *lane, lw_lane *out, lw_lamp model)
{
    const json_t *list = lw_doc_list(lane, "masts", 1, LW_LANE_MAX_LAMPS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(lane, "masts", list, i);
        model.x_m = lw_doc_number(&doc, "x_m", -1e5, 1e5, "m");
        model.y_m = lw_doc_number(&doc, "y_m", -1e5, 1e5, "m");
        read_pose(&doc, &model);
        check_place(&doc, &out->field, &model);
        (void)lw_doc_done(&doc);
        out->lamps[out->lamp_count++] = model;
    }
}

/* A row that goes on for ever: the field runs from one lamp to the next on the same side: one spacing, two
 * where the lamps stand in turn on both sides. */
static void endless_row(lw_lane *lane, lw_lamp model, double spacing_m, double offset_m, int side)
{
    enum { ONE, BOTH, STAGGERED, MIDDLE, EACH_WAY = 250 }; /* a lamp 250 spacings away adds under 1e-7 of the nearest */
    const double width_m = lane->field.width_m, same_side_m = side == STAGGERED ? 2.0 * spacing_m : spacing_m;
    lane->field.corner_count = 2;
    lane->field.corners[0] = (lw_corner){0.0, 0.0};
    lane->field.corners[1] = (lw_corner){same_side_m, 0.0};
    for (int k = -EACH_WAY; k <= EACH_WAY + 1; k++) {
        model.x_m = same_side_m * k;
        model.y_m = side == MIDDLE ? 0.5 * width_m : -offset_m;
        lane->lamps[lane->lamp_count++] = model;
        if (side != BOTH && side != STAGGERED)
            continue;
        lw_lamp other = model;
        other.x_m += side == STAGGERED ? spacing_m : 0.0;
        other.y_m = width_m + offset_m;
        other.turn_deg = -model.turn_deg;
        lane->lamps[lane->lamp_count++] = other;
    }
}

static void read_row(lw_doc *lane, lw_lane *out, lw_lamp model)
{
    lw_doc doc = lw_doc_part(lane, "row", false);
    const double spacing_m = lw_doc_number(&doc, "spacing_m", 0.5, 1000.0, "m");
    const double offset_m = lw_doc_number_or(&doc, "offset_m", -100.0, 100.0, (lw_doc_or){0.0, "m", NULL});
    const int side = lw_doc_choice(&doc, "side", "one|both|staggered|middle", 0, NULL);
    read_pose(&doc, &model);
    if (lw_doc_done(&doc) && out->field.kind != LW_FIELD_STRIP)
        lw_doc_fail(lane, "row", "needs a field with a width; give masts for a polygon.");
    else if (out->field.corner_count > 2 || out->field.corners[0].x_m != 0.0 || out->field.corners[0].y_m != 0.0 ||
             out->field.corners[1].y_m != 0.0)
        lw_doc_fail(lane, "row", "goes on straight along x; give masts for a lane with a line.");
    else if (!lane->root->failed)
        endless_row(out, model, spacing_m, offset_m, side);
}

static void read_windows(lw_doc *lane, lw_lane *out)
{
    const json_t *list = lw_doc_list(lane, "windows", 0, LW_LANE_MAX_WINDOWS);
    out->window_count = json_array_size(list);
    for (size_t i = 0; i < out->window_count; i++) {
        lw_doc doc = lw_doc_element(lane, "windows", list, i);
        lw_window *window = &out->windows[i];
        window->x_m = lw_doc_number(&doc, "x_m", -1e5, 1e5, "m");
        window->y_m = lw_doc_number(&doc, "y_m", -1e5, 1e5, "m");
        window->z_m = lw_doc_number_or(&doc, "z_m", 0.0, 50.0, (lw_doc_or){1.5, "m", NULL});
        window->facing_deg = lw_doc_number(&doc, "facing_deg", -360.0, 360.0, "degree");
        (void)lw_doc_done(&doc);
    }
}

static void read_wish(lw_doc *lane, lw_lane *out)
{
    lw_doc_text(lane, "class", "", out->wanted_class, sizeof out->wanted_class);
    out->crossing = lw_doc_flag_or(lane, "crossing", out->wanted_class[0] == 'C', NULL);
    out->reach_heights = lw_doc_number_or(lane, "reach_heights", 0.0, 1000.0, (lw_doc_or){0.0, "", NULL});
    out->ground_reflectance = lw_doc_number_or(lane, "ground_reflectance", 0.02, 0.9, (lw_doc_or){0.2, "", NULL});
    if (out->wanted_class[0] && !lw_light_class_find(out->wanted_class))
        lw_doc_fail(lane, "class", "is \"%s\"; there are P1 to P6 and C0 to C5.", out->wanted_class);
}

bool lw_lane_from_json(const char *bytes, size_t length, lw_lane *lane, lw_error *err)
{
    memset(lane, 0, sizeof *lane);
    json_t *json = lw_json_parse(bytes, length, err);
    if (!json)
        return false;
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, json, "");
    (void)lw_doc_choice(&doc, "format", "lanewick.lane/1", -1, NULL);
    lw_doc_text(&doc, "name", "", lane->name, sizeof lane->name);
    read_field(&doc, &lane->field);
    lw_lamp model = {.beam = read_head(&doc, lane)};
    model.maintenance = lw_doc_number_or(&doc, "maintenance", 0.01, 1.0, (lw_doc_or){0.8, "", NULL});
    const bool masts = lw_doc_has(&doc, "masts"), row = lw_doc_has(&doc, "row");
    if (masts == row)
        lw_doc_fail(&doc, "masts", "%s; give a list of masts or an endless row.",
                    row ? "and row are both given" : "is missing");
    else if (masts)
        read_masts(&doc, lane, model);
    else
        read_row(&doc, lane, model);
    read_wish(&doc, lane);
    read_windows(&doc, lane);
    const bool done = lw_doc_done(&doc);
    json_decref(json);
    return done;
}

void lw_lane_use_beam(lw_lane *lane, const lw_beam *beam)
{
    for (size_t i = 0; i < lane->lamp_count; i++)
        lane->lamps[i].beam = *beam;
}

double lw_lane_left(const lw_lane *lane)
{
    double left = lane->lamps[0].maintenance;
    if (lane->head.has_diffuser) {
        lw_diffuser fresh = lane->head.diffuser;
        fresh.years = 0.0;
        left *= lw_diffuser_share(&lane->head.diffuser).usual / lw_diffuser_share(&fresh).usual;
    }
    return left;
}

double lw_lane_window_lx(const lw_lane *lane, const lw_window *w)
{
    return lw_window_lx(lane->lamps, lane->lamp_count, w->x_m, w->y_m, w->z_m, w->facing_deg) / lw_lane_left(lane);
}

static json_t *window_list(const lw_lane *lane)
{
    json_t *list = json_array();
    for (size_t i = 0; i < lane->window_count; i++) {
        const lw_window *w = &lane->windows[i];
        json_t *one = json_object();
        json_object_set_new(one, "x_m", lw_json_number(w->x_m));
        json_object_set_new(one, "y_m", lw_json_number(w->y_m));
        json_object_set_new(one, "vertical_lx", lw_json_number(lw_lane_window_lx(lane, w)));
        json_array_append_new(list, one);
    }
    return list;
}

static json_t *point_list(const lw_field_point *points, size_t count)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++) {
        const lw_field_point *p = &points[i];
        json_t *one = json_object();
        json_object_set_new(one, "x_m", lw_json_number(p->x_m));
        json_object_set_new(one, "y_m", lw_json_number(p->y_m));
        json_object_set_new(one, "horizontal_lx", lw_json_number(p->ahead.horizontal_lx));
        json_object_set_new(one, "hemispherical_lx", lw_json_number(p->ahead.hemispherical_lx));
        json_object_set_new(one, "vertical_lx", lw_json_number(fmin(p->ahead.vertical_lx, p->back.vertical_lx)));
        json_object_set_new(one, "semicylindrical_lx",
                            lw_json_number(fmin(p->ahead.semicylindrical_lx, p->back.semicylindrical_lx)));
        json_array_append_new(list, one);
    }
    return list;
}

char *lw_lane_to_json(const lw_lane *lane, const lw_field_sum *sum, const lw_field_point *points, size_t count)
{
    const lw_light_class *reached = lw_light_class_reached(sum, lane->crossing);
    json_t *object = json_object();
    json_object_set_new(object, "average_lx", lw_json_number(sum->average_lx));
    json_object_set_new(object, "minimum_lx", lw_json_number(sum->minimum_lx));
    json_object_set_new(object, "maximum_lx", lw_json_number(sum->maximum_lx));
    json_object_set_new(object, "uniformity", lw_json_number(sum->uniformity));
    json_object_set_new(object, "class", reached ? json_string(reached->name) : json_null());
    if (lane->wanted_class[0])
        json_object_set_new(object, "wanted_class_met", json_boolean(lw_lane_class_met(lane, sum)));
    json_object_set_new(object, "too_bright", json_boolean(lw_lane_too_bright(lane, sum)));
    json_object_set_new(object, "in_words", json_string(lw_light_in_words(sum)));
    json_object_set_new(object, "vertical_minimum_lx", lw_json_number(sum->vertical_minimum_lx));
    json_object_set_new(object, "semicylindrical_minimum_lx", lw_json_number(sum->semicylindrical_minimum_lx));
    json_object_set_new(object, "hemispherical_average_lx", lw_json_number(sum->hemispherical_average_lx));
    json_object_set_new(object, "upward_share", lw_json_number(sum->upward_share));
    json_object_set_new(object, "threshold_increment_pct", lw_json_number(sum->threshold_increment_pct));
    if (lane->head.colour_k > 0.0)
        json_object_set_new(object, "colour_advice", json_string(lw_lane_colour(lane, sum).advice));
    json_object_set_new(object, "windows", window_list(lane));
    json_object_set_new(object, "all_lamps_count", json_boolean(lane->reach_heights == 0.0));
    json_object_set_new(object, "points", point_list(points, count));
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}

bool lw_lane_class_met(const lw_lane *lane, const lw_field_sum *sum)
{
    const lw_light_class *wanted = lw_light_class_find(lane->wanted_class);
    return wanted && sum->average_lx >= wanted->average_lx && sum->minimum_lx >= wanted->minimum_lx &&
           sum->uniformity >= wanted->uniformity;
}

bool lw_lane_too_bright(const lw_lane *lane, const lw_field_sum *sum)
{
    const lw_light_class *wanted = lw_light_class_find(lane->wanted_class);
    return wanted && wanted->name[0] == 'P' && sum->average_lx > 1.5 * wanted->average_lx;
}

lw_light_colour lw_lane_colour(const lw_lane *lane, const lw_field_sum *sum)
{
    return lw_light_colour_of(lane->head.colour_k, sum->upward_share < 0.01, true, false);
}
