/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure hour_clearness: mean, spread and correlation of the hours of a day of known clearness.
 */
#include "hour_clearness.h"
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum { DAY_CLEARNESS, ALTITUDE_DEG, SOLAR_TIME_H };
static const lw_input inputs[] = {
    [DAY_CLEARNESS] = {"day_clearness", "", "clearness index of the whole day", LW_NUMBER, 0.01, 0.9, NULL, NULL, 0, 0},
    [ALTITUDE_DEG] = {"altitude_deg", "degree", "height of the sun at the middle of the hour", LW_NUMBER, 2, 90, NULL,
                      NULL, 0, 0},
    [SOLAR_TIME_H] = {"solar_time_h", "h", "true solar time at the middle of the hour", LW_NUMBER, 0, 24, NULL, "12", 0,
                      0},
};

enum { HOUR_MEAN, HOUR_SD, HOUR_LAG1, CLEAR_SKY };
static const lw_output outputs[] = {
    [HOUR_MEAN] = {"hour_mean", "", "mean clearness of such hours", LW_NUMBER},
    [HOUR_SD] = {"hour_sd", "", "their standard deviation", LW_NUMBER},
    [HOUR_LAG1] = {"hour_lag1", "", "correlation with the hour before", LW_NUMBER},
    [CLEAR_SKY] = {"clear_sky", "", "clearness of a cloudless hour, the most that is possible", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const lw_tag tag = lw_tag_of_day(in[DAY_CLEARNESS].number);
    const double sin_height = sin(in[ALTITUDE_DEG].number * lw_radian_per_degree);
    out[HOUR_MEAN] = lw_value_number(lw_tag_mean(tag.lambda, tag.eta, tag.kappa, sin_height));
    out[HOUR_SD] = lw_value_number(lw_tag_sd(tag.a, tag.b, sin_height));
    out[HOUR_LAG1] = lw_value_number(tag.phi);
    out[CLEAR_SKY] = lw_value_number(lw_tag_clear_sky(in[SOLAR_TIME_H].number));
    return true;
}

const lw_figure lw_fig_hour_clearness = {
    .name = "hour_clearness",
    .room = "sun",
    .summary = "Clearness of single hours, its spread and persistence, from the clearness of the day.",
    .source = "Aguiar & Collares-Pereira (1992), Solar Energy 49, 167 (TAG model)",
    .limits = "Before the hours are scaled so that they add up to the day; steep below 2 degrees of height.",
    .example = "day_clearness=0.52 altitude_deg=47",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
