/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * 1,000 synthetic years of hourly weather: year by year, and in lanes of LW_LANES years.
 */
#include "lanewick/years.h"
#include "lanewick/weather.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { YEARS = 1000, REPEATS = 3 };

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

int main(void)
{
    static const double ghi[12] = {5.13, 5.27, 5.41, 5.48, 5.33, 5.02, 5.21, 5.92, 6.47, 6.61, 6.12, 5.31};
    const lw_synth_options options = {.seed = 1, .day_spread_uncertainty = 1.0};
    lw_climate climate;
    lw_error err = {0};
    lw_weather_block *block = malloc(sizeof *block);
    lw_weather_year *year = malloc(sizeof *year);
    void *memory = malloc(lw_synth_bytes());
    lw_arena arena = lw_arena_over(memory, lw_synth_bytes());
    if (!block || !year || !memory ||
        !lw_climate_from_means(-11.62, 34.27, 480.0, ghi, NULL, NULL, NULL, NULL, &climate, &err))
        exit(1);
    const lw_synth *synth = lw_synth_prepare(&climate, 2.0, &options, &arena, &err);
    if (!synth)
        exit(1);
    double lanes = INFINITY, single = INFINITY;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
        const double start = now_s();
        for (uint32_t y = 0; y < YEARS; y += LW_LANES)
            lw_synth_block(synth, y, block);
        const double middle = now_s();
        for (uint32_t y = 0; y < YEARS; y++)
            lw_synth_year(synth, y, year);
        lanes = fmin(lanes, middle - start);
        single = fmin(single, now_s() - middle);
    }
    printf("result synthetic_1000_years year_by_year %.4f\n", single);
    printf("result synthetic_1000_years lanes %.4f\n", lanes);
    free(memory);
    free(year);
    free(block);
    return 0;
}
