/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Speed of table photometry: pairs of lamp and place on the ground, a head's file with 19 planes of 73 angles, 28 lamps
 * along a lane and 35,840 places (about a million pairs). Against a plain double loop over lw_lux_add() without
 * its face part: the same sums written out in double, one pair at a time.
 */
#include "lanewick/light_batch.h"
#include "lanewick/lm63.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { LAMPS = 28, PLACES = 35840, REPEATS = 7 };

static float x_m[PLACES], y_m[PLACES], fast_lx[PLACES];
static double plain_lx[PLACES];
static lw_lamp lamps[LAMPS];

static double now_s(void)
{
    struct timespec t;
    (void)clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void load(lw_lm63 *file, lw_arena *arena)
{
    static char bytes[1 << 16];
    lw_error err = {0};
    FILE *f = fopen(LW_SOURCE_DIR "/tests/data/photometry/lane-a.ies", "rb");
    const size_t length = f ? fread(bytes, 1, sizeof bytes, f) : 0;
    if (f)
        (void)fclose(f);
    if (!lw_lm63_read(bytes, length, false, arena, file, &err)) {
        (void)fprintf(stderr, "%s\n", err.message);
        exit(1);
    }
}

static void plain(void)
{
    for (int i = 0; i < PLACES; i++) {
        double sum = 0.0;
        for (int k = 0; k < LAMPS; k++) {
            const lw_lamp *l = &lamps[k];
            const double dx = (double)x_m[i] - l->x_m, dy = (double)y_m[i] - l->y_m, h = l->height_m;
            const double r2 = dx * dx + dy * dy + h * h;
            sum += lw_lamp_towards_cd(l, (double)x_m[i], (double)y_m[i], 0.0) * l->maintenance * h / (r2 * sqrt(r2));
        }
        plain_lx[i] = sum;
    }
}

static void fast(const lw_even_table *table, int threads)
{
    enum { PART = PLACES / 8 };
#pragma omp parallel for num_threads(threads) schedule(static)
    for (int part = 0; part < 8; part++) {
        const int from = part * PART;
        for (int i = from; i < from + PART; i++)
            fast_lx[i] = 0.0F;
        for (int k = 0; k < LAMPS; k++)
            lw_batch_ground(table, &lamps[k], x_m + from, y_m + from, PART, fast_lx + from);
    }
}

int main(void)
{
    static unsigned char memory[8 << 20];
    static lw_lm63 file;
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_error err = {0};
    load(&file, &arena);
    const lw_beam beam = {.table = &file.table, .street_plane_deg = 90.0};
    lw_even_table table;
    if (!lw_even_table_of(&beam, &arena, &table, &err))
        return 1;
    for (int k = 0; k < LAMPS; k++)
        lamps[k] = (lw_lamp){.x_m = 8.0 * k,
                             .y_m = -0.3,
                             .height_m = 4.0,
                             .turn_deg = 90.0,
                             .tilt_deg = 7.0,
                             .maintenance = 0.8,
                             .beam = beam};
    for (int i = 0; i < PLACES; i++) {
        const int column = i % 1120, row = i / 1120;
        x_m[i] = (float)(220.0 * column / 1120.0);
        y_m[i] = (float)(3.0 * row / 32.0);
    }
    double least[3] = {1e9, 1e9, 1e9};
    for (int r = 0; r < REPEATS; r++) {
        const double t0 = now_s();
        if (r < 2)
            plain();
        const double t1 = now_s();
        fast(&table, 1);
        const double t2 = now_s();
        fast(&table, 2);
        const double t3 = now_s();
        least[0] = r < 2 ? fmin(least[0], t1 - t0) : least[0];
        least[1] = fmin(least[1], t2 - t1);
        least[2] = fmin(least[2], t3 - t2);
    }
    double worst = 0.0;
    for (int i = 0; i < PLACES; i++)
        worst = fmax(worst, fabs((double)fast_lx[i] / plain_lx[i] - 1.0));
    (void)printf("result light_million_pairs scalar %.9f\n", least[0]);
    (void)printf("result light_million_pairs eight %.9f\n", least[1]);
    (void)printf("result light_million_pairs eight_2_threads %.9f\n", least[2]);
    (void)printf("light: %.1f million pairs of lamp and place a second on two threads; largest difference %.1e of the "
                 "place's light\n",
                 1e-6 * LAMPS * PLACES / least[2], worst);
    return worst < 1e-3 ? 0 : 1;
}
