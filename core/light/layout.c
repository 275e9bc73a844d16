/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Search for the places of the masts: see lanewick/layout.h.
 */
#include "lanewick/layout.h"

#include <math.h>

typedef struct work {
    const lw_layout_wish *wish;
    lw_lamp *lamps;
    lw_field_point *points;
    size_t point_count;
} work;

void lw_layout_lamps(const lw_layout_wish *wish, const lw_layout *layout, lw_lamp *lamps)
{
    for (size_t i = 0; i < layout->masts; i++) {
        const bool far_side = layout->side == LW_SIDE_STAGGERED && i % 2 == 1;
        double y = far_side ? wish->width_m + wish->offset_m : -wish->offset_m;
        if (layout->side == LW_SIDE_MIDDLE)
            y = 0.5 * wish->width_m;
        lw_beam beam = wish->beam;
        double maintenance = wish->maintenance;
        if (beam.table)
            maintenance *= layout->lumens_each / wish->table_lumens;
        else
            beam.peak_cd *= layout->lumens_each;
        lamps[i] = (lw_lamp){.x_m = layout->spacing_m * ((double)i + 0.5),
                             .y_m = y,
                             .height_m = layout->height_m,
                             .turn_deg = far_side ? -90.0 : 90.0,
                             .tilt_deg = layout->side == LW_SIDE_MIDDLE ? 0.0 : layout->tilt_deg,
                             .maintenance = maintenance,
                             .beam = beam};
    }
}

static bool check_ranges(const lw_layout_wish *wish, lw_error *err)
{
    return lw_in_range(err, "length_m", wish->length_m, 1.0, 2000.0, "m") &&
           lw_in_range(err, "width_m", wish->width_m, 0.5, 50.0, "m") &&
           lw_in_range(err, "maintenance", wish->maintenance, 0.01, 1.0, "") &&
           lw_all_in_range(err, "heights_m", wish->heights_m, wish->height_count, 1.0, 20.0, "m") &&
           lw_all_in_range(err, "tilts_deg", wish->tilts_deg, wish->tilt_count, -45.0, 45.0, "degree");
}

static bool check(const lw_layout_wish *wish, lw_error *err)
{
    if (!check_ranges(wish, err))
        return false;
    if (wish->height_count == 0 || wish->tilt_count == 0 || !(wish->sides[0] || wish->sides[1] || wish->sides[2]))
        return lw_fail(err, LW_WRONG_INPUT, "heights_m",
                       "Give at least one height, one tilt and one side to choose from.");
    if (wish->average_lx <= 0.0 && wish->minimum_lx <= 0.0 && wish->semicylindrical_lx <= 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "average_lx",
                       "Say how much light is wanted: a class, an average or a minimum.");
    if (wish->fewest_masts < 1 || wish->most_masts < wish->fewest_masts || wish->most_masts > LW_LAYOUT_MAX_MASTS)
        return lw_fail(err, LW_WRONG_INPUT, "most_masts", "most_masts is %zu; it must be between %zu and %d.",
                       wish->most_masts, wish->fewest_masts, LW_LAYOUT_MAX_MASTS);
    return true;
}

static double needed(double wanted, double given)
{
    if (wanted <= 0.0)
        return 0.0;
    return given > 0.0 ? wanted / given : INFINITY;
}

/* Fills lumens and light of the layout; false when no lumens can meet the wish. */
static bool judge(const work *w, lw_layout *layout)
{
    const lw_layout_wish *wish = w->wish;
    layout->lumens_each = 1.0;
    lw_layout_lamps(wish, layout, w->lamps);
    lw_field_light(w->lamps, layout->masts, 0.0, w->points, w->point_count);
    lw_field_sum one = lw_field_summary(w->points, w->point_count);
    if (one.uniformity < wish->uniformity)
        return false;
    const double lumens = fmax(fmax(needed(wish->average_lx, one.average_lx), needed(wish->minimum_lx, one.minimum_lx)),
                               needed(wish->semicylindrical_lx, one.semicylindrical_minimum_lx));
    if (!isfinite(lumens) || (wish->most_lumens > 0.0 && lumens > wish->most_lumens))
        return false;
    layout->lumens_each = lumens;
    one.average_lx *= lumens;
    one.minimum_lx *= lumens;
    one.maximum_lx *= lumens;
    one.vertical_minimum_lx *= lumens;
    one.semicylindrical_minimum_lx *= lumens;
    one.hemispherical_average_lx *= lumens;
    layout->light = one;
    return true;
}

static bool best_for(const work *w, size_t masts, lw_layout *best)
{
    const lw_layout_wish *wish = w->wish;
    bool found = false;
    for (int side = 0; side < 3; side++)
        for (size_t h = 0; wish->sides[side] && h < wish->height_count; h++)
            for (size_t t = 0; t < (side == LW_SIDE_MIDDLE ? 1 : wish->tilt_count); t++) {
                lw_layout one = {.masts = masts,
                                 .side = (lw_side)side,
                                 .height_m = wish->heights_m[h],
                                 .tilt_deg = side == LW_SIDE_MIDDLE ? 0.0 : wish->tilts_deg[t],
                                 .spacing_m = wish->length_m / (double)masts};
                if (!judge(w, &one) || (found && one.lumens_each >= best->lumens_each))
                    continue;
                *best = one;
                found = true;
            }
    return found;
}

bool lw_layout_search(const lw_layout_wish *wish, lw_arena *arena, lw_layout *out, size_t *count, lw_error *err)
{
    *count = 0;
    if (!check(wish, err))
        return false;
    const lw_field field = {.kind = LW_FIELD_STRIP,
                            .corners = {{0.0, 0.0}, {wish->length_m, 0.0}},
                            .corner_count = 2,
                            .width_m = wish->width_m};
    work w = {.wish = wish, .lamps = lw_arena_take(arena, wish->most_masts, sizeof(lw_lamp), err)};
    if (!w.lamps || !lw_field_grid(&field, arena, &w.points, &w.point_count, err))
        return false;
    for (size_t masts = wish->fewest_masts; masts <= wish->most_masts; masts++)
        if (best_for(&w, masts, &out[*count])) {
            lw_layout_lamps(wish, &out[*count], w.lamps);
            out[*count].light.upward_share = lw_upward_share(w.lamps, 1);
            ++*count;
        }
    return true;
}
