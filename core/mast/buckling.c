/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Local buckling of a thin tube's compressed side: EN 1993-1-6 Annex D.1.2 (from memory); see lanewick/mast_parts.h.
 */
#include "lanewick/mast_parts.h"

#include <math.h>

lw_wall_buckling lw_wall_buckle(const lw_tube *tube, double strength_mpa, double stiffness_mpa, double quality)
{
    const double r = 0.5 * (tube->diameter_mm - tube->wall_mm), t = tube->wall_mm;
    const double begins = 0.20, plastic_part = 0.60; /* lambda_x0, beta; eta 1 */
    lw_wall_buckling out = {.critical_mpa = 0.605 * stiffness_mpa * t / r};
    const double dent = sqrt(r / t) / quality; /* delta w over t */
    out.imperfection = 0.62 / (1.0 + 1.91 * pow(dent, 1.44));
    out.slenderness = sqrt(strength_mpa / out.critical_mpa);
    const double elastic = sqrt(out.imperfection / (1.0 - plastic_part));
    if (out.slenderness <= begins)
        out.reduction = 1.0;
    else if (out.slenderness < elastic)
        out.reduction = 1.0 - plastic_part * (out.slenderness - begins) / (elastic - begins);
    else
        out.reduction = out.imperfection / (out.slenderness * out.slenderness);
    out.design_mpa = out.reduction * strength_mpa / 1.1;
    return out;
}
