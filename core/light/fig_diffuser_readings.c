/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure diffuser_readings: transmittance and spread of a bottle from lux readings with and without it.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"
#include "lanewick/light.h"

#include <math.h>

enum { ANGLES, WITH, WITHOUT, SCATTER };
static const lw_input inputs[] = {
    [ANGLES] = {"angle_deg", "degree", "angles from straight below, rising from 0", LW_NUMBERS, 0, 180, NULL, NULL, 3,
                64},
    [WITH] = {"with_lx", "lx", "with the bottle, at each angle, the meter facing the head", LW_NUMBERS, 0, 1e6, NULL,
              NULL, 3, 64},
    [WITHOUT] = {"without_lx", "lx", "without it, same distance and places", LW_NUMBERS, 0, 1e6, NULL, NULL, 3, 64},
    [SCATTER] = {"reading_pct", "%", "scatter of one reading (aim, stray light); the meter's scale cancels", LW_NUMBER,
                 0, 50, NULL, "5", 0, 0},
};

enum { T, SD, BELOW, SPREAD, BARE, UP };
static const lw_output outputs[] = {
    [T] = {"transmittance", "", "light out of the bottle over light into it", LW_NUMBER},
    [SD] = {"transmittance_sd", "", "one standard deviation", LW_NUMBER},
    [BELOW] = {"straight_through", "", "the same straight below only", LW_NUMBER},
    [SPREAD] = {"mean_angle_with_deg", "degree", "mean angle of the light with the bottle", LW_NUMBER},
    [BARE] = {"mean_angle_without_deg", "degree", "without it", LW_NUMBER},
    [UP] = {"upward_share", "", "of the light with the bottle above the horizontal, as far as it was read", LW_NUMBER},
};

/* Lumens of one square metre's distance for each lux at angle i: straight lines between the angles, times the sine. */
static double weight(const double *deg, size_t count, size_t i, double from_deg)
{
    double cd[64] = {0.0}, plane = 0.0;
    cd[i] = 1.0;
    const lw_intensity hat = {count, 1, deg, &plane, cd, LW_SYMMETRY_ROUND};
    return lw_intensity_flux_lm(&hat, from_deg, 180.0);
}

static bool check(const lw_value *in, lw_error *err)
{
    const size_t n = in[ANGLES].count;
    if (in[WITH].count != n || in[WITHOUT].count != n)
        return lw_fail(err, LW_WRONG_INPUT, "with_lx",
                       "There are %zu angles, %zu readings with and %zu without; they "
                       "must be as many.",
                       n, in[WITH].count, in[WITHOUT].count);
    for (size_t i = 1; i < n; i++)
        if (!(in[ANGLES].list[i] > in[ANGLES].list[i - 1]))
            return lw_fail(err, LW_WRONG_INPUT, "angle_deg", "angle_deg must rise: %g comes after %g.",
                           in[ANGLES].list[i], in[ANGLES].list[i - 1]);
    return in[ANGLES].list[0] == 0.0 ||
           lw_fail(err, LW_WRONG_INPUT, "angle_deg", "The first angle is %g; begin straight below, at 0 degree.",
                   in[ANGLES].list[0]);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (!check(in, err))
        return false;
    const size_t n = in[ANGLES].count;
    const double *deg = in[ANGLES].list, *with = in[WITH].list, *bare = in[WITHOUT].list;
    double sum_with = 0.0, sum_bare = 0.0, up = 0.0, var_with = 0.0, var_bare = 0.0, turn_with = 0.0, turn_bare = 0.0;
    for (size_t i = 0; i < n; i++) {
        const double w = weight(deg, n, i, 0.0);
        sum_with += w * with[i];
        sum_bare += w * bare[i];
        up += weight(deg, n, i, 90.0) * with[i];
        var_with += w * with[i] * w * with[i];
        var_bare += w * bare[i] * w * bare[i];
        turn_with += w * with[i] * deg[i];
        turn_bare += w * bare[i] * deg[i];
    }
    if (!(sum_with > 0.0) || !(sum_bare > 0.0))
        return lw_fail(err, LW_NOT_COMPUTABLE, "without_lx", "The readings show no light.");
    const double t = sum_with / sum_bare, scatter = in[SCATTER].number / 100.0;
    if (t > 1.05)
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "with_lx",
            "More light comes out with the bottle (%.2f times) than without it: were lists or places mixed up?", t);
    out[T] = lw_value_number(t);
    out[SD] = lw_value_number(t * scatter * sqrt(var_with / (sum_with * sum_with) + var_bare / (sum_bare * sum_bare)));
    if (bare[0] > 0.0)
        out[BELOW] = lw_value_number(with[0] / bare[0]);
    out[SPREAD] = lw_value_number(turn_with / sum_with);
    out[BARE] = lw_value_number(turn_bare / sum_bare);
    out[UP] = lw_value_number(up / sum_with);
    return true;
}

const lw_figure lw_fig_diffuser_readings = {
    .name = "diffuser_readings",
    .room = "light",
    .summary = "Transmittance and spread of a bottle from lux readings at a few angles with and without it.",
    .source = "ratio of fluxes, straight lines between the angles times the sine (zonal lumens, IES Lighting Handbook)",
    .limits = "Light at angles that were not read is not seen: read up to 180 degree with a whole bottle.",
    .caution = "Do not look into the bare LEDs: low current, or paper in front for both rows of readings.",
    .example = "angle_deg=0,30,60,90 with_lx=88,79,52,6 without_lx=118,101,60,0",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
