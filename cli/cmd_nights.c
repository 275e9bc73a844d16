/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick nights: one system through one explicit year, or through many synthetic ones.
 */
#include "cli.h"

#include "nights_ask.h"
#include "nights_print.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { ARENA_BYTES = 16 << 20 };

typedef struct options {
    const char *weather, *means_of, *place, *years, *seed, *confidence, *threads, *elev, *utc_offset;
    bool json;
} options;

/* An option that would be left unread is an error: the answer would not be the one that was asked for. */
static bool options_go_together(const options *o, lw_error *err)
{
    static const char *const draws[] = {"--years", "--seed", "--confidence", "--threads"};
    const char *const given[] = {o->years, o->seed, o->confidence, o->threads};
    for (size_t i = 0; o->weather && i < sizeof given / sizeof given[0]; i++)
        if (given[i])
            return lw_fail(err, LW_WRONG_INPUT, draws[i],
                           "%s draws synthetic years; --weather runs the one year of its file. Leave it out, or take "
                           "--means-of FILE.",
                           draws[i]);
    if (!o->place && (o->elev || o->utc_offset))
        return lw_fail(err, LW_WRONG_INPUT, o->elev ? "--elev" : "--utc-offset",
                       "%s goes with --place; a weather file tells its own height and clock.",
                       o->elev ? "--elev" : "--utc-offset");
    return true;
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
    return options_go_together(o, err);
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
    if (!lw_cli_read_weather(o->weather, &year, err))
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

static bool draw_options(const options *o, lw_night_draws *request, lw_error *err)
{
    double years, seed, threads;
    if (!lw_cli_number("--years", o->years, 200.0, 1.0, 20000.0, &years, err) ||
        !lw_cli_number("--seed", o->seed, 1.0, 0.0, 9007199254740992.0, &seed, err) ||
        !lw_cli_number("--threads", o->threads, 0.0, 0.0, 256.0, &threads, err) ||
        !lw_cli_number("--confidence", o->confidence, 0.8, 0.01, 0.999, &request->confidence, err))
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
        if (!lw_cli_read_weather(o->means_of, &year, err) || !lw_desk_climate_of(&year, &climate, err))
            return false;
        request.utc_offset_h = year.utc_offset_h;
    } else if (!lw_cli_place_climate(o->place, o->elev, o->utc_offset, &climate, &request.utc_offset_h, err)) {
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
    const bool done = read_options(&argc, argv, &o, &err) && lw_cli_read_system(argv[1], &system, &err) &&
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
