/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Section values of a round tube: closed forms of mechanics.
 */
#include "lanewick/mast.h"
#include "lanewick/units.h"

#include <math.h>

bool lw_tube_section_of(const lw_tube *tube, lw_tube_section *out, lw_error *err)
{
    const double d = tube->diameter_mm, inner = d - 2.0 * tube->wall_mm;
    if (!(inner >= -1e-9 * d))
        return lw_fail(err, LW_WRONG_INPUT, "wall_mm",
                       "wall_mm is %g; it cannot pass the radius of %g mm (equal means a solid pole).", tube->wall_mm,
                       0.5 * d);
    const double hole = fmax(inner, 0.0);
    out->area_mm2 = lw_pi / 4.0 * (d * d - hole * hole);
    out->inertia_mm4 = lw_pi / 64.0 * (pow(d, 4) - pow(hole, 4));
    out->modulus_mm3 = 2.0 * out->inertia_mm4 / d;
    out->plastic_mm3 = (pow(d, 3) - pow(hole, 3)) / 6.0;
    return true;
}
