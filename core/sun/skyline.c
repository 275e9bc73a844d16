/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hills, walls and trees around a panel: the height of the skyline at an azimuth, and the share of an even sky
 * that a tilted plane still sees, integrated over strips of one degree of azimuth.
 */
#include "lanewick/plane.h"

#include <math.h>

double lw_skyline_at(const double horizon_deg[LW_SKYLINE], double azimuth_deg)
{
    const double step = 360.0 / LW_SKYLINE;
    const double place = azimuth_deg / step - LW_SKYLINE * floor(azimuth_deg / step / LW_SKYLINE);
    const int low = (int)place % LW_SKYLINE, high = (low + 1) % LW_SKYLINE;
    const double share = place - floor(place);
    return horizon_deg[low] + share * (horizon_deg[high] - horizon_deg[low]);
}

/* Integral of cos(incidence) cos(altitude) over altitude from `low` to the zenith, in the direction where the
 * cosine of incidence is level * sin(altitude) + along * cos(altitude). */
static double strip(double level, double along, double low)
{
    return 0.5 * level * cos(low) * cos(low) + along * (0.5 * (0.5 * lw_pi - low) - 0.25 * sin(2.0 * low));
}

double lw_sky_view(double tilt_deg, double facing_deg, const double horizon_deg[LW_SKYLINE])
{
    const double level = cos(tilt_deg * lw_radian_per_degree), lean = sin(tilt_deg * lw_radian_per_degree);
    double sum = 0.0, open = 0.0;
    for (int k = 0; k < 360; k++) {
        const double azimuth_deg = k + 0.5;
        const double along = lean * cos((azimuth_deg - facing_deg) * lw_radian_per_degree);
        const double edge = along < 0.0 ? atan2(-along, level) : 0.0; /* below it the strip lies behind the plane */
        const double skyline = lw_skyline_at(horizon_deg, azimuth_deg) * lw_radian_per_degree;
        open += strip(level, along, edge);
        sum += strip(level, along, fmax(edge, skyline));
    }
    return 0.5 * (1.0 + level) * sum / open;
}
