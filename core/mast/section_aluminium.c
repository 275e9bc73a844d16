/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Aluminium tube 6063-T5: 0.2 % proof stress 130 MPa up to 3 mm wall, 110 above; gamma_M1 1.10 (EN 755-2, EN 1999-1-1,
 * from memory).
 */
#include "materials.h"

static bool strength(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    if (c->wall_c > 80.0)
        return lw_fail(err, LW_REFUSED, "wall_temp_c",
                       "wall_temp_c is %g; above 80 degC aluminium loses strength for good.", c->wall_c);
    *out = (lw_mast_strength){.allowed_mpa = (c->wall_mm <= 3.0 ? 130.0 : 110.0) / 1.10,
                              .load_factor = 1.5,
                              .stiffness_mpa = 70e3,
                              .density_kg_m3 = 2700.0,
                              .thickness_limit = 50.0};
    return true;
}

const lw_mast_material lw_mast_aluminium = {
    .name = "aluminium",
    .source = "6063-T5, 0.2 % proof 130 MPa to 3 mm wall, 110 above, over 1.10 (EN 755-2, EN 1999-1-1, from memory)",
    .caution = "No weld near the ground: within 30 mm of a weld the strength is half.",
    .strength = strength,
};
