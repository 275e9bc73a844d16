/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Photoresistor, divider and comparator levels: see lanewick/dusk.h. Every level is a part of the supply, so that the
 * pack's voltage cancels.
 */
#include "lanewick/dusk.h"

#include "lanewick/units.h"

#include <math.h>

double lw_ldr_ohm(double r10_ohm, double gamma, double lux)
{
    return r10_ohm * pow(lux / 10.0, -gamma);
}

double lw_ldr_lux(double r10_ohm, double gamma, double ohm)
{
    return 10.0 * pow(r10_ohm / ohm, 1.0 / gamma);
}

void lw_comparator_levels(double r1_ohm, double r2_ohm, double r3_ohm, double *low, double *high)
{
    const double g1 = 1.0 / r1_ohm, g2 = 1.0 / r2_ohm, g3 = 1.0 / r3_ohm;
    *low = g1 / (g1 + g2 + g3);
    *high = (g1 + g3) / (g1 + g2 + g3);
}

double lw_dusk_node(const lw_dusk_divider *divider, double lux)
{
    const double ldr = lw_ldr_ohm(divider->r10_ohm, divider->gamma, lux);
    return (divider->ldr_to_ground ? ldr : divider->resistor_ohm) / (ldr + divider->resistor_ohm);
}

double lw_dusk_lux(const lw_dusk_divider *divider, double node)
{
    const double ratio = divider->ldr_to_ground ? node / (1.0 - node) : (1.0 - node) / node;
    return lw_ldr_lux(divider->r10_ohm, divider->gamma, divider->resistor_ohm * ratio);
}

double lw_own_light_lx(double intensity_cd, double distance_m, double incidence_deg, double tube_factor)
{
    const double cosine = fmax(0.0, cos(incidence_deg * lw_radian_per_degree));
    return intensity_cd / (distance_m * distance_m) * cosine * tube_factor;
}
