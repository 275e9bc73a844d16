/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure day_radiation: radiation of a day on a horizontal plane above the air.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/figure.h"

enum { LAT_DEG, DAY_OF_YEAR, SOLAR_CONSTANT_W_M2 };
static const lw_input inputs[] = {
    [LAT_DEG] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [DAY_OF_YEAR] = {"day_of_year", "", "day of the year from 1", LW_INTEGER, 1, 366, NULL, NULL, 0, 0},
    [SOLAR_CONSTANT_W_M2] = {"solar_constant_w_m2", "W/m2", "irradiance at the mean distance of the sun", LW_NUMBER,
                             1300, 1400, NULL, "1367", 0, 0},
};

enum { H0_KWH_M2, DAY_LENGTH_H, DECLINATION_DEG, SUNSET_ANGLE_DEG, NORMAL_W_M2 };
static const lw_output outputs[] = {
    [H0_KWH_M2] = {"h0_kwh_m2", "kWh/m2", "extraterrestrial radiation of the day on a horizontal plane", LW_NUMBER},
    [DAY_LENGTH_H] = {"day_length_h", "h", "time the centre of the sun is geometrically above the horizon", LW_NUMBER},
    [DECLINATION_DEG] = {"declination_deg", "degree", "of the sun (Cooper)", LW_NUMBER},
    [SUNSET_ANGLE_DEG] = {"sunset_angle_deg", "degree", "hour angle of sunset", LW_NUMBER},
    [NORMAL_W_M2] = {"normal_w_m2", "W/m2", "extraterrestrial irradiance normal to the beam", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double lat_deg = in[LAT_DEG].number, day = in[DAY_OF_YEAR].number, constant = in[SOLAR_CONSTANT_W_M2].number;
    const double declination_deg = lw_cooper_declination_deg(day);
    const double sunset_deg = lw_sunset_angle_deg(lat_deg, declination_deg);
    out[H0_KWH_M2] = lw_value_number(lw_h0_day_kwh_m2(lat_deg, day, constant));
    out[DAY_LENGTH_H] = lw_value_number(sunset_deg / 7.5);
    out[DECLINATION_DEG] = lw_value_number(declination_deg);
    out[SUNSET_ANGLE_DEG] = lw_value_number(sunset_deg);
    out[NORMAL_W_M2] = lw_value_number(constant * lw_distance_factor(day));
    return true;
}

const lw_figure lw_fig_day_radiation = {
    .name = "day_radiation",
    .room = "sun",
    .summary = "Extraterrestrial radiation of a day, the measure of clearness.",
    .source =
        "Duffie & Beckman, Solar Engineering of Thermal Processes, eqs. 1.4.1a, 1.6.1a (Cooper 1969), 1.6.10, 1.10.3",
    .limits = "One declination for the whole day; the day length here is geometric, about 7 minutes shorter in the "
              "tropics than sunrise to sunset.",
    .example = "lat_deg=-11.62 day_of_year=195",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
