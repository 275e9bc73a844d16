/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One lamp through one explicit year, in double precision, in steps of an hour or finer. The year runs twice so
 * that the store has forgotten how it began; the second run counts.
 */
#include "drive.h"
#include "lanewick/nights.h"
#include "lanewick/utc.h"
#include "model.h"

#include <math.h>
#include <string.h>

void lw_month_of_days(int month[LW_DAYS])
{
    int day = 0;
    for (int m = 0; m < LW_MONTHS; m++)
        for (int d = 0; d < lw_days_in_month(LW_COMMON_YEAR, m + 1); d++)
            month[day++] = m;
}

typedef struct tally {
    lw_nights *out;
    double full, charge_sum, pack_c_sum, taken, day_high, day_low, depth_sum;
    int month[LW_DAYS];
} tally;

static void count_light(tally *t, const lw_step_out *step, double on_h, int night, double charge_share)
{
    lw_nights *n = t->out;
    n->wanted_wh[night] += step->wanted_wh;
    n->missing_wh[night] += step->missing_wh;
    n->wanted_h[night] += on_h;
    if (step->wanted_wh > 0.0)
        n->missing_h[night] += on_h * step->missing_wh / step->wanted_wh;
    n->dimmed_wh += step->dimmed_wh;
    n->other_missing_wh += step->other_missing_wh;
    n->lowest_share[night] = fmin(n->lowest_share[night], charge_share);
}

static void count_energy(tally *t, const lw_step_out *step, const lw_step_in *in, int day, double charge_share,
                         const lw_battery *battery)
{
    lw_nights *n = t->out;
    const int month = t->month[day];
    n->panel_wh[month] += step->panel_wh;
    n->panel_ah[month] += step->panel_ah;
    n->load_wh[month] += step->load_wh;
    n->spilled_wh[month] += step->spilled_wh;
    if (step->blocked && in->pack_c < battery->charge_low_c)
        n->cold_h += in->hours;
    else if (step->blocked)
        n->hot_h += in->hours;
    n->pack_low_c = fmin(n->pack_low_c, in->pack_c);
    n->pack_high_c = fmax(n->pack_high_c, in->pack_c);
    t->pack_c_sum += in->pack_c * in->hours;
    t->charge_sum += charge_share * in->hours;
    t->taken += step->taken;
    t->day_high = fmax(t->day_high, charge_share);
    t->day_low = fmin(t->day_low, charge_share);
}

static void finish(tally *t, double dark_limit)
{
    lw_nights *n = t->out;
    double wanted = 0.0, missing = 0.0;
    n->lowest_charge_share = 1.0;
    for (int d = 0; d < LW_DAYS; d++) {
        n->dark[d] = n->missing_wh[d] > dark_limit * n->wanted_wh[d] + 1e-12 && n->missing_wh[d] > 0.0;
        n->dark_nights += n->dark[d];
        n->by_month[t->month[d]] += n->dark[d];
        wanted += n->wanted_wh[d];
        missing += n->missing_wh[d];
        n->lowest_charge_share = fmin(n->lowest_charge_share, n->lowest_share[d]);
    }
    n->unserved_share = wanted > 0.0 ? missing / wanted : 0.0;
    for (int m = 0; m < LW_MONTHS; m++) {
        n->panel_year_wh += n->panel_wh[m];
        n->panel_year_ah += n->panel_ah[m];
    }
    n->pack_mean_c = t->pack_c_sum / LW_HOURS;
    n->mean_charge_share = t->charge_sum / LW_HOURS;
    n->full_cycles = t->full > 0.0 ? t->taken / t->full : 0.0;
    n->mean_depth = t->depth_sum / LW_DAYS;
}

/* Sun falls on the lit part of an hour alone: the share of the hour's energy in each step. */
static double sun_share(const lw_drive *drive, int hour, int step, int steps)
{
    if (steps == 1)
        return 1.0;
    double lit = 0.0;
    for (int k = 0; k < steps; k++)
        lit += 1.0 / steps - drive->dark_h[hour * steps + k];
    if (lit < 1e-9)
        return 1.0;
    return (1.0 / steps - drive->dark_h[hour * steps + step]) / lit * steps;
}

static void run_year(const lw_model *model, const lw_drive *drive, lw_store *store, tally *t)
{
    const lw_system *s = model->system;
    const int steps = s->steps_per_hour;
    for (int h = 0; h < LW_HOURS; h++) {
        const int night = ((h - 12 + LW_HOURS) % LW_HOURS) / 24;
        if (t && h % 24 == 12) {
            t->day_high = 0.0;
            t->day_low = 1.0;
        }
        for (int k = 0; k < steps; k++) {
            const int i = h * steps + k;
            const lw_step_in in = {.hours = 1.0 / steps,
                                   .light_w_m2 = drive->light_w_m2[h] * sun_share(drive, h, k, steps),
                                   .cell_c = drive->cell_c[h],
                                   .pack_c = drive->pack_c[h],
                                   .level_h = drive->level_h[i],
                                   .other_w = drive->other_w[h % 24]};
            lw_step_out out;
            lw_store_step(model, store, &in, &out);
            if (!t)
                continue;
            const double charge_share = t->full > 0.0 ? store->charge / t->full : 0.0;
            count_light(t, &out, drive->on_h[i], night, charge_share);
            count_energy(t, &out, &in, h / 24, charge_share, &s->battery);
        }
        if (t && h % 24 == 11)
            t->depth_sum += fmax(0.0, t->day_high - t->day_low);
    }
}

bool lw_nights_explicit(const lw_system *system, const lw_weather_year *year, lw_arena *arena, lw_nights *out,
                        lw_error *err)
{
    if (!lw_system_check(system, err))
        return false;
    const size_t used = arena->used;
    lw_model *model = lw_arena_take(arena, 1, sizeof *model, err);
    lw_drive *drive = model ? lw_arena_take(arena, 1, sizeof *drive, err) : NULL;
    if (!drive)
        return false;
    lw_model_prepare(system, model);
    if (!lw_drive_prepare(model, year, arena, drive, err)) {
        arena->used = used;
        return false;
    }
    memset(out, 0, sizeof *out);
    out->pack_low_c = INFINITY;
    out->pack_high_c = -INFINITY;
    for (int d = 0; d < LW_DAYS; d++)
        out->lowest_share[d] = 1.0;
    tally t = {.out = out, .full = lw_store_full(model), .day_low = 1.0};
    lw_month_of_days(t.month);
    lw_store store = {.charge = system->battery.start_share * t.full};
    run_year(model, drive, &store, NULL);
    run_year(model, drive, &store, &t);
    finish(&t, system->dark_limit);
    arena->used = used;
    return true;
}
