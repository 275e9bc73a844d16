/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Irradiance on a tilted plane: beam, sky by one of three models, ground. Duffie & Beckman, Solar Engineering of
 * Thermal Processes, sections 1.6 to 2.16.
 */
#include "lanewick/plane.h"
#include "sky.h"

#include <math.h>

/* What depends on the plane alone. */
typedef struct views {
    double sin_tilt, cos_tilt, sin_facing, cos_facing;
    double sky, sky_glass, horizon, ground, ground_glass;
    bool skyline;
} views;

static double sine(double degree)
{
    return sin(degree * lw_radian_per_degree);
}

static double cosine(double degree)
{
    return cos(degree * lw_radian_per_degree);
}

static views views_of(const lw_plane *plane)
{
    views v = {
        .sin_tilt = sine(plane->tilt_deg),
        .cos_tilt = cosine(plane->tilt_deg),
        .sin_facing = sine(plane->facing_deg),
        .cos_facing = cosine(plane->facing_deg),
        .sky_glass = lw_glass_factor(plane->glass_b0, cosine(lw_sky_angle_deg(plane->tilt_deg))),
        .ground_glass = lw_glass_factor(plane->glass_b0, cosine(lw_ground_angle_deg(plane->tilt_deg))),
    };
    for (int k = 0; k < LW_SKYLINE; k++)
        v.skyline = v.skyline || plane->horizon_deg[k] > 0.0;
    const double open = 0.5 * (1.0 + v.cos_tilt);
    v.sky = v.skyline ? lw_sky_view(plane->tilt_deg, plane->facing_deg, plane->horizon_deg) : open;
    v.horizon = v.sin_tilt * v.sky / open;
    v.ground = plane->albedo * 0.5 * (1.0 - v.cos_tilt);
    return v;
}

static bool hidden(const lw_plane *plane, const lw_sun_hour *sun)
{
    const double azimuth_deg = atan2(sun->east, sun->north) * lw_degree_per_radian;
    const double altitude_deg = asin(fmin(sun->up, 1.0)) * lw_degree_per_radian;
    return altitude_deg < lw_skyline_at(plane->horizon_deg, azimuth_deg);
}

static void prepare(const lw_plane *plane, const views *v, const lw_sun_hour *sun, lw_plane_hour *out)
{
    const double lowest = 0.08715574274765817; /* cos 85 degrees: below it the ratio to the horizontal runs away */
    *out = (lw_plane_hour){
        .inverse_normal = 1.0 / sun->normal_w_m2,
        .sky = v->sky,
        .sky_glass = v->sky_glass,
        .horizon = v->horizon,
        .ground = v->ground,
        .ground_glass = v->ground_glass,
        .up = sun->up > 0.0,
    };
    if (!out->up)
        return;
    const double facing = sun->north * v->cos_facing + sun->east * v->sin_facing;
    out->beam = fmax(sun->up * v->cos_tilt + facing * v->sin_tilt, 0.0);
    if (v->skyline && hidden(plane, sun))
        out->beam = 0.0;
    out->beam_glass = lw_glass_factor(plane->glass_b0, out->beam);
    out->circumsolar = out->beam / fmax(sun->up, lowest);
    const double z = acos(fmin(sun->up, 1.0));
    out->zenith_rad = z;
    out->zenith_term = 1.041 * z * z * z;
    out->air_mass = lw_air_mass(z * lw_degree_per_radian);
}

void lw_plane_prepare_hour(const lw_plane *plane, const lw_sun_hour *hour, lw_plane_hour *prepared)
{
    const views v = views_of(plane);
    prepare(plane, &v, hour, prepared);
}

void lw_plane_prepare(const lw_plane *plane, const lw_sun_hour hours[LW_HOURS], lw_plane_hour prepared[LW_HOURS])
{
    const views v = views_of(plane);
    for (size_t i = 0; i < LW_HOURS; i++)
        prepare(plane, &v, &hours[i], &prepared[i]);
}

void lw_plane_lanes(const lw_plane *plane, const lw_plane_hour *hour, size_t n, const double *restrict ghi_w_m2,
                    const double *restrict dhi_w_m2, const double *restrict dni_w_m2, double *restrict plane_w_m2,
                    double *restrict absorbed_w_m2)
{
    static lw_sky_model *const models[] = {
        [LW_SKY_ISOTROPIC] = lw_sky_isotropic,
        [LW_SKY_HAY_DAVIES] = lw_sky_hay_davies,
        [LW_SKY_PEREZ] = lw_sky_perez,
    };
    models[plane->sky](hour, n, ghi_w_m2, dhi_w_m2, dni_w_m2, plane_w_m2, absorbed_w_m2);
}

lw_plane lw_plane_default(double lat_deg)
{
    return (lw_plane){
        .tilt_deg = fmin(fmax(fabs(lat_deg), 10.0), 60.0), /* steep enough for rain to clean it (common practice) */
        .facing_deg = lat_deg >= 0.0 ? 180.0 : 0.0,
        .albedo = 0.2,
        .sky = LW_SKY_HAY_DAVIES,
        .glass_b0 = 0.05,
        .faiman_u0 = 25.0,
        .faiman_u1 = 6.84,
        .wind_factor = 1.0,
    };
}

bool lw_plane_check(const lw_plane *plane, lw_error *err)
{
    return lw_in_range(err, "tilt_deg", plane->tilt_deg, 0.0, 90.0, "degree") &&
           lw_in_range(err, "facing_deg", plane->facing_deg, -180.0, 360.0, "degree") &&
           lw_in_range(err, "albedo", plane->albedo, 0.0, 1.0, "") &&
           lw_in_range(err, "sky", plane->sky, LW_SKY_ISOTROPIC, LW_SKY_PEREZ, "") &&
           lw_in_range(err, "glass_b0", plane->glass_b0, 0.0, 0.3, "") &&
           lw_in_range(err, "faiman_u0", plane->faiman_u0, 5.0, 60.0, "W/m2K") &&
           lw_in_range(err, "faiman_u1", plane->faiman_u1, 0.0, 20.0, "W s/m3K") &&
           lw_in_range(err, "wind_factor", plane->wind_factor, 0.0, 1.5, "") &&
           lw_all_in_range(err, "horizon_deg", plane->horizon_deg, LW_SKYLINE, 0.0, 89.0, "degree");
}
