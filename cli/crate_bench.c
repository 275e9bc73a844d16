/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate plan: what to do at the bench day by day, with the charging slots, resistors and sun that are there.
 */
#include "crate_cli.h"
#include "nights_ask.h"

#include "lanewick/desk_bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const size_t brief_limit = 4 * 1024 * 1024;

/* Verdicts and the plan need this much for a cell; the number of cells is known when the store is open. */
bool lw_crate_judged(lw_crate_job *job, lw_arena *arena, lw_judged_cell **cells, size_t *n, lw_error *err)
{
    int64_t rows;
    if (!lw_crate_open(job, false, err) || !lw_store_total(job->store, LW_CELLS, &rows, err))
        return false;
    *arena = lw_cli_arena(((size_t)rows + 2) * (sizeof(lw_judged_cell) + sizeof(lw_judgement) + 1024) + 65536);
    return lw_desk_judge(job->store, job->argv[1], arena, cells, n, err);
}

/* The sun of the place and month, where --place is given. */
typedef struct sunshine {
    bool known;
    int month; /* 1..12 */
    lw_bench_sun year;
} sunshine;

static bool take_bench(lw_crate_job *job, lw_bench *bench, lw_error *err)
{
    double resistors = 8.0, slots = 4.0;
    *bench = (lw_bench){.load_ohm = 4.0, .charge_a = 1.0, .hours_day = 8.0};
    const lw_number_option numbers[] = {
        {"--slots", &slots, 1.0, 1000.0, ""},          {"--charge-a", &bench->charge_a, 0.01, 20.0, "A"},
        {"--resistors", &resistors, 1.0, 1000.0, ""},  {"--load", &bench->load_ohm, 0.1, 1000.0, "ohm"},
        {"--sun", &bench->sun_wh_day, 0.0, 1e6, "Wh"}, {"--hours", &bench->hours_day, 0.5, 24.0, "h"}};
    if (!lw_crate_numbers(job, numbers, sizeof numbers / sizeof numbers[0], err))
        return false;
    bench->slots = (int)slots;
    bench->resistors = (int)resistors;
    return true;
}

static int month_now(const lw_store *store)
{
    char stamp[LW_STAMP];
    lw_store_now(store, stamp); /* 2026-07-14T... */
    return (stamp[5] - '0') * 10 + stamp[6] - '0';
}

/* The place of a brief, or of LAT,LON. */
static bool take_place(const char *position, const char *brief_path, lw_place *place, char folder[1024], lw_error *err)
{
    if (position)
        return lw_cli_position(position, &place->lat_deg, &place->lon_deg, err);
    char *bytes = NULL;
    size_t length = 0;
    if (!lw_cli_read_file(brief_path, brief_limit, &bytes, &length, err))
        return false;
    lw_brief *brief = malloc(sizeof *brief);
    const bool read = brief ? lw_brief_from_json(bytes, length, brief, err)
                            : lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the brief.");
    if (read)
        *place = brief->place;
    lw_cli_folder_of(brief_path, folder, 1024);
    free(brief);
    free(bytes);
    return read;
}

/* --place LAT,LON or --brief FILE, with --panel W [--month M], in the place of --sun. */
static bool take_sun(lw_crate_job *job, const lw_bench *bench, sunshine *sun, double *month, lw_error *err)
{
    double panel_w = NAN;
    char folder[1024] = ".";
    const char *position, *brief;
    lw_place place = {.elev_m = NAN};
    const lw_text_option texts[] = {{"--place", &position}, {"--brief", &brief}};
    const lw_number_option numbers[] = {{"--panel", &panel_w, 1.0, 2000.0, "W"}, {"--month", month, 1.0, 12.0, ""}};
    if (!lw_crate_texts(job, texts, 2, err) || !lw_crate_numbers(job, numbers, 2, err))
        return false;
    if (!position && !brief)
        return isnan(panel_w) ||
               lw_fail(err, LW_WRONG_INPUT, "place",
                       "--panel needs --place LAT,LON or --brief FILE: the sun is that of the place.");
    if ((position && brief) || isnan(panel_w) || bench->sun_wh_day > 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "panel",
                       "--place or --brief goes with --panel, the watts of the bench's panel, and in the place of "
                       "--sun.");
    sun->known = true;
    return take_place(position, brief, &place, folder, err) &&
           lw_desk_bench_sun(&place, folder, panel_w, &sun->year, err);
}

static void print_sun_json(const sunshine *sun)
{
    const int m = sun->month - 1;
    (void)printf("\"sun\":{\"month\":%d,\"kwh_m2_day\":%.3f,\"wh_day\":%.1f,\"poor_wh_day\":%.1f,\"tilt_deg\":%.0f,"
                 "\"wh_day_of_month\":[",
                 sun->month, sun->year.kwh_m2_day[m], sun->year.wh_day[m], sun->year.poor_wh[m], sun->year.tilt_deg);
    for (int i = 0; i < 12; i++)
        (void)printf("%s%.1f", i ? "," : "", sun->year.wh_day[i]);
    (void)printf("]},");
}

static void print_json(const lw_judged_cell *cells, const lw_bench_week *week, const sunshine *sun)
{
    (void)printf("{\"days\":%d,\"energy_wh\":%.1f,\"bottleneck\":\"%s\",\"cells_per_day\":%.3g,", week->days.days,
                 week->days.energy_wh, week->days.bottleneck, week->days.per_day);
    if (sun->known)
        print_sun_json(sun);
    (void)printf("\"cells\":[");
    for (size_t i = 0; i < week->count; i++)
        (void)printf("%s{\"code\":\"%s\",\"charge_day\":%d,\"day\":%d,\"charge_wh\":%.2f}", i ? "," : "",
                     cells[week->order[i]].cell.code, week->charge_day[i], week->read_day[i], week->charge_wh[i]);
    (void)printf("]}\n");
}

