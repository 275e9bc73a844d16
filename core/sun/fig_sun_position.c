/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure sun_position: where the sun stands for an observer at an instant.
 */
#include "lanewick/figure.h"
#include "lanewick/sun.h"

enum { LAT_DEG, LON_DEG, ELEV_M, UTC, PRESSURE_HPA, AIR_C, DELTA_T_S };
static const lw_input inputs[] = {
    [LAT_DEG] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [LON_DEG] = {"lon_deg", "degree", "longitude, east positive", LW_NUMBER, -180, 360, NULL, NULL, 0, 0},
    [ELEV_M] = {"elev_m", "m", "height above the sea", LW_NUMBER, -500, 9000, NULL, "0", 0, 0},
    [UTC] = {"utc", "", "instant, ISO 8601, as in 2026-07-14T09:00:00Z or with an offset such as +02:00", LW_TEXT, 0, 0,
             NULL, NULL, 0, 0},
    [PRESSURE_HPA] = {"pressure_hpa", "hPa", "air pressure at the observer, for refraction", LW_NUMBER, 0, 1100, NULL,
                      "1013.25", 0, 0},
    [AIR_C] = {"air_c", "degC", "air temperature at the observer, for refraction", LW_NUMBER, -90, 60, NULL, "15", 0,
               0},
    [DELTA_T_S] = {"delta_t_s", "s", "TT - UT1; left out: by date", LW_NUMBER, -100, 1000, NULL, "", 0, 0},
};

enum {
    ZENITH_DEG,
    REFRACTED_ZENITH_DEG,
    AZIMUTH_DEG,
    DECLINATION_DEG,
    RIGHT_ASCENSION_DEG,
    HOUR_ANGLE_DEG,
    DISTANCE_AU,
    DELTA_T_S_OUT
};
static const lw_output outputs[] = {
    [ZENITH_DEG] = {"zenith_deg", "degree",
                    "angle from the zenith to the centre of the sun, topocentric, no refraction", LW_NUMBER},
    [REFRACTED_ZENITH_DEG] = {"refracted_zenith_deg", "degree", "the same as seen through the air", LW_NUMBER},
    [AZIMUTH_DEG] = {"azimuth_deg", "degree", "from north, clockwise", LW_NUMBER},
    [DECLINATION_DEG] = {"declination_deg", "degree", "geocentric, apparent", LW_NUMBER},
    [RIGHT_ASCENSION_DEG] = {"right_ascension_deg", "degree", "geocentric, apparent", LW_NUMBER},
    [HOUR_ANGLE_DEG] = {"hour_angle_deg", "degree", "geocentric, positive after true noon", LW_NUMBER},
    [DISTANCE_AU] = {"distance_au", "au", "Earth to sun", LW_NUMBER},
    [DELTA_T_S_OUT] = {"delta_t_s", "s", "TT - UT1 used", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    double utc_days;
    if (!lw_utc_parse("utc", in[UTC].text, &utc_days, err))
        return false;
    const double delta_t_s = in[DELTA_T_S].given ? in[DELTA_T_S].number : lw_delta_t_s(utc_days);
    const lw_observer observer = {in[LAT_DEG].number, in[LON_DEG].number, in[ELEV_M].number};
    const lw_sun_position sun = lw_sun_position_at(utc_days, delta_t_s, &observer);
    const double lift_deg = lw_refraction_deg(90.0 - sun.zenith_deg, in[PRESSURE_HPA].number, in[AIR_C].number);
    out[ZENITH_DEG] = lw_value_number(sun.zenith_deg);
    out[REFRACTED_ZENITH_DEG] = lw_value_number(sun.zenith_deg - lift_deg);
    out[AZIMUTH_DEG] = lw_value_number(sun.azimuth_deg);
    out[DECLINATION_DEG] = lw_value_number(sun.declination_deg);
    out[RIGHT_ASCENSION_DEG] = lw_value_number(sun.right_ascension_deg);
    out[HOUR_ANGLE_DEG] = lw_value_number(sun.hour_angle_deg);
    out[DISTANCE_AU] = lw_value_number(sun.distance_au);
    out[DELTA_T_S_OUT] = lw_value_number(delta_t_s);
    return true;
}

const lw_figure lw_fig_sun_position = {
    .name = "sun_position",
    .room = "sun",
    .summary = "Position of the sun in the sky of an observer.",
    .source = "Meeus (1998), Astronomical Algorithms, chapters 11, 12, 16, 22, 25, 40; series VSOP87 (Bretagnon & "
              "Francou 1988)",
    .limits = "Years 1950 to 2100, within 0.0005 degree (UT1 taken as UTC: up to 0.004 degree more); azimuth means "
              "little within a degree of the zenith.",
    .example = "lat_deg=-11.62 lon_deg=34.27 elev_m=480 utc=2026-07-14T09:00:00Z",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
