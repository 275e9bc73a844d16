/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How long a crate takes: charging on one day, resting overnight, discharging the next. Each day has so many attended
 * hours, charging slots, resistors and so much sun. The charge, not the test, is usually what takes the week.
 */
#include "lanewick/verdict.h"

#include <math.h>

static const double mean_v = 3.7, lfp_mean_v = 3.25;
static const double charger_efficiency = 0.87; /* charger and cell together (from memory) */
static const double taper_h = 1.0;             /* constant-voltage part of the charge */
enum { MOST_DAYS = 100000 };

typedef struct day_left {
    double slot_h, resistor_h, wh;
} day_left;

static day_left fresh_day(const lw_bench *bench)
{
    return (day_left){bench->slots * bench->hours_day, bench->resistors * bench->hours_day,
                      bench->sun_wh_day > 0.0 ? bench->sun_wh_day : HUGE_VAL};
}

static bool check(const double *capacity_ah, size_t n, const lw_bench *bench, double volts, lw_error *err)
{
    if (n == 0)
        return lw_fail(err, LW_WRONG_INPUT, "cells", "There are no cells to test.");
    if (bench->slots < 1 || bench->resistors < 1)
        return lw_fail(err, LW_WRONG_INPUT, "slots", "The bench needs at least one charging slot and one resistor.");
    if (!lw_in_range(err, "charge_a", bench->charge_a, 0.01, 20.0, "A") ||
        !lw_in_range(err, "load_ohm", bench->load_ohm, 0.1, 1000.0, "ohm") ||
        !lw_in_range(err, "hours_day", bench->hours_day, 0.5, 24.0, "h"))
        return false;
    double most = 0.0;
    for (size_t i = 0; i < n; i++)
        most = fmax(most, capacity_ah[i]);
    if (most / bench->charge_a + taper_h > bench->hours_day)
        return lw_fail(err, LW_NOT_COMPUTABLE, "charge_a",
                       "A cell of %.2f Ah takes %.1f h to charge at %g A, longer than the %g h a day that somebody is "
                       "there; no charge runs unattended. Charge with more current (up to 0.5 C) or stay longer.",
                       most, most / bench->charge_a + taper_h, bench->charge_a, bench->hours_day);
    if (most * bench->load_ohm / volts > bench->hours_day)
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "load_ohm",
            "A cell of %.2f Ah takes %.1f h through %g ohm, longer than the %g h a day that somebody is there; "
            "use a smaller resistor.",
            most, most * bench->load_ohm / volts, bench->load_ohm, bench->hours_day);
    if (bench->sun_wh_day > 0.0 && most * volts / charger_efficiency > bench->sun_wh_day)
        return lw_fail(err, LW_NOT_COMPUTABLE, "sun_wh_day", "%g Wh a day do not fill one cell of %.2f Ah.",
                       bench->sun_wh_day, most);
    return true;
}

/* Readings of today, of cells charged before; they run one after the other on a resistor. Returns how many are read. */
static size_t read_today(const double *capacity_ah, size_t read, size_t rested, const lw_bench *bench, double volts,
                         day_left *left)
{
    for (; read < rested; read++) {
        const double h = capacity_ah[read] * bench->load_ohm / volts;
        const double share = bench->hours_day / floor(bench->hours_day / h);
        if (left->resistor_h < share - 1e-9)
            break;
        left->resistor_h -= share;
    }
    return read;
}

/* The same for charges, which also need the day's sun. */
static size_t charge_today(const double *capacity_ah, size_t n, size_t charged, const lw_bench *bench, double volts,
                           day_left *left, double *energy_wh)
{
    for (; charged < n; charged++) {
        const double h = capacity_ah[charged] / bench->charge_a + taper_h;
        const double share = bench->hours_day / floor(bench->hours_day / h);
        const double need = capacity_ah[charged] * volts / charger_efficiency;
        if (left->slot_h < share - 1e-9 || left->wh < need)
            break;
        left->slot_h -= share;
        left->wh -= need;
        *energy_wh += need;
    }
    return charged;
}

bool lw_bench_plan(const double *capacity_ah, size_t n, const lw_bench *bench, const lw_test_class *class,
                   int *charge_day, int *day, lw_bench_days *out, lw_error *err)
{
    *out = (lw_bench_days){0};
    const double volts = class->full_v < 4.0 ? lfp_mean_v : mean_v;
    if (!check(capacity_ah, n, bench, volts, err))
        return false;
    double mean = 0.0;
    for (size_t i = 0; i < n; i++)
        mean += capacity_ah[i] / (double)n;
    out->charge_h = mean / bench->charge_a + taper_h;
    out->discharge_h = mean * bench->load_ohm / volts;
    const double wh = mean * volts / charger_efficiency;
    const double rates[] = {bench->slots * floor(bench->hours_day / out->charge_h),
                            bench->resistors * floor(bench->hours_day / out->discharge_h),
                            bench->sun_wh_day > 0.0 ? bench->sun_wh_day / wh : HUGE_VAL};
    static const char *const names[] = /* words */ {"charging slots", "resistors", "sun"};
    size_t least = 0;
    for (size_t i = 1; i < 3; i++)
        least = rates[i] < rates[least] ? i : least;
    out->per_day = rates[least];
    out->bottleneck = names[least];
    size_t charged = 0, read = 0;
    day_left left = fresh_day(bench);
    for (int today = 1; read < n && today < MOST_DAYS; today++, left = fresh_day(bench)) {
        const size_t before = read;
        read = read_today(capacity_ah, read, charged, bench, volts, &left);
        for (size_t i = before; day && i < read; i++)
            day[i] = today;
        out->days = read > before ? today : out->days;
        const size_t first = charged;
        charged = charge_today(capacity_ah, n, charged, bench, volts, &left, &out->energy_wh);
        for (size_t i = first; charge_day && i < charged; i++)
            charge_day[i] = today;
    }
    return true;
}

void lw_bench_order(const lw_judgement *cells, size_t n, size_t *order)
{
    size_t count = 0;
    /* unsure cells by rising chance of scrap (insertion keeps equal ones in their order); others need no bench */
    for (size_t i = 0; i < n; i++) {
        size_t k = count++;
        const bool open = cells[i].verdict == LW_UNSURE;
        while (k > 0) {
            const lw_judgement *before = &cells[order[k - 1]];
            const bool before_open = before->verdict == LW_UNSURE;
            if (before_open && (!open || before->scrap_chance <= cells[i].scrap_chance))
                break;
            if (!before_open && !open)
                break;
            order[k] = order[k - 1];
            k--;
        }
        order[k] = i;
    }
}
