/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Closed forms of a head's light: I = peak cos^m(gamma). Flux 2 pi peak/(m + 1) is the integral over the lower
 * half space; Lambert's law is m = 1.
 */
#include "lanewick/light.h"

#include "lanewick/units.h"

#include <math.h>

double lw_cosine_flux_lm(double peak_cd, double cos_power)
{
    return 2.0 * lw_pi * peak_cd / (cos_power + 1.0);
}

double lw_cosine_peak_cd(double flux_lm, double cos_power)
{
    return (cos_power + 1.0) * flux_lm / (2.0 * lw_pi);
}

double lw_cosine_power(double half_deg)
{
    return -log(2.0) / log(cos(half_deg * lw_radian_per_degree));
}

double lw_beam_cd(const lw_beam *beam, double c_deg, double gamma_deg)
{
    if (beam->table)
        return lw_intensity_cd(beam->table, c_deg, gamma_deg);
    if (beam->round)
        return beam->peak_cd;
    if (gamma_deg >= 90.0)
        return 0.0;
    return beam->peak_cd * pow(cos(gamma_deg * lw_radian_per_degree), beam->cos_power);
}
