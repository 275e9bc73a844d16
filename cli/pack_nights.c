/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick pack nights: the dark nights of a lamp with the pack that these very cells make.
 */
#include "pack_nights.h"

#include "cli.h"
#include "nights_ask.h"

#include "lanewick/desk_pack.h"
#include "lanewick/match_json.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

typedef struct options {
    const char *lamp, *place, *elev, *utc_offset, *weather, *series, *parallel, *years, *seed, *planned, *confidence,
        *health, *threads;
    bool json;
} options;

static bool take(int *argc, char **argv, options *o, lw_error *err)
{
    const struct {
        const char *name, **value;
    } all[] = {{"--lamp", &o->lamp},         {"--place", &o->place},
               {"--elev", &o->elev},         {"--utc-offset", &o->utc_offset},
               {"--weather", &o->weather},   {"--series", &o->series},
               {"--parallel", &o->parallel}, {"--years", &o->years},
               {"--seed", &o->seed},         {"--planned-years", &o->planned},
               {"--health", &o->health},     {"--confidence", &o->confidence},
               {"--threads", &o->threads}};
    o->json = lw_cli_take_switch(argc, argv, "--json");
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (!lw_cli_take_option(argc, argv, all[i].name, all[i].value, err))
            return false;
    if (!lw_cli_no_more_options(*argc, argv, err))
        return false;
    if (*argc != 3)
        return lw_fail(err, LW_WRONG_INPUT, "", "Give one file of cells; see lanewick pack --help.");
    if (!o->lamp)
        return lw_fail(err, LW_WRONG_INPUT, "--lamp", "--lamp is missing: the lamp's system file.");
    if (!o->series)
        return lw_fail(err, LW_WRONG_INPUT, "series", "--series is missing: the number of groups in series.");
    if ((o->place != NULL) + (o->weather != NULL) != 1)
        return lw_fail(err, LW_WRONG_INPUT, "--place",
                       "Exactly one of --place LAT,LON and --weather FILE must be given.");
    return true;
}

static bool numbers(const options *o, lw_pack_nights_ask *ask, lw_error *err)
{
    double series, parallel, years, seed, planned, threads;
    if (!lw_cli_number("--series", o->series, 1.0, 1.0, LW_MAX_SERIES, &series, err) ||
        !lw_cli_number("--parallel", o->parallel, 0.0, 0.0, 1000.0, &parallel, err) ||
        !lw_cli_number("--years", o->years, 200.0, 1.0, 20000.0, &years, err) ||
        !lw_cli_number("--seed", o->seed, 1.0, 0.0, 9007199254740992.0, &seed, err) ||
        !lw_cli_number("--planned-years", o->planned, 5.0, 0.0, LW_PACK_YEARS, &planned, err) ||
        !lw_cli_number("--threads", o->threads, 0.0, 0.0, 256.0, &threads, err) ||
        !lw_cli_number("--confidence", o->confidence, 0.9, 0.5, 0.999, &ask->match.confidence, err) ||
        !lw_cli_number("--health", o->health, 0.75, 0.3, 1.0, &ask->health, err))
        return false;
    const double whole[] = {series, parallel, years, seed, planned, threads};
    for (size_t i = 0; i < sizeof whole / sizeof whole[0]; i++)
        if (whole[i] != floor(whole[i]))
            return lw_fail(err, LW_WRONG_INPUT, "--series",
                           "--series, --parallel, --years, --seed, --planned-years and --threads must be whole "
                           "numbers; %g is not.",
                           whole[i]);
    ask->match.series = (int)series;
    ask->match.parallel = (int)parallel;
    ask->match.seed = ask->draws.seed = (uint64_t)seed;
    ask->draws.years = (uint32_t)years;
    ask->draws.threads = (int)threads;
    ask->draws.confidence = 0.8;
    ask->planned_years = (int)planned;
    return true;
}

static void print_wirings(const lw_pack_nights_ask *ask, const lw_cell_list *list, const lw_pack_nights *n)
{
    const lw_pack_wiring *a = &n->matched, *b = &n->as_they_come;
    lw_cli_print("%s\n\ngroup          matched               as they come\n", ask->system->name);
    for (int g = 0; g < ask->match.series; g++) {
        lw_cli_print("%5d  %7.3f Ah %6.1f mohm  %7.3f Ah %6.1f mohm  ", g + 1, a->group[g].capacity_ah,
                     1000.0 * (a->group[g].r0_ohm + a->group[g].r1_ohm), b->group[g].capacity_ah,
                     1000.0 * (b->group[g].r0_ohm + b->group[g].r1_ohm));
        for (size_t i = 0; i < list->n; i++)
            if (n->match.group[i] == g)
                (void)printf(" %s", list->cells[i].id);
        (void)putchar('\n');
    }
    lw_cli_print("weakest%7.3f Ah              %7.3f Ah    (the cells named are those of the matched groups)\n",
                 a->weakest_ah, b->weakest_ah);
    if (n->match.left_out > 0)
        lw_cli_print("%d cells are left out of both\n", n->match.left_out);
}

