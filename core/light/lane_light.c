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

/* Light of a head between two angles of its own axis, on the part of each ring that is told: all round (share 1), or
 * the arc above the horizontal, which lies to the side that is lifted. */
typedef struct band {
    const lw_lamp *lamp;
    double tilt, middle; /* of the arc, radian from the street side */
} band;

/* Half the arc that lies above the horizontal at the angle gamma from the axis. */
static double half_arc(const band *b, double gamma)
{
    return acos(fmax(-1.0, fmin(1.0, cos(gamma) / sin(gamma) * cos(b->tilt) / sin(b->tilt))));
}

/* Candela of a ring or arc times its length, by midpoints. */
static double ring_cd(const band *b, double gamma, double half)
{
    enum { ROUND = 72 };
    double sum = 0.0;
    for (int h = 0; h < ROUND; h++) {
        const double c = b->middle + half * ((2.0 * h + 1.0) / ROUND - 1.0);
        sum += lw_beam_cd(&b->lamp->beam, c * lw_degree_per_radian + b->lamp->beam.street_plane_deg,
                          gamma * lw_degree_per_radian);
    }
    return sum * sin(gamma) * 2.0 * half / ROUND;
}

static const double gauss_off = 0.57735026918962576; /* 1/sqrt(3): Gauss's rule of two points in each step */

static double rings(const band *b, double from, double to)
{
    enum { STEPS = 45 };
    const double half = 0.5 * (to - from) / STEPS;
    double sum = 0.0;
    for (int i = 0; i < STEPS; i++) {
        const double middle = from + (2.0 * i + 1.0) * half;
        sum += ring_cd(b, middle - gauss_off * half, lw_pi) + ring_cd(b, middle + gauss_off * half, lw_pi);
    }
    return half * sum;
}

/* Rings that the horizon cuts, from the right angle to the axis to the tilt below (-1) or above it (1). The arc begins
 * like a square root there; with gamma = 90 +- tilt cos(phi) it is smooth in phi. */
static double cut_ring(const band *b, double side, double phi)
{
    const double gamma = 0.5 * lw_pi + side * b->tilt * cos(phi);
    return ring_cd(b, gamma, half_arc(b, gamma)) * b->tilt * sin(phi);
}

static double cut_rings(const band *b, double side)
{
    enum { STEPS = 24 };
    const double half = 0.25 * lw_pi / STEPS;
    double sum = 0.0;
    for (int i = 0; i < STEPS; i++) {
        const double middle = (2.0 * i + 1.0) * half;
        sum += cut_ring(b, side, middle - gauss_off * half) + cut_ring(b, side, middle + gauss_off * half);
    }
    return half * sum;
}

/* Flux of one head into the upper and the whole sphere. */
static void head_flux(const lw_lamp *lamp, double *up, double *all)
{
    const double tilt = lamp->tilt_deg * lw_radian_per_degree, right = 0.5 * lw_pi;
    const band b = {lamp, fabs(tilt), tilt < 0.0 ? lw_pi : 0.0};
    const double above = rings(&b, right, lw_pi);
    *all += rings(&b, 0.0, right) + above;
    if (b.tilt == 0.0)
        *up += above;
    else
        *up += cut_rings(&b, -1.0) + cut_rings(&b, 1.0) + rings(&b, right + b.tilt, lw_pi);
}

double lw_upward_share(const lw_lamp *lamps, size_t lamp_count)
{
    double up = 0.0, all = 0.0;
    for (size_t i = 0; i < lamp_count; i++)
        head_flux(&lamps[i], &up, &all);
    return all > 0.0 ? up / all : 0.0;
}
