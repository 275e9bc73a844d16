/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head's light laid out on even steps of both angles: see lanewick/light_batch.h.
 */
#include "lanewick/light_batch.h"

#include "lanewick/units.h"

#include <math.h>

static const double steps_deg[] = {10.0, 5.0, 2.5, 2.0, 1.0, 0.5, 0.25};
enum { STEPS = sizeof steps_deg / sizeof steps_deg[0] };

static bool all_on(const double *deg, size_t n, double from_deg, double step_deg)
{
    for (size_t i = 0; i < n; i++) {
        const double place = (deg[i] - from_deg) / step_deg;
        if (fabs(place - round(place)) > 1e-9)
            return false;
    }
    return true;
}

/* The widest step on which all angles lie, counted from from_deg; the narrowest when none does. */
static double even_step(const double *deg, size_t n, double from_deg, bool *exact)
{
    for (size_t s = 0; s < STEPS; s++)
        if (all_on(deg, n, from_deg, steps_deg[s]))
            return steps_deg[s];
    *exact = false;
    return steps_deg[STEPS - 1];
}

bool lw_even_table_of(const lw_beam *beam, lw_arena *arena, lw_even_table *out, lw_error *err)
{
    const lw_intensity *table = beam->table;
    double first_deg = 0.0, last_deg = beam->round ? 180.0 : 90.0, down_deg = 0.5, round_deg = 90.0;
    *out = (lw_even_table){.exact = table != NULL};
    if (table) {
        first_deg = table->vertical_deg[0];
        last_deg = table->vertical_deg[table->vertical_count - 1];
        down_deg = even_step(table->vertical_deg, table->vertical_count, first_deg, &out->exact);
        round_deg = table->horizontal_count == 1 ? 90.0
                                                 : even_step(table->horizontal_deg, table->horizontal_count,
                                                             beam->street_plane_deg, &out->exact);
    }
    out->vertical_count = (size_t)lround((last_deg - first_deg) / down_deg) + 1;
    out->plane_count = (size_t)lround(360.0 / round_deg) + 1;
    out->first_rad = (float)(first_deg * lw_radian_per_degree);
    out->last_rad = (float)(last_deg * lw_radian_per_degree);
    out->vertical_per_rad = (float)(lw_degree_per_radian / down_deg);
    out->plane_per_rad = (float)(lw_degree_per_radian / round_deg);
    float *cd = lw_arena_take(arena, out->vertical_count * out->plane_count, sizeof *cd, err);
    if (!cd)
        return false;
    for (size_t h = 0; h < out->plane_count; h++)
        for (size_t v = 0; v < out->vertical_count; v++) {
            const double gamma = fmin(first_deg + down_deg * (double)v, last_deg);
            const double c = beam->street_plane_deg - 180.0 + round_deg * (double)h;
            cd[h * out->vertical_count + v] = (float)lw_beam_cd(beam, c, gamma);
        }
    out->candela = cd;
    return true;
}
