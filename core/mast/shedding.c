/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Vortex shedding on a mast: EN 1991-1-4 Annex E.1.5.2 (approach 1), from memory. The shape of the first mode is taken
 * as (3 z^2 - z^3)/2, with which Rayleigh's 33/140 of the mast's mass agrees.
 */
#include "lanewick/mast_parts.h"
#include "lanewick/units.h"

#include <math.h>

static const double strouhal = 0.18, air_kg_m3 = 1.25, air_viscosity_m2_s = 15e-6;
static const double mode_factor = 0.13;                           /* K of a cantilever, Table E.5 */
static const double top_share = 33.0 / 140.0, root_share = 0.275; /* integrals of shape^2 and of shape times z */

/* Fig. E.2: 0.7 to 3e5, falling in log Re to 0.2 at 5e5, 0.2 to 5e6, 0.3 at 1e7. */
static double lateral(double reynolds)
{
    if (reynolds <= 3e5)
        return 0.7;
    if (reynolds < 5e5)
        return 0.7 - 0.5 * log(reynolds / 3e5) / log(5.0 / 3.0);
    if (reynolds <= 5e6)
        return 0.2;
    return fmin(0.3, 0.2 + 0.1 * log(reynolds / 5e6) / log(2.0));
}

/* Table E.4 and E.5: correlation length 6 b, growing with the amplitude; slenderness h/b. */
static double length_factor(double slenderness, double amplitude_over_b)
{
    const double length = amplitude_over_b < 0.1 ? 6.0 : amplitude_over_b <= 0.6 ? 4.8 + 12.0 * amplitude_over_b : 12.0;
    const double part = fmin(1.0, length / slenderness);
    return fmin(0.95, 3.0 * part * (1.0 - part + part * part / 3.0));
}

bool lw_shedding_of(const lw_tube *tube, const lw_mast_strength *strength, double height_m, double head_kg,
                    double damping, lw_shedding *out, lw_error *err)
{
    lw_tube_section section = {0};
    lw_mast_vibration swing;
    if (!lw_tube_section_of(tube, &section, err) || !lw_mast_vibrate(tube, strength, height_m, head_kg, &swing, err))
        return false;
    const double b = tube->diameter_mm / 1000.0;
    const double mast_kg = strength->density_kg_m3 * section.area_mm2 * 1e-6 * height_m;
    out->critical_m_s = b * swing.frequency_hz / strouhal;
    out->reynolds = b * out->critical_m_s / air_viscosity_m2_s;
    out->mass_kg_m = (head_kg + top_share * mast_kg) / (top_share * height_m);
    out->scruton = 2.0 * damping * out->mass_kg_m / (air_kg_m3 * b * b);
    out->lateral = lateral(out->reynolds);
    double y = 0.0; /* over b; the correlation length depends on it */
    for (int i = 0; i < 50; i++) {
        out->length_factor = length_factor(height_m / b, y);
        y = mode_factor * out->length_factor * out->lateral / (strouhal * strouhal * out->scruton);
    }
    out->amplitude_mm = 1000.0 * y * b;
    const double w = 2.0 * lw_pi * swing.frequency_hz;
    const double moment_nm = w * w * y * b * height_m * (head_kg + root_share * mast_kg);
    out->stress_mpa = 1000.0 * moment_nm / section.modulus_mm3;
    return true;
}
