/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick nights: one system through one explicit year, or through many synthetic ones.
 */
#include "cli.h"

#include "nights_print.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { ARENA_BYTES = 16 << 20 };

typedef struct options {
    const char *weather, *means_of, *place, *years, *seed, *confidence, *threads, *elev, *utc_offset;
    bool json;
} options;

static bool number(const char *name, const char *text, double fallback, double low, double high, double *out,
                   lw_error *err)
{
    *out = fallback;
    if (!text)
        return true;
    char *end = NULL;
    *out = strtod(text, &end);
    if (end == text || *end != '\0')
        return lw_fail(err, LW_WRONG_INPUT, name, "%s is \"%.40s\"; it must be a number.", name, text);
    return lw_in_range(err, name, *out, low, high, "");
}

static bool read_options(int *argc, char **argv, options *o, lw_error *err)
{
    o->json = lw_cli_take_switch(argc, argv, "--json");
    if (!lw_cli_take_option(argc, argv, "--weather", &o->weather, err) ||
        !lw_cli_take_option(argc, argv, "--means-of", &o->means_of, err) ||
        !lw_cli_take_option(argc, argv, "--place", &o->place, err) ||
        !lw_cli_take_option(argc, argv, "--years", &o->years, err) ||
        !lw_cli_take_option(argc, argv, "--seed", &o->seed, err) ||
        !lw_cli_take_option(argc, argv, "--confidence", &o->confidence, err) ||
        !lw_cli_take_option(argc, argv, "--threads", &o->threads, err) ||
        !lw_cli_take_option(argc, argv, "--elev", &o->elev, err) ||
        !lw_cli_take_option(argc, argv, "--utc-offset", &o->utc_offset, err) ||
        !lw_cli_no_more_options(*argc, argv, err))
        return false;
    if (*argc != 2)
        return lw_fail(err, LW_WRONG_INPUT, "SYSTEM.json",
                       "One system file must be named; see lanewick nights --help.");
    if ((o->weather != NULL) + (o->means_of != NULL) + (o->place != NULL) != 1)
        return lw_fail(err, LW_WRONG_INPUT, "--weather",
                       "Exactly one of --weather FILE, --means-of FILE and --place LAT,LON must be given.");
    return true;
}

static bool read_system(const char *path, lw_system *system, lw_error *err)
{
    char *text = NULL;
    size_t length = 0;
    const bool done =
        lw_cli_read_file(path, 4 << 20, &text, &length, err) && lw_system_from_json(text, length, system, err);
    free(text);
    return done;
}

static bool read_weather(const char *path, lw_weather_year *year, lw_error *err)
{
    char *bytes = NULL;
    size_t length = 0;
    const bool done =
        lw_cli_read_file(path, LW_WEATHER_MAX_BYTES, &bytes, &length, err) && lw_weather_read(bytes, length, year, err);
    free(bytes);
    return done;
}

static void say(char *text)
{
    (void)puts(text ? text : "");
    free(text);
}

static bool explicit_year(const lw_system *system, const options *o, lw_error *err)
{
    static lw_weather_year year;
    static lw_nights nights;
    if (!read_weather(o->weather, &year, err))
        return false;
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    const bool done = lw_nights_explicit(system, &year, &arena, &nights, err);
    free(arena.base);
    if (done && o->json)
        say(lw_nights_to_json(system, &year, &nights));
    else if (done)
        lw_print_nights(system, &year, &nights);
    return done;
}

static bool position(const char *text, double *lat, double *lon, lw_error *err)
{
    char *middle = NULL, *end = NULL;
    *lat = strtod(text, &middle);
    *lon = middle != text && *middle == ',' ? strtod(middle + 1, &end) : 0.0;
    if (!end || end == middle + 1 || *end != '\0')
        return lw_fail(err, LW_WRONG_INPUT, "--place",
                       "--place is \"%.40s\"; it must be latitude,longitude in degrees such as -11.62,34.27.", text);
    return true;
}

