/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Air mass, pressure by height, and the irradiance of a cloudless sky. Sources: Kasten & Young (1989), Appl. Opt.
 * 28, 4735; ISO 2533 standard atmosphere; Ineichen & Perez (2002), Solar Energy 73, 151, with the coefficients of
 * height and turbidity from memory.
 */
#include "lanewick/sun.h"

#include <math.h>

double lw_air_mass(double zenith_deg)
{
    const double z = fmin(fmax(zenith_deg, 0.0), 90.0);
    return 1.0 / (cos(z * lw_radian_per_degree) + 0.50572 * pow(96.07995 - z, -1.6364));
}

double lw_pressure_hpa(double elev_m)
{
    return 1013.25 * pow(1.0 - 2.25577e-5 * fmin(fmax(elev_m, -500.0), 11000.0), 5.25588);
}

lw_clear_sky lw_clear_sky_at(double zenith_deg, double normal_w_m2, double elev_m, double linke_turbidity)
{
    const double cos_z = cos(zenith_deg * lw_radian_per_degree);
    if (cos_z <= 0.0)
        return (lw_clear_sky){0};
    const double air_mass = lw_air_mass(zenith_deg) * lw_pressure_hpa(elev_m) / 1013.25;
    const double thin = exp(-elev_m / 8000.0), thick = exp(-elev_m / 1250.0);
    const double gain = 5.09e-5 * elev_m + 0.868, loss = 3.92e-5 * elev_m + 0.0387;
    const double ghi = gain * normal_w_m2 * cos_z * exp(-loss * air_mass * (thin + thick * (linke_turbidity - 1.0))) *
                       exp(0.01 * pow(air_mass, 1.8));
    const double beam = normal_w_m2 * (0.664 + 0.163 / thin) * exp(-0.09 * air_mass * (linke_turbidity - 1.0));
    /* A second estimate keeps the diffuse share above that of clean air where the first would not. */
    const double most = ghi * fmax(1.0 - (0.1 - 0.2 * exp(-linke_turbidity)) / (0.1 + 0.882 / thin), 0.0) / cos_z;
    const double dni = fmin(beam, most);
    return (lw_clear_sky){.ghi_w_m2 = ghi, .dni_w_m2 = dni, .dhi_w_m2 = fmax(ghi - dni * cos_z, 0.0)};
}
