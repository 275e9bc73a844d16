/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * PVC-U pipe. Gust stress against 45/1.5 MPa (one-minute strength, from memory), standing stress against 10 MPa
 * (common practice below the 11 MPa design stress of makers' data to ISO 4422), both times the hot factor (makers'
 * data); stiffness 3.0 GPa short-time times the hot factor, 1.2 GPa of it left at 50 years (makers' data). Not above 50
 * degC. With age sun makes it brittle: taken as 3 % of the gust strength a year, at most a third (common practice,
 * painted white).
 */
#include "lanewick/stats.h"
#include "materials.h"

#include <math.h>

static bool strength(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    static const double at_c[] = {20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0};
    static const double factor[] = {1.0, 0.94, 0.87, 0.78, 0.70, 0.64, 0.58};
    if (c->wall_c > 50.0)
        return lw_fail(
            err, LW_REFUSED, "wall_temp_c",
            "wall_temp_c is %g degC; PVC-U carries nothing above 50 degC. Take steel, or a timber or steel core "
            "inside the pipe.",
            c->wall_c);
    const double hot = lw_interpolate(at_c, factor, sizeof at_c / sizeof at_c[0], c->wall_c);
    const double aged = 1.0 - fmin(1.0 / 3.0, 0.03 * c->age_years);
    *out = (lw_mast_strength){.allowed_mpa = 45.0 / 1.5 * hot * aged,
                              .load_factor = 1.5,
                              .standing_mpa = 10.0 * hot,
                              .stiffness_mpa = 3000.0 * hot,
                              .density_kg_m3 = 1440.0,
                              .creep_share = 0.4,
                              .thickness_limit = 41.0};
    return true;
}

const lw_mast_material lw_mast_pvc = {
    .name = "pvc",
    .source =
        "PVC-U: 45/1.5 MPa for a gust (from memory), hot factor 0.70 at 40 degC and 0.58 at 50 degC (makers' data)",
    .caution = "Paint it white; frost and sun make it brittle. Over 2.5 m with a panel put timber or steel inside.",
    .strength = strength,
};
