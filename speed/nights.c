/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Speed of the night simulation: 1,000 years of hours of one lamp (8.76 million steps and the warming-up year of
 * each), from the light on the cells to the count, against the same steps in plain scalar double precision, one year
 * at a time. weather_on_the_plane is the work before: sky, glass, cell and pack temperature of those years.
 * The weather is one real year with lanes and blocks scaled so that none is like another.
 */
#include "lanewick/nights.h"
#include "core/power/drive.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { BLOCKS = 1000 / LW_LANES, KEPT = 8, REPEATS = 5, ARENA = 16 << 20, SCALAR_YEARS = 10 };

static const double blocks_of_1000 = 1000.0 / LW_LANES;

/* Processor time of this thread, so that other work on the machine does not count; wall time for two threads. */
static double now_s(clockid_t which)
{
    struct timespec t;
    (void)clock_gettime(which, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static char *read_file(const char *name, size_t *length)
{
    char path[600];
    (void)snprintf(path, sizeof path, LW_SOURCE_DIR "/%s", name);
    FILE *file = fopen(path, "rb");
    char *bytes = malloc(2 << 20);
    if (!file || !bytes)
        exit(1);
    *length = fread(bytes, 1, 2 << 20, file);
    (void)fclose(file);
    return bytes;
}

static void fill(const lw_weather_year *year, int which, lw_weather_block *out)
{
    for (int h = 0; h < LW_HOURS; h++)
        for (int l = 0; l < LW_LANES; l++) {
            const double scale = 0.9 + 0.001 * ((which * LW_LANES + l) * 37 % 128);
            out->ghi_w_m2[h][l] = year->ghi_w_m2[h] * scale;
            out->dhi_w_m2[h][l] = year->dhi_w_m2[h] * scale;
            out->dni_w_m2[h][l] = year->dni_w_m2[h] * scale;
            out->air_c[h][l] = year->air_c[h];
            out->wind_m_s[h][l] = year->wind_m_s[h];
        }
}

/* Two runs of one lane's year in scalar steps; the missing light keeps the work from being left out. */
static double scalar_year(const lw_model *model, const lw_drive_block *drive, int lane, const double *level_h)
{
    const lw_load *load = &model->system->load;
    double other_w[24], missing_wh = 0.0;
    lw_load_other_w(load, other_w);
    lw_store store = {.charge = lw_store_full(model)};
    for (int h = 0; h < 2 * LW_HOURS; h++) {
        const int at = h % LW_HOURS;
        const lw_step_in in = {.hours = 1.0,
                               .light_w_m2 = (double)drive->light_w_m2[at][lane],
                               .cell_c = (double)drive->cell_c[at][lane],
                               .pack_c = (double)drive->pack_c[at][lane],
                               .level_h = level_h[at],
                               .other_w = other_w[at % 24] + load->standby_w + model->system->charger.standby_w};
        lw_step_out out;
        lw_store_step(model, &store, &in, &out);
        missing_wh += out.missing_wh;
    }
    return missing_wh;
}

static double best(double *times)
{
    double least = times[0];
    for (int i = 1; i < REPEATS; i++)
        least = times[i] < least ? times[i] : least;
    return least;
}

static void measure(const char *group, const lw_system *system, const lw_weather_year *year, lw_arena *arena)
{
    static lw_model model;
    static lw_nights_summary out[LW_LANES];
    static lw_run_log log[2];
    lw_error err = {0};
    lw_engine *engine = lw_engine_prepare(system, year->lat_deg, year->lon_deg, year->utc_offset_h, arena, &err);
    lw_weather_block *weather = malloc(sizeof *weather);
    lw_drive_block *drive = malloc(KEPT * sizeof *drive);
    double *level_h, *on_h, *dark_h, missing_wh = 0.0;
    lw_model_prepare(system, &model);
    if (!engine || !weather || !drive ||
        !lw_drive_levels(system, year->lat_deg, year->lon_deg, year->utc_offset_h, 1, arena, &level_h, &on_h, &dark_h,
                         &err)) {
        (void)fprintf(stderr, "%s\n", err.message);
        exit(1);
    }
    double scalar[REPEATS], driving[REPEATS], lanes[REPEATS], two[REPEATS];
    for (int r = 0; r < REPEATS; r++) {
        double start;
        driving[r] = 0.0;
        for (int b = 0; b < KEPT; b++) {
            fill(year, b, weather);
            start = now_s(CLOCK_THREAD_CPUTIME_ID);
            lw_engine_drive(engine, weather, &drive[b]);
            driving[r] += (now_s(CLOCK_THREAD_CPUTIME_ID) - start) * blocks_of_1000 / KEPT;
        }
        start = now_s(CLOCK_THREAD_CPUTIME_ID);
        for (int y = 0; y < SCALAR_YEARS; y++)
            missing_wh += scalar_year(&model, &drive[y % KEPT], y % LW_LANES, level_h);
        scalar[r] = (now_s(CLOCK_THREAD_CPUTIME_ID) - start) * 1000.0 / SCALAR_YEARS;
        start = now_s(CLOCK_THREAD_CPUTIME_ID);
        for (int b = 0; b < BLOCKS; b++)
            lw_engine_run(engine, &drive[b % KEPT], NULL, &log[0], out);
        lanes[r] = (now_s(CLOCK_THREAD_CPUTIME_ID) - start) * blocks_of_1000 / BLOCKS;
        start = now_s(CLOCK_MONOTONIC);
#pragma omp parallel for num_threads(2) schedule(static)
        for (int half = 0; half < 2; half++) {
            lw_nights_summary mine[LW_LANES];
            for (int b = half; b < BLOCKS; b += 2)
                lw_engine_run(engine, &drive[b % KEPT], NULL, &log[half], mine);
        }
        two[r] = (now_s(CLOCK_MONOTONIC) - start) * blocks_of_1000 / BLOCKS;
    }
    (void)printf("result %s scalar %.6f\n", group, best(scalar));
    (void)printf("result %s lanes %.6f\n", group, best(lanes));
    (void)printf("result %s lanes_2_threads %.6f\n", group, best(two));
    (void)printf("result %s weather_on_the_plane %.6f\n", group, best(driving));
    (void)printf("%s: %.0f Wh missing in the scalar years\n", group, missing_wh);
    free(weather);
    free(drive);
}

int main(void)
{
    static lw_weather_year year;
    lw_error err = {0};
    size_t length;
    char *bytes = read_file("tests/data/weather/guam-andersen.csv", &length);
    if (!lw_weather_read(bytes, length, &year, &err))
        return 1;
    free(bytes);
    static const char *const lamps[][2] = {{"bucket_1000_years", "tests/lamps/a.json"},
                                           {"cells_direct_simple_1000_years", "tests/lamps/b.json"},
                                           {"cells_tracking_1000_years", "tests/lamps/lfp.json"},
                                           {"cells_direct_dimmed_1000_years", "tests/lamps/worn.json"}};
    for (size_t i = 0; i < sizeof lamps / sizeof lamps[0]; i++) {
        static lw_system system;
        lw_arena arena = lw_arena_over(malloc(ARENA), ARENA);
        char *text = read_file(lamps[i][1], &length);
        if (!lw_system_from_json(text, length, &system, &err))
            return 1;
        measure(lamps[i][0], &system, &year, &arena);
        free(text);
        free(arena.base);
    }
    return 0;
}
