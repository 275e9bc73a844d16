/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the lane document, and the grid of every field that it accepts.
 */
#include "lanewick/lane_json.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static unsigned char memory[16 << 20];
    static lw_lane lane;
    lw_error err = {0};
    lw_field_point *points = NULL;
    size_t count = 0;
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    if (!lw_lane_from_json((const char *)data, size, &lane, &err) ||
        !lw_field_grid(&lane.field, lw_field_bay_m(&lane.field, lane.lamps, lane.lamp_count), &arena, &points, &count,
                       &err))
        return 0;
    const size_t some = count < 40 ? count : 40;
    lw_field_light(lane.lamps, lane.lamp_count, lane.reach_heights, points, some);
    (void)lw_field_summary(points, some);
    return 0;
}
