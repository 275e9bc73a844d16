/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Illuminance under sun and twilight sky: Janiczek & DeYoung (1987), Computer programs for sun and moon illuminance,
 * US Naval Observatory Circular 171. Altitude in degrees, lux on the horizontal.
 */
#include "lanewick/dusk.h"
#include "lanewick/roots.h"
#include "lanewick/units.h"

#include <math.h>

static double refracted(double h)
{
    if (h < -5.0 / 6.0)
        return h;
    return h + 1.0 / (60.0 * tan(lw_radian_per_degree * (h + 8.6 / (h + 4.42))));
}

double lw_sun_lux(double altitude_deg, double sky_divisor)
{
    const double h = refracted(altitude_deg), u = sin(h * lw_radian_per_degree);
    const double x = 753.66156; /* the Earth's radius in heights of the homogeneous atmosphere */
    const double s = asin(x * cos(h * lw_radian_per_degree) / (x + 1.0));
    const double air_mass = x * (cos(s) - u) + cos(s);
    const double m = exp(-0.21 * air_mass) * u + 0.0289 * exp(-0.042 * air_mass) * (1.0 + (h + 90.0) * u / 57.29577951);
    return fmax(0.0, 133775.0 * m / sky_divisor);
}

typedef struct wanted {
    double lux, sky_divisor;
} wanted;

static double miss(double altitude_deg, const void *payload)
{
    const wanted *w = payload;
    return log(lw_sun_lux(altitude_deg, w->sky_divisor) + 1e-9) - log(w->lux + 1e-9);
}

bool lw_sun_altitude_for_lux(double lux, double sky_divisor, double *altitude_deg, lw_error *err)
{
    const wanted w = {lux, sky_divisor};
    const double low = lw_sun_lux(-13.0, sky_divisor), high = lw_sun_lux(89.0, sky_divisor);
    if (!(lux >= low && lux <= high))
        return lw_fail(err, LW_NOT_COMPUTABLE, "lux", "%g lux does not occur: this sky gives %.3g to %.4g lux.", lux,
                       low, high);
    return lw_root(miss, &w, -13.0, 89.0, 1e-9, altitude_deg, err);
}
