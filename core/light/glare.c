/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Glare and light where it is not wanted.
 *
 * Threshold increment (EN 13201-3:2015, from memory): TI = 65 Lv/Lav^0.8 per cent, Lv = 10 sum(E/theta^2) with E the
 * light of a lamp on a plane at the eye (1.5 m) square to the line of sight, theta degrees from it, 1.5 to 60; the
 * line of sight runs along the lane, one degree down. A lane that is judged by lux has no luminance: Lav is that of a
 * diffuse ground, reflectance times Eav/pi. Lamps dazzle most while they are new and clean, and are judged so: with the
 * share m left of their light, TI is that of the new ones times m^0.2.
 */
#include "lanewick/lane.h"

#include "lanewick/units.h"

#include <math.h>

static const double gaze_down_deg = 1.0, narrowest_deg = 1.5, widest_deg = 60.0;

/* Veiling luminance of the lamps at an eye at (x, y) that looks along facing_deg. */
static double veil(const lw_lamp *lamps, size_t count, double x, double y, double facing_deg)
{
    const double facing = facing_deg * lw_radian_per_degree, down = gaze_down_deg * lw_radian_per_degree;
    const double gx = cos(facing) * cos(down), gy = sin(facing) * cos(down), gz = -sin(down);
    double sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double dx = lamps[i].x_m - x, dy = lamps[i].y_m - y, dz = lamps[i].height_m - lw_face_height_m;
        const double r = sqrt(dx * dx + dy * dy + dz * dz);
        const double cos_theta = r > 0.0 ? (dx * gx + dy * gy + dz * gz) / r : 0.0;
        const double theta_deg = acos(fmax(-1.0, fmin(1.0, cos_theta))) * lw_degree_per_radian;
        if (theta_deg < narrowest_deg || theta_deg > widest_deg)
            continue;
        const double cd = lw_lamp_towards_cd(&lamps[i], x, y, lw_face_height_m) * lamps[i].maintenance;
        sum += 10.0 * cd * cos_theta / (r * r * theta_deg * theta_deg);
    }
    return sum;
}

double lw_threshold_increment_pct(const lw_lamp *lamps, size_t lamp_count, const lw_field_point *points, size_t count,
                                  double average_lx, double left, double ground_reflectance)
{
    const double luminance = ground_reflectance * average_lx / lw_pi / left;
    double worst = 0.0;
    for (size_t i = 0; i < count; i++) {
        worst = fmax(worst, veil(lamps, lamp_count, points[i].x_m, points[i].y_m, points[i].along_deg));
        worst = fmax(worst, veil(lamps, lamp_count, points[i].x_m, points[i].y_m, points[i].along_deg + 180.0));
    }
    return luminance > 0.0 ? 65.0 * worst / left / pow(luminance, 0.8) : 0.0;
}

double lw_window_lx(const lw_lamp *lamps, size_t lamp_count, double x_m, double y_m, double z_m, double facing_deg)
{
    const double facing = facing_deg * lw_radian_per_degree;
    double sum = 0.0;
    for (size_t i = 0; i < lamp_count; i++) {
        const double dx = lamps[i].x_m - x_m, dy = lamps[i].y_m - y_m, dz = lamps[i].height_m - z_m;
        const double r2 = dx * dx + dy * dy + dz * dz;
        const double ahead = dx * cos(facing) + dy * sin(facing);
        if (ahead > 0.0)
            sum += lw_lamp_towards_cd(&lamps[i], x_m, y_m, z_m) * lamps[i].maintenance * ahead / (r2 * sqrt(r2));
    }
    return sum;
}
