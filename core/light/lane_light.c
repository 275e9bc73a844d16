/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The light on a grid of points: sums over the lamps, averages, smallest values, light lost upward.
 */
#include "lanewick/lane.h"

#include "lanewick/units.h"

#include <math.h>

void lw_field_light(const lw_lamp *lamps, size_t lamp_count, double reach_heights, lw_field_point *points, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        lw_field_point *p = &points[i];
        p->ahead = p->back = (lw_lux){0};
        for (size_t k = 0; k < lamp_count; k++) {
            const lw_lamp *lamp = &lamps[k];
            if (reach_heights > 0.0 && hypot(p->x_m - lamp->x_m, p->y_m - lamp->y_m) > reach_heights * lamp->height_m)
                continue;
            lw_lux_add(lamp, p->x_m, p->y_m, p->along_deg, &p->ahead);
            lw_lux_add(lamp, p->x_m, p->y_m, p->along_deg + 180.0, &p->back);
        }
    }
}

lw_field_sum lw_field_summary(const lw_field_point *points, size_t count)
{
    lw_field_sum sum = {
        .minimum_lx = INFINITY, .vertical_minimum_lx = INFINITY, .semicylindrical_minimum_lx = INFINITY};
    double all_m2 = 0.0;
    for (size_t i = 0; i < count; i++)
        all_m2 += points[i].area_m2;
    for (size_t i = 0; i < count; i++) {
        const lw_lux *a = &points[i].ahead, *b = &points[i].back;
        const double share = points[i].area_m2 / all_m2;
        sum.average_lx += a->horizontal_lx * share;
        sum.hemispherical_average_lx += a->hemispherical_lx * share;
        sum.minimum_lx = fmin(sum.minimum_lx, a->horizontal_lx);
        sum.maximum_lx = fmax(sum.maximum_lx, a->horizontal_lx);
        sum.vertical_minimum_lx = fmin(sum.vertical_minimum_lx, fmin(a->vertical_lx, b->vertical_lx));
        sum.semicylindrical_minimum_lx =
            fmin(sum.semicylindrical_minimum_lx, fmin(a->semicylindrical_lx, b->semicylindrical_lx));
    }
    sum.uniformity = sum.average_lx > 0.0 ? sum.minimum_lx / sum.average_lx : 0.0;
    return sum;
}

/* Flux of one head into the upper and the whole sphere, by midpoints over the head's own angles. */
static void head_flux(const lw_lamp *lamp, double *up, double *all)
{
    enum { DOWN = 180, ROUND = 72 };
    const double tilt = lamp->tilt_deg * lw_radian_per_degree;
    for (int v = 0; v < DOWN; v++) {
        const double gamma = (v + 0.5) * lw_pi / DOWN;
        const double ring = sin(gamma) * (lw_pi / DOWN) * (2.0 * lw_pi / ROUND);
        for (int h = 0; h < ROUND; h++) {
            const double c = (h + 0.5) * 2.0 * lw_pi / ROUND;
            const double cd = lw_beam_cd(&lamp->beam, c * lw_degree_per_radian + lamp->beam.street_plane_deg,
                                         gamma * lw_degree_per_radian);
            /* height of the direction: the axis leans by the tilt towards the street side */
            const double height = sin(gamma) * cos(c) * sin(tilt) - cos(gamma) * cos(tilt);
            *all += cd * ring;
            *up += height > 0.0 ? cd * ring : 0.0;
        }
    }
}

double lw_upward_share(const lw_lamp *lamps, size_t lamp_count)
{
    double up = 0.0, all = 0.0;
    for (size_t i = 0; i < lamp_count; i++)
        head_flux(&lamps[i], &up, &all);
    return all > 0.0 ? up / all : 0.0;
}
