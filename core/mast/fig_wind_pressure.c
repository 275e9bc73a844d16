/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure wind_pressure: peak velocity pressure at a height, with the label of the wind speed.
 */
#include "lanewick/figure.h"
#include "lanewick/wind.h"

enum { BASIC, TERRAIN, HEIGHT, AIR, CODE, LABEL, DIRECTIONALITY, TOPOGRAPHY, YEARS };
static const lw_input inputs[] = {
    [BASIC] = {"basic_m_s", "m/s",
               "en: ten-minute mean, 50 years; asce: three-second gust; ask where local codes give "
               "it, never guess",
               LW_NUMBER, 5, 90, NULL, NULL, 0, 0},
    [TERRAIN] = {"terrain", "", "en: 0 sea, I lake, II fields, III village, IV town; asce: B, C, D", LW_CHOICE, 0, 0,
                 LW_TERRAIN_WORDS, NULL, 0, 0},
    [HEIGHT] = {"height_m", "m", "above ground", LW_NUMBER, 0.1, 200, NULL, NULL, 0, 0},
    [AIR] = {"air_kg_m3", "kg/m3", "density of air (not used with asce, whose 0.613 holds it)", LW_NUMBER, 0.7, 1.25,
             NULL, "1.25", 0, 0},
    [CODE] = {"code", "", "en: EN 1991-1-4; asce: ASCE 7", LW_CHOICE, 0, 0, "en|asce", "en", 0, 0},
    [LABEL] = {"speed_is", "", "which wind speed this is; must fit the code; gust_observed goes with neither",
               LW_CHOICE, 0, 0, LW_WIND_LABEL_WORDS, "", 0, 0},
    [DIRECTIONALITY] = {"directionality", "", "asce Kd: 0.85 signs and square masts, 0.95 round", LW_NUMBER, 0.8, 1,
                        NULL, "0.85", 0, 0},
    [TOPOGRAPHY] = {"topography", "", "asce Kzt; above 1 on hills, where an engineer decides", LW_NUMBER, 1, 3, NULL,
                    "1", 0, 0},
    [YEARS] = {"return_years", "year", "en: another return period than 50 years", LW_NUMBER, 2, 1000, NULL, "50", 0, 0},
};

enum { MEAN, TURBULENCE, PRESSURE, EXPOSURE, FACTOR };
static const lw_output outputs[] = {
    [MEAN] = {"mean_m_s", "m/s", "mean wind at the height (en: 10 min, asce: 1 h; observed gust: the gust)", LW_NUMBER},
    [TURBULENCE] = {"turbulence", "", "its standard deviation over its mean", LW_NUMBER},
    [PRESSURE] = {"peak_pressure_pa", "Pa", "pressure to use for forces", LW_NUMBER},
    [EXPOSURE] = {"exposure_factor", "", "en: ce(z); asce: Kz", LW_NUMBER},
    [FACTOR] = {"return_factor", "", "what the return period made of the basic speed", LW_NUMBER},
};

static bool label_of(const lw_value *in, lw_wind_label *label, lw_error *err)
{
    const bool asce = in[CODE].number != 0.0;
    *label = asce ? LW_WIND_GUST_DESIGN : LW_WIND_MEAN_10MIN;
    if (!in[LABEL].given)
        return true;
    if ((lw_wind_label)in[LABEL].number != *label && in[LABEL].number != (double)LW_WIND_GUST_OBSERVED)
        return lw_fail(err, LW_WRONG_INPUT, "speed_is",
                       "The code %s works with %s, not with %s: mixing them is wrong by up to 2.4 times in load.",
                       asce ? "asce" : "en", asce ? "gust_design" : "mean_10min", in[LABEL].text);
    *label = (lw_wind_label)in[LABEL].number;
    return true;
}

/* Given for one code, a factor would be lost without a word in the other. */
static bool factors_fit(const lw_value *in, lw_error *err)
{
    const bool asce = in[CODE].number != 0.0;
    if (!asce && in[TOPOGRAPHY].number > 1.0)
        return lw_fail(err, LW_WRONG_INPUT, "topography",
                       "topography is %g, the Kzt of asce; on hills EN 1991-1-4 has factors of its own, which are not "
                       "computed here: a licensed engineer decides.",
                       in[TOPOGRAPHY].number);
    if (asce && in[YEARS].number != 50.0)
        return lw_fail(err, LW_WRONG_INPUT, "return_years",
                       "return_years is %g; the maps of ASCE 7 hold their return period already, give the speed of the "
                       "map that counts.",
                       in[YEARS].number);
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    lw_wind_label label = LW_WIND_MEAN_10MIN;
    if (!label_of(in, &label, err) || !factors_fit(in, err))
        return false;
    const double factor = label == LW_WIND_MEAN_10MIN ? lw_wind_return_factor(in[YEARS].number) : 1.0;
    const lw_wind_site site = {.speed_m_s = in[BASIC].number * factor,
                               .label = label,
                               .terrain = (lw_terrain)in[TERRAIN].number,
                               .air_kg_m3 = in[AIR].number,
                               .directionality = in[DIRECTIONALITY].number,
                               .topography = in[TOPOGRAPHY].number};
    lw_wind wind = {0};
    if (!lw_wind_at(&site, in[HEIGHT].number, &wind, err))
        return false;
    out[MEAN] = lw_value_number(wind.mean_m_s);
    out[TURBULENCE] = lw_value_number(wind.turbulence);
    out[PRESSURE] = lw_value_number(wind.peak_pressure_pa);
    out[EXPOSURE] = lw_value_number(wind.exposure);
    out[FACTOR] = lw_value_number(factor);
    return true;
}

const lw_figure lw_fig_wind_pressure = {
    .name = "wind_pressure",
    .room = "mast",
    .summary = "Peak wind pressure at a height, from a basic wind speed with its label.",
    .source = "EN 1991-1-4:2005 clauses 4.2 to 4.5; ASCE 7-16 26.10 and 26.11 (constants partly from memory)",
    .limits = "Flat country; on crests and slopes the wind is 20 to 50 % faster, and an engineer decides. EN loads go "
              "with load factor 1.5, ASCE 7 loads with 1.0; an observed gust is not a 50-year value",
    .caution = "A mast that falls kills. The local wind code comes first; above 40 m/s (asce 60), in a cyclone belt or "
               "on a hill a licensed engineer decides.",
    .example = "basic_m_s=28 terrain=II height_m=5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
