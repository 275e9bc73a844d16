/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Does the 80 % band of dark nights, made from nothing but a year's twelve monthly means and its position, hold the
 * count of the real year about as often as it says? Four real hourly years, the two reference lamps, panel and
 * battery scaled so that counts run from 0 to over 60. No constant of the model was fitted to these counts.
 * Prints one line a lamp and the summary that docs/models/synthetic-years.md quotes; fails when coverage leaves
 * 70 to 92 % or the bands are wide.
 *
 * usage: calibrate_nights TESTS_DIRECTORY [all]
 */
#include "lanewick/nights_desk.h"
#include "lanewick/stats.h"
#include "lanewick/system.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { YEARS = 200, SITES = 4, LAMPS = 2, MOST = 2 << 20, ARENA = 24 << 20, BINS = 5 };
static const char *const sites[SITES] = {"addis-ababa", "colombo-katunayake", "guam-andersen", "huehuetenango"};
static const char *const lamps[LAMPS] = {"a", "b"};
static const double panel_all[] = {0.75, 0.85, 0.95, 1.05, 1.2, 1.4}, battery_all[] = {0.7, 0.85, 1.0, 1.2, 1.4};
static const double panel_few[] = {0.8, 1.0, 1.2}, battery_few[] = {0.75, 1.1};
static const int bin_low[BINS] = {0, 1, 6, 16, 31}, bin_high[BINS] = {0, 5, 15, 30, 60};

typedef struct tally {
    double cases, inside, below, above, width, real, mean;
} tally;

static void stop(const char *message)
{
    (void)fprintf(stderr, "%s\n", message);
    exit(1);
}

static char *read_file(const char *directory, const char *part, const char *name, const char *ending, size_t *length)
{
    char path[4096];
    char *bytes = malloc(MOST);
    (void)snprintf(path, sizeof path, "%s/%s/%s.%s", directory, part, name, ending);
    FILE *file = fopen(path, "rb");
    if (!file || !bytes)
        stop(path);
    *length = fread(bytes, 1, MOST, file);
    (void)fclose(file);
    return bytes;
}

static void read_year(const char *directory, const char *site, lw_weather_year *year)
{
    size_t length;
    lw_error err = {0};
    char *bytes = read_file(directory, "data/weather", site, "csv", &length);
    if (!lw_weather_read(bytes, length, year, &err))
        stop(err.message);
    free(bytes);
}

static lw_system read_lamp(const char *directory, const char *name)
{
    size_t length;
    lw_error err = {0};
    lw_system system;
    char *bytes = read_file(directory, "lamps", name, "json", &length);
    if (!lw_system_from_json(bytes, length, &system, &err))
        stop(err.message);
    free(bytes);
    return system;
}

static int real_count(const lw_system *system, const lw_weather_year *year, lw_arena *arena)
{
    lw_nights nights;
    lw_error err = {0};
    if (!lw_nights_explicit(system, year, arena, &nights, &err))
        stop(err.message);
    return nights.dark_nights;
}

static lw_dark_band band_of(const lw_system *system, const lw_weather_year *year)
{
    static lw_nights_summary summaries[YEARS];
    lw_climate climate;
    lw_dark_band band;
    lw_error err = {0};
    if (!lw_desk_climate_of(year, &climate, &err))
        stop(err.message);
    const lw_night_draws request = {.system = system,
                                    .climate = &climate,
                                    .utc_offset_h = year->utc_offset_h,
                                    .exact_means = true,
                                    .years = YEARS,
                                    .seed = 1,
                                    .confidence = 0.8};
    if (!lw_desk_night_draws(&request, summaries, &band, &err))
        stop(err.message);
    return band;
}

static void add(tally *t, int real, const lw_dark_band *band)
{
    t->cases += 1.0;
    t->inside += real >= band->low && real <= band->high;
    t->below += real < band->low;
    t->above += real > band->high;
    t->width += band->high - band->low;
    t->real += real;
    t->mean += band->mean;
}

static void run_lamp(const lw_system *lamp, const char *name, const lw_weather_year *year, const char *site, bool all,
                     lw_arena *arena, tally bins[BINS])
{
    const double *panel = all ? panel_all : panel_few, *battery = all ? battery_all : battery_few;
    const int panels = all ? 6 : 3, batteries = all ? 5 : 2;
    for (int i = 0; i < panels * batteries; i++) {
        lw_system system = *lamp;
        system.panel.factor = panel[i % panels];
        system.battery.capacity_factor = battery[i / panels];
        const int real = real_count(&system, year, arena);
        const lw_dark_band band = band_of(&system, year);
        printf("%-20s lamp %s, panel x%.2f, battery x%.2f: real %3d, expected %6.2f, band %5.1f..%5.1f\n", site, name,
               panel[i % panels], battery[i / panels], real, band.mean, band.low, band.high);
        for (int b = 0; b < BINS; b++)
            if (real >= bin_low[b] && real <= bin_high[b])
                add(&bins[b], real, &band);
    }
}

static double coverage(const char *name, const tally *t)
{
    printf("%-18s %4.0f cases, inside %4.1f %%, below %4.1f %%, above %4.1f %%, mean width %5.2f, real/expected %.2f\n",
           name, t->cases, 100.0 * t->inside / t->cases, 100.0 * t->below / t->cases, 100.0 * t->above / t->cases,
           t->width / t->cases, t->real / t->mean);
    return t->inside / t->cases;
}

static tally sum(const tally *bins, int from)
{
    tally t = {0};
    for (int b = from; b < BINS; b++) {
        t.cases += bins[b].cases;
        t.inside += bins[b].inside;
        t.below += bins[b].below;
        t.above += bins[b].above;
        t.width += bins[b].width;
        t.real += bins[b].real;
        t.mean += bins[b].mean;
    }
    return t;
}

int main(int count, char **words)
{
    if (count < 2)
        stop("usage: calibrate_nights TESTS_DIRECTORY [all]");
    const bool all = count > 2 && strcmp(words[2], "all") == 0;
    tally bins[BINS] = {0};
    lw_arena arena = lw_arena_over(malloc(ARENA), ARENA);
    lw_weather_year *year = malloc(sizeof *year);
    if (!arena.base || !year)
        stop("no memory");
    for (int s = 0; s < SITES; s++) {
        read_year(words[1], sites[s], year);
        for (int l = 0; l < LAMPS; l++) {
            const lw_system lamp = read_lamp(words[1], lamps[l]);
            run_lamp(&lamp, lamps[l], year, sites[s], all, &arena, bins);
        }
    }
    for (int b = 0; b < BINS; b++) {
        char name[40];
        (void)snprintf(name, sizeof name, "real %d..%d", bin_low[b], bin_high[b]);
        if (bins[b].cases > 0.0)
            (void)coverage(name, &bins[b]);
    }
    const tally some = sum(bins, 1), every = sum(bins, 0);
    const double inside_some = coverage("real 1..60", &some), inside = coverage("real 0..60", &every);
    free(year);
    free(arena.base);
    const bool good = inside_some >= 0.70 && inside_some <= 0.92 && inside >= 0.70 && inside <= 0.93 &&
                      some.width / some.cases < 14.0;
    return good ? 0 : 1;
}
