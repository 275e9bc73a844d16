/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure climate: the monthly climate of any position on Earth from the built-in tables.
 */
#include "lanewick/climate.h"
#include "lanewick/figure.h"

#include <math.h>

enum { LAT, LON, ELEV };
static const lw_input inputs[] = {
    [LAT] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [LON] = {"lon_deg", "degree", "longitude, east positive", LW_NUMBER, -180, 360, NULL, NULL, 0, 0},
    [ELEV] = {"elev_m", "m", "height above the sea; when left out, that of the neighbouring stations", LW_NUMBER, -430,
              8850, NULL, "", 0, 0},
};

enum { GHI, SPREAD, YEAR_SD, CLEARNESS, DAY_SD, DAY_SD_SPREAD, DAY_LAG1, T, RANGE, WIND, RAIN, HEIGHT, BASIS };
static const lw_output outputs[] = {
    [GHI] = {"ghi_kwh_m2_day", "kWh/m2 a day", "mean global horizontal radiation, January to December", LW_NUMBERS},
    [SPREAD] = {"ghi_spread_pct", "%", "one standard deviation of the error of that mean", LW_NUMBERS},
    [YEAR_SD] = {"ghi_year_sd_pct", "%", "standard deviation of single years about the mean that the days alone cause",
                 LW_NUMBERS},
    [CLEARNESS] = {"clearness", "", "share of the radiation above the air", LW_NUMBERS},
    [DAY_SD] = {"clearness_day_sd", "", "standard deviation of daily clearness within the month", LW_NUMBERS},
    [DAY_SD_SPREAD] = {"clearness_day_sd_spread", "", "one standard deviation of the error of clearness_day_sd",
                       LW_NUMBERS},
    [DAY_LAG1] = {"clearness_day_lag1", "", "correlation of daily clearness with the day before", LW_NUMBERS},
    [T] = {"t_mean_c", "degC", "mean air temperature", LW_NUMBERS},
    [RANGE] = {"t_range_c", "K", "mean of daily maximum minus minimum", LW_NUMBERS},
    [WIND] = {"wind_10m_ms", "m/s", "mean wind at 10 m (not a gust)", LW_NUMBERS},
    [RAIN] = {"rain_mm", "mm", "rain in the month", LW_NUMBERS},
    [HEIGHT] = {"elev_m", "m", "height used", LW_NUMBER},
    [BASIS] = {"basis", "", "what the values rest on", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_climate_data data;
    lw_climate *c = lw_arena_take(arena, 1, sizeof *c, err);
    if (!c || !lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err) ||
        !lw_climate_at(&data, in[LAT].number, in[LON].number, in[ELEV].given ? in[ELEV].number : NAN, c, err))
        return false;
    out[GHI] = lw_value_list(c->ghi_kwh_m2_day, 12);
    out[SPREAD] = lw_value_list(c->ghi_spread_pct, 12);
    out[YEAR_SD] = lw_value_list(c->ghi_year_sd_pct, 12);
    out[CLEARNESS] = lw_value_list(c->clearness, 12);
    out[DAY_SD] = lw_value_list(c->clearness_day_sd, 12);
    out[DAY_SD_SPREAD] = lw_value_list(c->clearness_day_sd_spread, 12);
    out[DAY_LAG1] = lw_value_list(c->clearness_day_lag1, 12);
    out[T] = lw_value_list(c->t_mean_c, 12);
    out[RANGE] = lw_value_list(c->t_range_c, 12);
    out[WIND] = lw_value_list(c->wind_10m_ms, 12);
    out[RAIN] = lw_value_list(c->rain_mm, 12);
    out[HEIGHT] = lw_value_number(c->elev_m);
    out[BASIS] = lw_value_text(c->basis);
    return true;
}

const lw_figure lw_fig_climate = {
    .name = "climate",
    .room = "sun",
    .summary = "Monthly radiation with its uncertainty, clearness, temperature, wind and rain of any place, offline.",
    .source = "CRU CL 2.0 (New et al. 2002, Climate Research 21, 1), Angstrom-Prescott after FAO-56 eq. 35 (Allen et "
              "al. 1998), corrected by monthly means of public typical years; docs/models/climate.md",
    .limits = "Monthly means from station tables: valley fog, city haze and mountain shade are not seen.",
    .example = "lat_deg=-11.62 lon_deg=34.27 elev_m=480",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
