/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * First frequency of a mast with a mass at its top (Rayleigh's quotient, 33/140 of the mast's mass) and the wind speed
 * of vortex shedding with Strouhal number 0.18 (EN 1991-1-4 Table E.1, from memory).
 */
#include "lanewick/mast.h"
#include "lanewick/units.h"

#include <math.h>

bool lw_mast_vibrate(const lw_tube *tube, const lw_mast_strength *strength, double height_m, double head_kg,
                     lw_mast_vibration *out, lw_error *err)
{
    lw_tube_section section = {0};
    if (!lw_tube_section_of(tube, &section, err))
        return false;
    const double ei = strength->stiffness_mpa * section.inertia_mm4 * 1e-6;
    const double mast_kg = strength->density_kg_m3 * section.area_mm2 * 1e-6 * height_m;
    const double mass = head_kg + 33.0 / 140.0 * mast_kg;
    out->frequency_hz = sqrt(3.0 * ei / (pow(height_m, 3) * mass)) / (2.0 * lw_pi);
    out->critical_m_s = tube->diameter_mm / 1000.0 * out->frequency_hz / 0.18;
    return true;
}
