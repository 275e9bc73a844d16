/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast as a column under its own weight and what hangs on it: see lanewick/mast.h.
 */
#include "lanewick/mast.h"
#include "lanewick/units.h"

#include <math.h>

const double lw_mast_lean = 1.0 / 200.0;

static const double permanent = 1.35;
static const double own_share = 0.3148; /* pi^2/4 over 7.837 */

double lw_column_share(double at_m, double height_m)
{
    const double part = at_m / height_m;
    return part <= 1.0 ? part - sin(lw_pi * part) / lw_pi : 1.0 + 2.0 * (part - 1.0);
}

static double grows(double alpha)
{
    return 1.0 / (1.0 - 1.0 / fmax(alpha, 1.1));
}

lw_mast_column lw_mast_column_of(const lw_tube_section *section, const lw_mast_strength *strength,
                                 const lw_mast_load *load, double softer)
{
    const double h = load->height_m, ei = strength->stiffness_mpa * section->inertia_mm4 * 1e-6 / softer;
    const double pipe_n = lw_gravity_m_s2 * strength->density_kg_m3 * section->area_mm2 * 1e-6 * h;
    const double weight_n = lw_gravity_m_s2 * load->weight_kg + pipe_n;
    const double on_top_n = lw_gravity_m_s2 * load->column_kg + own_share * pipe_n;
    const double gust_n = lw_pi * lw_pi * ei / (4.0 * h * h); /* Euler */
    const double lasting_n = gust_n * (strength->creep_share > 0.0 ? strength->creep_share : 1.0);
    lw_mast_column out = {
        .on_top_kg = load->column_kg,
        .critical_kg = fmax(0.0, lasting_n - own_share * pipe_n) / lw_gravity_m_s2,
        .alpha_cr = lasting_n / (permanent * on_top_n),
        .gust_grows = 1.0,
        .lean_grows = 1.0,
        .off_centre_grows = 1.0,
    };
    if (load->weight_kg <= 0.0 && out.alpha_cr >= 10.0)
        return out;
    out.gust_grows = grows(gust_n / (permanent * on_top_n));
    out.lean_grows = grows(out.alpha_cr);
    out.off_centre_grows = 1.0 / cos(0.5 * lw_pi * sqrt(1.0 / fmax(out.alpha_cr, 1.1)));
    out.pipe_lean_nm = lw_mast_lean * 0.5 * h * pipe_n;
    out.compression_mpa = permanent * weight_n / section->area_mm2;
    return out;
}
