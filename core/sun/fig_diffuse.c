/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure diffuse: share of global radiation that is diffuse, from the clearness index.
 */
#include "lanewick/diffuse.h"
#include "lanewick/figure.h"

enum { CLEARNESS, ELEVATION_DEG, SUNSET_ANGLE_DEG, SOLAR_TIME_H, DAY_CLEARNESS, PERSISTENCE };
static const lw_input inputs[] = {
    [CLEARNESS] = {"clearness", "",
                   "global radiation on the horizontal over extraterrestrial, of the hour, day or month in question",
                   LW_NUMBER, 0, 1.2, NULL, NULL, 0, 0},
    [ELEVATION_DEG] = {"elevation_deg", "degree", "of the sun above the horizon, for the last relation", LW_NUMBER, 0,
                       90, NULL, "", 0, 0},
    [SUNSET_ANGLE_DEG] = {"sunset_angle_deg", "degree",
                          "hour angle of sunset, which tells winter from the other seasons", LW_NUMBER, 0, 180, NULL,
                          "90", 0, 0},
    [SOLAR_TIME_H] = {"solar_time_h", "h", "true solar time", LW_NUMBER, 0, 24, NULL, "", 0, 0},
    [DAY_CLEARNESS] = {"day_clearness", "", "clearness index of the whole day", LW_NUMBER, 0, 1.2, NULL, "", 0, 0},
    [PERSISTENCE] = {"persistence", "", "mean clearness of the hours before and after", LW_NUMBER, 0, 1.2, NULL, "", 0,
                     0},
};

enum {
    DIFFUSE_FRACTION_HOURLY_ERBS,
    DIFFUSE_FRACTION_HOURLY_BOLAND,
    DIFFUSE_FRACTION_DAILY_ERBS,
    DIFFUSE_FRACTION_MONTHLY_ERBS,
    DIFFUSE_FRACTION_DAILY_COLLARES,
    DIFFUSE_FRACTION_HOURLY_BRL
};
static const lw_output outputs[] = {
    [DIFFUSE_FRACTION_HOURLY_ERBS] = {"diffuse_fraction_hourly_erbs", "", "of an hour (Erbs, Klein & Duffie)",
                                      LW_NUMBER},
    [DIFFUSE_FRACTION_HOURLY_BOLAND] = {"diffuse_fraction_hourly_boland", "", "of an hour (Boland & Ridley)",
                                        LW_NUMBER},
    [DIFFUSE_FRACTION_DAILY_ERBS] = {"diffuse_fraction_daily_erbs", "", "of a day, clearness being that of the day",
                                     LW_NUMBER},
    [DIFFUSE_FRACTION_MONTHLY_ERBS] = {"diffuse_fraction_monthly_erbs", "",
                                       "of a monthly mean, clearness being that of the month", LW_NUMBER},
    [DIFFUSE_FRACTION_DAILY_COLLARES] = {"diffuse_fraction_daily_collares", "", "of a day (Collares-Pereira & Rabl)",
                                         LW_NUMBER},
    [DIFFUSE_FRACTION_HOURLY_BRL] = {"diffuse_fraction_hourly_brl", "",
                                     "of an hour (Ridley, Boland & Lauret), when the last four inputs are given",
                                     LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double k = in[CLEARNESS].number, sunset_deg = in[SUNSET_ANGLE_DEG].number;
    out[DIFFUSE_FRACTION_HOURLY_ERBS] = lw_value_number(lw_diffuse_erbs_hour(k));
    out[DIFFUSE_FRACTION_HOURLY_BOLAND] = lw_value_number(lw_diffuse_boland(k));
    out[DIFFUSE_FRACTION_DAILY_ERBS] = lw_value_number(lw_diffuse_erbs_day(k, sunset_deg));
    out[DIFFUSE_FRACTION_MONTHLY_ERBS] = lw_value_number(lw_diffuse_erbs_month(k, sunset_deg));
    out[DIFFUSE_FRACTION_DAILY_COLLARES] = lw_value_number(lw_diffuse_collares_day(k));
    if (in[ELEVATION_DEG].given && in[SOLAR_TIME_H].given && in[DAY_CLEARNESS].given && in[PERSISTENCE].given)
        out[DIFFUSE_FRACTION_HOURLY_BRL] = lw_value_number(lw_diffuse_brl(
            k, in[SOLAR_TIME_H].number, in[ELEVATION_DEG].number, in[DAY_CLEARNESS].number, in[PERSISTENCE].number));
    return true;
}

const lw_figure lw_fig_diffuse = {
    .name = "diffuse",
    .room = "sun",
    .summary = "Diffuse share of global radiation by several published relations.",
    .source = "Erbs, Klein & Duffie (1982), Solar Energy 28, 293; Boland & Ridley (2008), Ridley, Boland & Lauret "
              "(2010), Renewable Energy 35, 478 (from memory); Collares-Pereira & Rabl (1979), Solar Energy 22, 155",
    .limits = "Fitted mostly at middle latitudes; a single hour scatters by 0.1 to 0.2 around each curve.",
    .example = "clearness=0.55",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