static bool place_climate(const options *o, lw_climate *climate, double *utc_offset_h, lw_error *err)
{
    double lat = 0.0, lon = 0.0, elev = NAN;
    if (!position(o->place, &lat, &lon, err))
        return false;
    if (!lw_in_range(err, "latitude", lat, -90.0, 90.0, "degree") ||
        !lw_in_range(err, "longitude", lon, -180.0, 360.0, "degree") ||
        !number("--elev", o->elev, NAN, -430.0, 8850.0, &elev, err))
        return false;
    lw_climate_data data;
    if (!lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err) ||
        !lw_climate_at(&data, lat, lon, elev, climate, err))
        return false;
    const double solar_h = round((lon > 180.0 ? lon - 360.0 : lon) / 15.0);
    return number("--utc-offset", o->utc_offset, solar_h, -12.0, 14.0, utc_offset_h, err);
}

static bool draw_options(const options *o, lw_night_draws *request, lw_error *err)
{
    double years, seed, threads;
    if (!number("--years", o->years, 200.0, 1.0, 20000.0, &years, err) ||
        !number("--seed", o->seed, 1.0, 0.0, 9007199254740992.0, &seed, err) ||
        !number("--threads", o->threads, 0.0, 0.0, 256.0, &threads, err) ||
        !number("--confidence", o->confidence, 0.8, 0.01, 0.999, &request->confidence, err))
        return false;
    if (years != floor(years) || seed != floor(seed) || threads != floor(threads))
        return lw_fail(err, LW_WRONG_INPUT, "--years", "--years, --seed and --threads must be whole numbers.");
    request->years = (uint32_t)years;
    request->seed = (uint64_t)seed;
    request->threads = (int)threads;
    return true;
}

static bool drawn_years(const lw_system *system, const options *o, lw_error *err)
{
    static lw_weather_year year;
    static lw_climate climate;
    lw_night_draws request = {.system = system, .climate = &climate, .exact_means = o->means_of != NULL};
    if (!draw_options(o, &request, err))
        return false;
    if (o->means_of) {
        if (!read_weather(o->means_of, &year, err) || !lw_desk_climate_of(&year, &climate, err))
            return false;
        request.utc_offset_h = year.utc_offset_h;
    } else if (!place_climate(o, &climate, &request.utc_offset_h, err)) {
        return false;
    }
    lw_nights_summary *summaries = calloc((size_t)request.years + 1, sizeof *summaries);
    lw_dark_band band;
    bool done = summaries || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the years.");
    done = done && lw_desk_night_draws(&request, summaries, &band, err);
    if (done && o->json)
        say(lw_night_draws_to_json(&request, summaries, &band));
    else if (done)
        lw_print_night_draws(&request, summaries, &band);
    free(summaries);
    return done;
}

static int run(int argc, char **argv)
{
    static lw_system system;
    lw_error err = {0};
    options o = {0};
    const bool done = read_options(&argc, argv, &o, &err) && read_system(argv[1], &system, &err) &&
                      (o.weather ? explicit_year(&system, &o, &err) : drawn_years(&system, &o, &err));
    return done ? LW_EXIT_DONE : lw_cli_fail(&err, o.json);
}

const lw_command lw_cmd_nights = {
    .name = "nights",
    .summary = "on which nights a stated lamp goes dark",
    .usage =
        "lanewick nights SYSTEM.json --weather FILE       one explicit year of hours (our CSV, EPW or TMY3)\n"
        "lanewick nights SYSTEM.json --place LAT,LON      synthetic years from the built-in climate\n"
        "         --elev M --utc-offset H                 height and clock of the place\n"
        "lanewick nights SYSTEM.json --means-of FILE      synthetic years from the file's monthly means alone\n"
        "         --years N (200) --seed K (1)            how many, and which ones\n"
        "         --confidence C (0.8)                    share of years inside the band\n"
        "         --threads T                             results do not depend on it\n"
        "         --json                                  one JSON object\n"
        "\nSYSTEM.json is a document lanewick.system/1, see docs/schema/system-1.schema.json. A night counts from\n"
        "noon to noon and is dark when more than dark_limit (1 %) of its wanted light is missing.\n",
    .run = run,
};