/* Cells whose next test is a short one without a charge come first of all: it may save them the rest. */
static void print_short_tests(const lw_judged_cell *cells, size_t n)
{
    for (int t = LW_TEST_NONE + 1; t < LW_TEST_COUNT; t++) {
        const lw_bench_cost *cost = lw_bench_cost_of((lw_bench_test)t);
        int count = 0;
        for (size_t i = 0; i < n; i++) {
            const lw_judgement *j = &cells[i].judgement;
            if (j->verdict != LW_UNSURE || (int)j->next != t || t == LW_TEST_CAPACITY)
                continue;
            if (count++ == 0)
                lw_cli_print("first    %s:", cost->name);
            (void)printf(" %s", cells[i].cell.code);
        }
        if (count > 0)
            lw_cli_print("\n         %s About %.0f min for all.\n", cost->what, count * cost->minutes);
    }
}

static void print_cells(const lw_judged_cell *cells, const lw_bench_week *week, const int *days, int day)
{
    for (size_t i = 0; i < week->count; i++)
        if (days[i] == day)
            (void)printf(" %s", cells[week->order[i]].cell.code);
}

static void print_day(const lw_judged_cell *cells, const lw_bench_week *week, const lw_bench *bench, int day)
{
    double wh = 0.0;
    int reads = 0, charges = 0;
    for (size_t i = 0; i < week->count; i++) {
        wh += week->charge_day[i] == day ? week->charge_wh[i] : 0.0;
        charges += week->charge_day[i] == day;
        reads += week->read_day[i] == day;
    }
    lw_cli_print("day %-3d ", day);
    if (reads > 0) {
        lw_cli_print(" discharge and read, %d at once:", reads < bench->resistors ? reads : bench->resistors);
        print_cells(cells, week, week->read_day, day);
    }
    if (charges > 0) {
        lw_cli_print("%scharge, %d at once:", reads > 0 ? "\n         " : " ",
                     charges < bench->slots ? charges : bench->slots);
        print_cells(cells, week, week->charge_day, day);
        (void)printf("  (%.0f", wh);
        if (bench->sun_wh_day > 0.0)
            lw_cli_print(" of %.0f", bench->sun_wh_day);
        (void)printf(" Wh)");
    }
    (void)putchar('\n');
}

static void print_week(const lw_judged_cell *cells, size_t n, const lw_bench_week *week, const lw_bench *bench,
                       const sunshine *sun)
{
    if (sun->known)
        lw_cli_print("sun      %.1f kWh/m2 a day behind the panel's glass (tilt %.0f degrees): %.0f Wh a day for the "
                     "chargers,\n         on one day in five below %.0f Wh. %s\n",
                     sun->year.kwh_m2_day[sun->month - 1], sun->year.tilt_deg, sun->year.wh_day[sun->month - 1],
                     sun->year.poor_wh[sun->month - 1], sun->year.basis);
    print_short_tests(cells, n);
    for (int day = 1; day <= week->days.days; day++)
        print_day(cells, week, bench, day);
    lw_cli_print("\n%zu cells in %d days, %.0f Wh of charging; what holds it up: %s\n", week->count, week->days.days,
                 week->days.energy_wh, week->days.bottleneck);
    lw_cli_print(
        "Each cell is charged on one day, rests overnight and is read on a later one.\n"
        "CAUTION: no charge and no discharge unattended or where people sleep; sand at hand; 0 to 45 degC.\n"
        "CAUTION: never below 2.5 V (LFP 2.0 V): the jig's own cut-off ends a discharge, no phone and no program. "
        "A swollen or hot cell goes out of the house.\n");
}

static bool take_words(lw_crate_job *job, char class[12], lw_error *err)
{
    const char *text;
    const lw_text_option option = {"--class", &text};
    if (!lw_crate_texts(job, &option, 1, err) || (text && !lw_class_read(text, class, err)) ||
        !lw_crate_words(job, 1, 1, "CRATE", err))
        return false;
    return strcmp(class, "unknown") != 0 ||
           lw_fail(err, LW_WRONG_INPUT, "class", "A plan is for one known class: 4v2, 4v35 or lfp.");
}

bool lw_crate_plan(lw_crate_job *job, lw_error *err)
{
    lw_arena arena = {0};
    lw_judged_cell *cells;
    lw_bench bench;
    lw_bench_week week;
    sunshine sun = {0};
    double month = NAN;
    size_t n;
    char class[12] = "4v2";
    if (!take_bench(job, &bench, err) || !take_sun(job, &bench, &sun, &month, err) || !take_words(job, class, err))
        return false;
    bool done = lw_crate_judged(job, &arena, &cells, &n, err);
    if (done && sun.known) {
        sun.month = isnan(month) ? month_now(job->store) : (int)month;
        bench.sun_wh_day = sun.year.wh_day[sun.month - 1];
    }
    done = done && lw_desk_bench_plan(cells, n, class, &bench, &arena, &week, err);
    if (done && job->json)
        print_json(cells, &week, &sun);
    else if (done)
        print_week(cells, n, &week, &bench, &sun);
    free(arena.base);
    return done;
}
