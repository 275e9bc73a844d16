/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure night: sunset, civil twilight and sunrise of the night that begins on a date.
 */
#include "lanewick/figure.h"
#include "lanewick/sun.h"

enum { LAT_DEG, LON_DEG, DATE };
static const lw_input inputs[] = {
    [LAT_DEG] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [LON_DEG] = {"lon_deg", "degree", "longitude, east positive", LW_NUMBER, -180, 360, NULL, NULL, 0, 0},
    [DATE] = {"date", "", "the evening's date at the place (local mean solar time), as in 2026-07-14", LW_TEXT, 0, 0,
              NULL, NULL, 0, 0},
};

enum { SUNSET_UTC, CIVIL_DUSK_UTC, CIVIL_DAWN_UTC, SUNRISE_UTC, SUNSET_TO_SUNRISE_H, DUSK_TO_DAWN_H, WHY };
static const lw_output outputs[] = {
    [SUNSET_UTC] = {"sunset_utc", "", "upper rim of the sun on the level horizon", LW_TEXT},
    [CIVIL_DUSK_UTC] = {"civil_dusk_utc", "", "sun 6 degrees below", LW_TEXT},
    [CIVIL_DAWN_UTC] = {"civil_dawn_utc", "", "sun 6 degrees below, next morning", LW_TEXT},
    [SUNRISE_UTC] = {"sunrise_utc", "", "next morning", LW_TEXT},
    [SUNSET_TO_SUNRISE_H] = {"sunset_to_sunrise_h", "h",
                             "length of the night; 24 in the polar night, 0 in the polar day", LW_NUMBER},
    [DUSK_TO_DAWN_H] = {"dusk_to_dawn_h", "h", "length of the time darker than civil twilight", LW_NUMBER},
    [WHY] = {"why", "", "why a time is missing", LW_TEXT},
};

static bool put_instant(lw_value *out, bool there, double utc_days, lw_arena *arena, lw_error *err)
{
    if (!there)
        return true;
    char text[LW_UTC_TEXT];
    lw_utc_text(utc_days, text);
    const char *copy = lw_arena_text(arena, text, err);
    if (copy)
        *out = lw_value_text(copy);
    return copy != NULL;
}

typedef enum crossings { BOTH, ONE, NEVER_BELOW, ALWAYS_BELOW } crossings;

static crossings kind(const lw_night *night)
{
    if (night->sets || night->rises)
        return night->sets && night->rises ? BOTH : ONE;
    return night->below_h < 12.0 ? NEVER_BELOW : ALWAYS_BELOW;
}

/* NULL when all four times exist. */
static const char *reason(const lw_night *night, const lw_night *dark)
{
    const crossings twilight = kind(dark);
    switch (kind(night)) {
    case NEVER_BELOW:
        return "Polar day: the sun does not set.";
    case ALWAYS_BELOW:
        return twilight == ALWAYS_BELOW ? "Polar night: the sun does not rise and there is no civil twilight."
                                        : "Polar night: the sun does not rise; there is civil twilight about noon.";
    case ONE:
        return "The polar day or the polar night begins or ends on this date.";
    case BOTH:
        break;
    }
    if (twilight == ONE)
        return "The time of nights without darkness begins or ends on this date.";
    return twilight == BOTH
               ? NULL
               : "The sun sets but does not sink 6 degrees below the horizon: civil twilight lasts all night.";
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_date date;
    lw_night night, dark;
    const double lat_deg = in[LAT_DEG].number, lon_deg = in[LON_DEG].number;
    if (!lw_date_parse("date", in[DATE].text, &date, err) ||
        !lw_night_at(lat_deg, lon_deg, date, lw_sunset_altitude_deg, &night, err) ||
        !lw_night_at(lat_deg, lon_deg, date, lw_civil_altitude_deg, &dark, err))
        return false;
    if (!put_instant(&out[SUNSET_UTC], night.sets, night.set_utc, arena, err) ||
        !put_instant(&out[CIVIL_DUSK_UTC], dark.sets, dark.set_utc, arena, err) ||
        !put_instant(&out[CIVIL_DAWN_UTC], dark.rises, dark.rise_utc, arena, err) ||
        !put_instant(&out[SUNRISE_UTC], night.rises, night.rise_utc, arena, err))
        return false;
    out[SUNSET_TO_SUNRISE_H] = lw_value_number(night.below_h);
    out[DUSK_TO_DAWN_H] = lw_value_number(dark.below_h);
    const char *why = reason(&night, &dark);
    if (why)
        out[WHY] = lw_value_text(why);
    return true;
}

const lw_figure lw_fig_night = {
    .name = "night",
    .room = "sun",
    .summary = "Sunset, civil dusk, civil dawn, sunrise and the length of a night.",
    .source = "true altitude of the centre -0.833 degree (34 minutes refraction, 16 minutes radius) and -6 degrees, "
              "almanac convention (from memory); position as in sun_position",
    .limits = "Level horizon at sea level; refraction near the horizon varies, so real sunsets differ by a minute, at "
              "the polar circles by several.",
    .example = "lat_deg=-11.62 lon_deg=34.27 date=2026-07-14",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
