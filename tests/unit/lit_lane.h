/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The light of a lane's document, point by point, for the tests of lanes.
 */
#ifndef LANEWICK_LIT_LANE_H
#define LANEWICK_LIT_LANE_H

#include "lanewick/lane_json.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[8 << 20];
static lw_lane lane;
static lw_field_point *points;
static size_t count;

static lw_field_sum light(const char *document)
{
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    if (!lw_lane_from_json(document, strlen(document), &lane, &err) ||
        !lw_field_grid(&lane.field, lw_field_bay_m(&lane.field, lane.lamps, lane.lamp_count), &arena, &points, &count,
                       &err))
        fail_msg("%s", err.message);
    lw_field_light(lane.lamps, lane.lamp_count, lane.reach_heights, points, count);
    return lw_field_summary(points, count);
}

static void near(double is, double wanted, double tolerance)
{
    if (fabs(is - wanted) > tolerance)
        fail_msg("%.12g should be %.12g", is, wanted);
}

#define HEAD(lumens, power, rest) \
    "{\"format\":\"lanewick.lane/1\",\"head\":{\"lumens\":" #lumens ",\"cos_power\":" #power "}," rest "}"

#endif