static void print_years(const lw_pack_nights_ask *ask, const lw_pack_nights *n)
{
    const lw_pack_wiring *a = &n->matched, *b = &n->as_they_come;
    if (ask->hours)
        lw_cli_print("\nDark nights in the year of the file\n");
    else
        lw_cli_print("\nDark nights a year: mean of %u years of made weather, and what 8 of 10 years lie between\n",
                     ask->draws.years);
    lw_cli_print("year     capacity left    matched              as they come\n");
    for (int y = 0; y <= n->years; y++) {
        char year[16] = "today";
        if (y > 0)
            (void)snprintf(year, sizeof year, "%d", y);
        (void)printf("%-8s %8.0f %%      ", year, 100.0 * a->capacity_share[y]);
        if (ask->hours)
            (void)printf("%5.0f                %5.0f\n", a->dark[y].mean, b->dark[y].mean);
        else
            (void)printf("%6.1f (%3.0f to %3.0f)  %6.1f (%3.0f to %3.0f)\n", a->dark[y].mean, a->dark[y].low,
                         a->dark[y].high, b->dark[y].mean, b->dark[y].low, b->dark[y].high);
    }
    const double bought = b->dark[n->years].mean - a->dark[n->years].mean;
    if (n->years > 0)
        lw_cli_print("\nMatching saves %.1f dark nights in year %d\n", bought, n->years);
    else
        lw_cli_print("\nMatching saves %.1f dark nights a year\n", bought);
}

static void print(const lw_pack_nights_ask *ask, const lw_cell_list *list, const lw_pack_nights *n)
{
    print_wirings(ask, list, n);
    print_years(ask, n);
    lw_cli_print("Ageing starts from cells with %.0f %% of their capacity when new (--health)\n", 100.0 * ask->health);
    if (n->system_mohm)
        lw_cli_print("A resistance is not told: the lamp file's own stands in for that group\n");
    if (n->system_class)
        lw_cli_print(
            "No voltage class is told: the cells are taken for those of the lamp file. If they are not, do not "
            "charge them\n");
    (void)putchar('\n');
    for (size_t i = 0; lw_pack_caution(i); i++)
        lw_cli_print("CAUTION: %s\n", lw_pack_caution(i));
}

static bool climate_or_hours(const options *o, lw_pack_nights_ask *ask, lw_climate *climate, lw_weather_year *year,
                             lw_error *err)
{
    ask->hours = o->weather ? year : NULL;
    ask->draws.climate = climate;
    if (o->weather)
        return lw_cli_read_weather(o->weather, year, err);
    return lw_cli_place_climate(o->place, o->elev, o->utc_offset, climate, &ask->draws.utc_offset_h, err);
}

static bool compute(const char *path, lw_pack_nights_ask *ask, bool json, lw_error *err)
{
    static lw_pack_nights nights;
    lw_cell_list list = {0};
    char *bytes = NULL;
    size_t length = 0;
    if (!lw_cli_read_file(path, LW_CSV_MAX_BYTES, &bytes, &length, err))
        return false;
    const size_t draws = (ask->draws.years + 1) * sizeof(lw_nights_summary);
    lw_arena arena = lw_cli_arena(lw_desk_pack_memory(bytes, length) + LW_DESK_PACK_NIGHTS_BYTES + draws);
    const bool done = lw_desk_pack_nights(bytes, length, ask, &arena, &list, &nights, err);
    if (done && json) {
        char *text = lw_pack_nights_to_json(ask, &list, &nights);
        (void)puts(text ? text : "");
        free(text);
    } else if (done) {
        print(ask, &list, &nights);
    }
    free(arena.base);
    free(bytes);
    return done;
}

int lw_cli_pack_nights(int argc, char **argv)
{
    static lw_system system;
    static lw_climate climate;
    static lw_weather_year year;
    options o = {0};
    lw_error err = {0};
    lw_pack_nights_ask ask = {.system = &system};
    const bool done = take(&argc, argv, &o, &err) && numbers(&o, &ask, &err) &&
                      lw_cli_read_system(o.lamp, &system, &err) && climate_or_hours(&o, &ask, &climate, &year, &err) &&
                      compute(argv[2], &ask, o.json, &err);
    return done ? LW_EXIT_DONE : lw_cli_fail(&err, o.json);
}
