/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure clear_sky: irradiance under a cloudless sky, to judge a panel measured in the sun without a meter.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/figure.h"
#include "lanewick/plane.h"

#include <math.h>

enum { LAT_DEG, LON_DEG, ELEV_M, UTC, TURBIDITY, TILT_DEG, FACING_DEG, ALBEDO };
static const lw_input inputs[] = {
    [LAT_DEG] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [LON_DEG] = {"lon_deg", "degree", "longitude, east positive", LW_NUMBER, -180, 360, NULL, NULL, 0, 0},
    [ELEV_M] = {"elev_m", "m", "height above the sea", LW_NUMBER, -500, 6000, NULL, "0", 0, 0},
    [UTC] = {"utc", "", "instant, ISO 8601, as in 2026-07-14T09:00:00Z", LW_TEXT, 0, 0, NULL, NULL, 0, 0},
    [TURBIDITY] = {"turbidity", "", "Linke turbidity: 2 very clear, 3 usual, 5 humid or hazy, 7 dusty", LW_NUMBER, 1,
                   10, NULL, "3", 0, 0},
    [TILT_DEG] = {"tilt_deg", "degree", "of the panel, 0 flat", LW_NUMBER, 0, 90, NULL, "0", 0, 0},
    [FACING_DEG] = {"facing_deg", "degree", "of the panel, from north, clockwise", LW_NUMBER, -180, 360, NULL, "180", 0,
                    0},
    [ALBEDO] = {"albedo", "", "of the ground", LW_NUMBER, 0, 1, NULL, "0.2", 0, 0},
};

enum { GHI_W_M2, DNI_W_M2, DHI_W_M2, PLANE_W_M2, PLANE_SPREAD_PCT, ZENITH_DEG, AZIMUTH_DEG };
static const lw_output outputs[] = {
    [GHI_W_M2] = {"ghi_w_m2", "W/m2", "global on the horizontal", LW_NUMBER},
    [DNI_W_M2] = {"dni_w_m2", "W/m2", "direct, normal to the beam", LW_NUMBER},
    [DHI_W_M2] = {"dhi_w_m2", "W/m2", "diffuse on the horizontal", LW_NUMBER},
    [PLANE_W_M2] = {"plane_w_m2", "W/m2", "on the panel, before the glass (Hay-Davies sky)", LW_NUMBER},
    [PLANE_SPREAD_PCT] = {"plane_spread_pct", "%", "one standard deviation when the turbidity is only guessed",
                          LW_NUMBER},
    [ZENITH_DEG] = {"zenith_deg", "degree", "of the sun", LW_NUMBER},
    [AZIMUTH_DEG] = {"azimuth_deg", "degree", "of the sun", LW_NUMBER},
};

static double on_plane(const lw_plane *plane, const lw_sun_position *sun, double normal, const lw_clear_sky *sky)
{
    const lw_sun_hour now = {.up = sun->up, .east = sun->east, .north = sun->north, .normal_w_m2 = normal};
    lw_plane_hour hour;
    double plane_w_m2, absorbed_w_m2;
    lw_plane_prepare_hour(plane, &now, &hour);
    lw_plane_lanes(plane, &hour, 1, &sky->ghi_w_m2, &sky->dhi_w_m2, &sky->dni_w_m2, &plane_w_m2, &absorbed_w_m2);
    return plane_w_m2;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    double utc_days;
    if (!lw_utc_parse("utc", in[UTC].text, &utc_days, err))
        return false;
    const lw_observer observer = {in[LAT_DEG].number, in[LON_DEG].number, in[ELEV_M].number};
    const lw_sun_position sun = lw_sun_position_at(utc_days, lw_delta_t_s(utc_days), &observer);
    const double normal = lw_solar_constant_w_m2 / (sun.distance_au * sun.distance_au);
    const double turbidity = in[TURBIDITY].number;
    const lw_plane plane = {.tilt_deg = in[TILT_DEG].number,
                            .facing_deg = in[FACING_DEG].number,
                            .albedo = in[ALBEDO].number,
                            .sky = LW_SKY_HAY_DAVIES};
    const lw_clear_sky sky = lw_clear_sky_at(sun.zenith_deg, normal, observer.elev_m, turbidity);
    const double plane_w_m2 = on_plane(&plane, &sun, normal, &sky);
    /* Turbidity is seldom known to better than 1: the change that this makes, with 3 % for the model itself. */
    const lw_clear_sky hazier = lw_clear_sky_at(sun.zenith_deg, normal, observer.elev_m, turbidity + 1.0);
    const double change_pct =
        plane_w_m2 > 0.0 ? 100.0 * (1.0 - on_plane(&plane, &sun, normal, &hazier) / plane_w_m2) : 0.0;
    out[GHI_W_M2] = lw_value_number(sky.ghi_w_m2);
    out[DNI_W_M2] = lw_value_number(sky.dni_w_m2);
    out[DHI_W_M2] = lw_value_number(sky.dhi_w_m2);
    out[PLANE_W_M2] = lw_value_number(plane_w_m2);
    out[PLANE_SPREAD_PCT] = lw_value_number(hypot(change_pct, 3.0));
    out[ZENITH_DEG] = lw_value_number(sun.zenith_deg);
    out[AZIMUTH_DEG] = lw_value_number(sun.azimuth_deg);
    return true;
}

const lw_figure lw_fig_clear_sky = {
    .name = "clear_sky",
    .room = "sun",
    .summary = "Irradiance on a panel under a cloudless sky at a place and instant.",
    .source = "Ineichen & Perez (2002), Solar Energy 73, 151 (coefficients from memory)",
    .limits = "Only with no cloud near the sun; smoke and dust of the dry season count as turbidity 5 to 7.",
    .caution = "Never look at the sun to judge the sky: shade it with a hand or a wall.",
    .example = "lat_deg=-11.62 lon_deg=34.27 elev_m=480 utc=2026-07-14T09:00:00Z tilt_deg=15 facing_deg=0",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
