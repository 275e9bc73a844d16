/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure plane: irradiance on a tilted plane from global, diffuse and beam.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/figure.h"
#include "lanewick/plane.h"

#include <math.h>

enum { GHI_W_M2, DHI_W_M2, DNI_W_M2, SUN_ZENITH_DEG, SUN_AZIMUTH_DEG, TILT_DEG, FACING_DEG, ALBEDO, SKY, DAY_OF_YEAR };
static const lw_input inputs[] = {
    [GHI_W_M2] = {"ghi_w_m2", "W/m2", "global on the horizontal", LW_NUMBER, 0, 2000, NULL, NULL, 0, 0},
    [DHI_W_M2] = {"dhi_w_m2", "W/m2", "diffuse on the horizontal", LW_NUMBER, 0, 2000, NULL, NULL, 0, 0},
    [DNI_W_M2] = {"dni_w_m2", "W/m2", "direct, normal to the beam", LW_NUMBER, 0, 2000, NULL, NULL, 0, 0},
    [SUN_ZENITH_DEG] = {"sun_zenith_deg", "degree", "angle from the zenith to the sun", LW_NUMBER, 0, 180, NULL, NULL,
                        0, 0},
    [SUN_AZIMUTH_DEG] = {"sun_azimuth_deg", "degree", "from north, clockwise", LW_NUMBER, -180, 360, NULL, NULL, 0, 0},
    [TILT_DEG] = {"tilt_deg", "degree", "of the plane, 0 flat, 90 upright", LW_NUMBER, 0, 90, NULL, NULL, 0, 0},
    [FACING_DEG] = {"facing_deg", "degree", "of the plane, from north, clockwise", LW_NUMBER, -180, 360, NULL, NULL, 0,
                    0},
    [ALBEDO] = {"albedo", "", "share of light that the ground throws back", LW_NUMBER, 0, 1, NULL, "0.2", 0, 0},
    [SKY] = {"sky", "", "model of the sky", LW_CHOICE, 0, 0, "isotropic|hay_davies|perez", "hay_davies", 0, 0},
    [DAY_OF_YEAR] = {"day_of_year", "", "for the distance of the sun; left out: mean distance", LW_INTEGER, 1, 366,
                     NULL, "", 0, 0},
};

enum { PLANE_W_M2, BEAM_W_M2, SKY_W_M2, GROUND_W_M2, INCIDENCE_DEG };
static const lw_output outputs[] = {
    [PLANE_W_M2] = {"plane_w_m2", "W/m2", "on the plane, before any glass", LW_NUMBER},
    [BEAM_W_M2] = {"beam_w_m2", "W/m2", "its direct part", LW_NUMBER},
    [SKY_W_M2] = {"sky_w_m2", "W/m2", "its part from the sky", LW_NUMBER},
    [GROUND_W_M2] = {"ground_w_m2", "W/m2", "its part from the ground", LW_NUMBER},
    [INCIDENCE_DEG] = {"incidence_deg", "degree", "between the beam and the normal of the plane", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double zenith = in[SUN_ZENITH_DEG].number * lw_radian_per_degree;
    const double azimuth = in[SUN_AZIMUTH_DEG].number * lw_radian_per_degree;
    const lw_plane plane = {.tilt_deg = in[TILT_DEG].number,
                            .facing_deg = in[FACING_DEG].number,
                            .albedo = in[ALBEDO].number,
                            .sky = (lw_sky)in[SKY].number};
    const double distance_factor = in[DAY_OF_YEAR].given ? lw_distance_factor(in[DAY_OF_YEAR].number) : 1.0;
    const lw_sun_hour sun = {.up = cos(zenith),
                             .east = sin(zenith) * sin(azimuth),
                             .north = sin(zenith) * cos(azimuth),
                             .normal_w_m2 = lw_solar_constant_w_m2 * distance_factor};
    const double ghi = in[GHI_W_M2].number, dhi = in[DHI_W_M2].number, dni = in[DNI_W_M2].number;
    lw_plane_hour hour;
    double total, absorbed;
    lw_plane_prepare_hour(&plane, &sun, &hour);
    lw_plane_lanes(&plane, &hour, 1, &ghi, &dhi, &dni, &total, &absorbed);
    const double facing = (in[SUN_AZIMUTH_DEG].number - plane.facing_deg) * lw_radian_per_degree;
    const double tilt = plane.tilt_deg * lw_radian_per_degree;
    const double incidence = cos(zenith) * cos(tilt) + sin(zenith) * sin(tilt) * cos(facing);
    out[PLANE_W_M2] = lw_value_number(total);
    out[BEAM_W_M2] = lw_value_number(dni * hour.beam);
    out[SKY_W_M2] = lw_value_number(total - dni * hour.beam - ghi * hour.ground);
    out[GROUND_W_M2] = lw_value_number(ghi * hour.ground);
    out[INCIDENCE_DEG] = lw_value_number(acos(fmin(fmax(incidence, -1.0), 1.0)) * lw_degree_per_radian);
    return true;
}

const lw_figure lw_fig_plane = {
    .name = "plane",
    .room = "sun",
    .summary = "Irradiance on a tilted plane before its glass.",
    .source = "Duffie & Beckman, Solar Engineering of Thermal Processes, section 2.15; Hay & Davies (1980); Perez et "
              "al. (1990), Solar Energy 44, 271",
    .limits = "Beam and the bright part of the sky count only with the sun above the horizon, and cos(zenith) is held "
              "at that of 85 degrees; open skyline.",
    .example = "ghi_w_m2=740 dhi_w_m2=180 dni_w_m2=690 sun_zenith_deg=35.8 sun_azimuth_deg=41 tilt_deg=15 facing_deg=0 "
               "sky=perez day_of_year=195",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
