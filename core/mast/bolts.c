/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bolts and clamps: see lanewick/mast_parts.h.
 */
#include "lanewick/mast_parts.h"
#include "lanewick/units.h"

#include <math.h>

bool lw_bolt_of(double size_mm, lw_bolt_grade grade, lw_bolt *out, lw_error *err)
{
    static const struct {
        double size_mm, area_mm2; /* ISO 898-1, coarse thread */
    } sizes[] = {{5, 14.2}, {6, 20.1}, {8, 36.6}, {10, 58.0}, {12, 84.3}, {16, 157.0}, {20, 245.0}, {24, 353.0}};
    static const double ultimate_mpa[] = {400.0, 500.0, 800.0, 1000.0, 700.0};
    static const double shear_share[] = {0.6, 0.6, 0.6, 0.5, 0.6};
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        if (fabs(sizes[i].size_mm - size_mm) > 1e-6)
            continue;
        const double strength_n = ultimate_mpa[grade] * sizes[i].area_mm2 / 1.25; /* gamma_M2 */
        *out = (lw_bolt){sizes[i].area_mm2, 0.9 * strength_n, shear_share[grade] * strength_n};
        return true;
    }
    return lw_fail(err, LW_WRONG_INPUT, "bolt_mm", "bolt_mm is %g; there are M5, 6, 8, 10, 12, 16, 20 and 24.",
                   size_mm);
}

double lw_bolt_use(const lw_bolt *bolt, double tension_n, double shear_n)
{
    return fmax(shear_n / bolt->shear_n + tension_n / (1.4 * bolt->tension_n), tension_n / bolt->tension_n);
}

lw_clamp lw_clamp_band(double tension_n, double friction, double diameter_m)
{
    const double slide = 2.0 * lw_pi * friction * tension_n; /* pressure T/(w r) on the area 2 pi r w */
    return (lw_clamp){slide, 0.5 * slide * diameter_m};
}

lw_clamp lw_clamp_ubolt(double bolt_mm, double tighten_nm, double friction, double diameter_m)
{
    const double leg_n = tighten_nm / (0.2 * bolt_mm / 1000.0); /* nut factor 0.2, dry */
    const double slide = 4.0 * friction * leg_n;                /* both legs, saddle and bow */
    return (lw_clamp){slide, 0.5 * slide * diameter_m};
}
