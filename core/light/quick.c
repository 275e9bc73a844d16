/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light for the search of masts: see quick.h.
 */
#include "quick.h"

#include "lanewick/units.h"

#include <math.h>

typedef struct pose {
    const lw_lamp *lamp;
    double cos_turn, sin_turn, cos_tilt, sin_tilt;
} pose;

/* Candela along (dx, dy, down), r long; closed forms need the cosine to the head's axis only. */
static double towards_cd(const pose *p, double dx, double dy, double down, double r)
{
    const lw_beam *beam = &p->lamp->beam;
    if (beam->round && !beam->table)
        return beam->peak_cd;
    const double forward = dx * p->cos_turn + dy * p->sin_turn;
    const double axis = down * p->cos_tilt + forward * p->sin_tilt;
    if (beam->table) {
        const double side = dy * p->cos_turn - dx * p->sin_turn, out = forward * p->cos_tilt - down * p->sin_tilt;
        return lw_intensity_cd(beam->table, atan2(side, out) * lw_degree_per_radian + beam->street_plane_deg,
                               atan2(hypot(out, side), axis) * lw_degree_per_radian);
    }
    if (axis <= 0.0)
        return 0.0;
    return beam->peak_cd * (beam->cos_power == 1.0 ? axis / r : pow(axis / r, beam->cos_power));
}

void lw_quick_light(const lw_lamp *lamp, const lw_field_point *points, size_t count, double *horizontal_lx,
                    double *ahead_lx, double *back_lx)
{
    const double turn = lamp->turn_deg * lw_radian_per_degree, tilt = lamp->tilt_deg * lw_radian_per_degree;
    const pose p = {lamp, cos(turn), sin(turn), cos(tilt), sin(tilt)};
    const double h = lamp->height_m, above = h - lw_face_height_m;
    double along_deg = NAN, cos_along = 1.0, sin_along = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double dx = points[i].x_m - lamp->x_m, dy = points[i].y_m - lamp->y_m, d2 = dx * dx + dy * dy;
        const double r2 = d2 + h * h, r = sqrt(r2);
        horizontal_lx[i] += towards_cd(&p, dx, dy, h, r) * lamp->maintenance * h / (r2 * r);
        const double face2 = d2 + above * above;
        if (!ahead_lx || face2 <= 0.0)
            continue;
        if (points[i].along_deg != along_deg) {
            along_deg = points[i].along_deg;
            cos_along = cos(along_deg * lw_radian_per_degree);
            sin_along = sin(along_deg * lw_radian_per_degree);
        }
        const double face = sqrt(face2), d = sqrt(d2), ahead = -(dx * cos_along + dy * sin_along);
        const double share = towards_cd(&p, dx, dy, above, face) * lamp->maintenance / (lw_pi * face2 * face);
        ahead_lx[i] += share * (d + ahead);
        back_lx[i] += share * (d - ahead);
    }
}

bool lw_quick_is_board(const lw_beam *beam)
{
    return !beam->table && !beam->round && beam->cos_power == 1.0;
}

/* I = peak axis / r needs no root in E = I h / r3. */
void lw_quick_board(const lw_lamp *lamp, const double *restrict x_m, const double *restrict y_m, size_t count,
                    double *restrict horizontal_lx)
{
    const double turn = lamp->turn_deg * lw_radian_per_degree, tilt = lamp->tilt_deg * lw_radian_per_degree;
    const double h = lamp->height_m, scale = lamp->beam.peak_cd * lamp->maintenance * h, down = h * cos(tilt);
    const double by_x = cos(turn) * sin(tilt), by_y = sin(turn) * sin(tilt), at_x = lamp->x_m, at_y = lamp->y_m;
    for (size_t i = 0; i < count; i++) {
        const double dx = x_m[i] - at_x, dy = y_m[i] - at_y;
        const double axis = down + dx * by_x + dy * by_y, r2 = dx * dx + dy * dy + h * h;
        horizontal_lx[i] += (axis > 0.0 ? axis : 0.0) * scale / (r2 * r2);
    }
}
