/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What one lamp sends to one place: CIE 140:2000 and EN 13201-3:2015 clause 7 (from memory), in the form without
 * angles given in lanewick/light.h, so that nothing is divided by zero straight below a lamp.
 */
#include "lanewick/light.h"

#include "lanewick/units.h"

#include <math.h>

/* Candela that the lamp sends along the vector (dx, dy, down), which need not have length one. */
static double towards_cd(const lw_lamp *lamp, double dx, double dy, double down)
{
    const double turn = lamp->turn_deg * lw_radian_per_degree, tilt = lamp->tilt_deg * lw_radian_per_degree;
    const double forward = dx * cos(turn) + dy * sin(turn); /* towards the street side, before the tilt */
    const double side = dy * cos(turn) - dx * sin(turn);    /* a quarter turn counter-clockwise from it */
    const double out = forward * cos(tilt) - down * sin(tilt);
    const double axis = down * cos(tilt) + forward * sin(tilt);
    const double gamma_deg = atan2(hypot(out, side), axis) * lw_degree_per_radian;
    const double c_deg = atan2(side, out) * lw_degree_per_radian;
    return lw_beam_cd(&lamp->beam, c_deg + lamp->beam.street_plane_deg, gamma_deg);
}

double lw_lamp_towards_cd(const lw_lamp *lamp, double x_m, double y_m, double z_m)
{
    return towards_cd(lamp, x_m - lamp->x_m, y_m - lamp->y_m, lamp->height_m - z_m);
}

void lw_lux_add(const lw_lamp *lamp, double x_m, double y_m, double facing_deg, lw_lux *sum)
{
    const double dx = x_m - lamp->x_m, dy = y_m - lamp->y_m, d2 = dx * dx + dy * dy;
    const double h = lamp->height_m;
    if (h > 0.0) {
        const double r2 = d2 + h * h, r = sqrt(r2);
        const double cd = towards_cd(lamp, dx, dy, h) * lamp->maintenance;
        sum->horizontal_lx += cd * h / (r2 * r);
        sum->hemispherical_lx += cd * (1.0 + h / r) / (4.0 * r2);
    }
    const double above = h - lw_face_height_m, r2 = d2 + above * above, r3 = r2 * sqrt(r2);
    if (r3 <= 0.0)
        return;
    const double cd = towards_cd(lamp, dx, dy, above) * lamp->maintenance;
    const double facing = facing_deg * lw_radian_per_degree;
    /* d cos(alpha): the distance in plan, projected on the direction that the person faces */
    const double ahead = -(dx * cos(facing) + dy * sin(facing));
    sum->vertical_lx += cd * fmax(ahead, 0.0) / r3;
    sum->semicylindrical_lx += cd * (sqrt(d2) + ahead) / (lw_pi * r3);
}
