/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Charge and energy of a constant-resistor discharge: straight lines between the readings, so that the charge is
 * the trapezoid sum of V / R and the energy the exact integral of V^2 / R.
 */
#include "resistor.h"

#include <math.h>
#include <stdio.h>

static const double greatest_rise_v = 0.030; /* more than any meter's noise: the load was off for a while */
static const double start_window_s = 900.0;

/* Across the cell: a meter on the resistor misses the drop in the leads. */
static double cell_v(const lw_resistor_run *run, size_t k)
{
    return run->meter_on_load ? run->volts_v[k] * (1.0 + run->lead_ohm / run->load_ohm) : run->volts_v[k];
}

static bool check_fall(const lw_resistor_run *run, lw_error *err)
{
    for (size_t k = 1; k < run->n; k++) {
        if (run->volts_v[k] <= run->volts_v[k - 1] + greatest_rise_v)
            continue;
        char name[64];
        (void)snprintf(name, sizeof name, "volts_v[%zu]", k + 1);
        return lw_fail(err, LW_WRONG_INPUT, name,
                       "%s is %g V, higher than the %g V before it; under load the voltage only falls. Leave out "
                       "readings taken with the resistor off.",
                       name, run->volts_v[k], run->volts_v[k - 1]);
    }
    return true;
}

/* Slope at the end over at least min_fall_v, so that one digit of the meter does not decide it. */
static double end_slope(const lw_resistor_run *run, const double loop_ohm, size_t last, double min_fall_v)
{
    double charge = 0.0;
    for (size_t k = last; k > 0; k--) {
        charge += (run->times_s[k] - run->times_s[k - 1]) * (cell_v(run, k) + cell_v(run, k - 1)) / (2.0 * loop_ohm);
        const double fall = cell_v(run, k - 1) - cell_v(run, last);
        if (fall >= min_fall_v || k == 1)
            return -fmax(fall, 1e-6) * 3600.0 / charge;
    }
    return -1.0;
}

static double start_time(const lw_resistor_run *run)
{
    if (run->connected_s.given)
        return run->connected_s.value;
    return run->times_s[0] >= 0.0 && run->times_s[0] <= start_window_s ? 0.0 : run->times_s[0];
}

/* Between connecting and the first reading the voltage ran on the line of the first interval. */
static void add_start(const lw_resistor_run *run, lw_run_sums *sums)
{
    const double lead = sums->first_after_s;
    const double slope = (cell_v(run, 1) - cell_v(run, 0)) / (run->times_s[1] - run->times_s[0]);
    const double start_v =
        fmin(cell_v(run, 0) - fmin(slope, 0.0) * lead, run->open_before_v.given ? run->open_before_v.value : 4.6);
    const double v = 0.5 * (start_v + cell_v(run, 0));
    sums->drawn_ah += lead * v / sums->loop_ohm / 3600.0;
    sums->drawn_wh += lead * v * v / sums->loop_ohm / 3600.0;
    sums->coarse_ah += lead * v / sums->loop_ohm / 3600.0;
}

static void integrate(const lw_resistor_run *run, lw_run_sums *sums)
{
    const double r = sums->loop_ohm;
    size_t last = run->n - 1;
    for (size_t k = 0; k + 1 < run->n; k++) {
        const double dt = run->times_s[k + 1] - run->times_s[k];
        const double a = cell_v(run, k), b = cell_v(run, k + 1);
        const double step_ah = dt * (a + b) / (2.0 * r) / 3600.0;
        if (!sums->finished && b <= run->end_v) {
            const double share = a > b ? fmin(fmax((a - run->end_v) / (a - b), 0.0), 1.0) : 1.0;
            const double at_end = a + share * (b - a);
            sums->to_end_ah = sums->drawn_ah + share * dt * (a + at_end) / (2.0 * r) / 3600.0;
            sums->finished = true;
            last = k + 1;
        }
        sums->drawn_ah += step_ah;
        sums->drawn_wh += dt * (a * a + a * b + b * b) / (3.0 * r) / 3600.0;
    }
    if (!sums->finished)
        sums->to_end_ah = sums->drawn_ah;
    for (size_t k = 0; k + 1 < run->n; k += 2) {
        const size_t next = k + 2 < run->n ? k + 2 : run->n - 1;
        sums->coarse_ah +=
            (run->times_s[next] - run->times_s[k]) * (cell_v(run, k) + cell_v(run, next)) / (2.0 * r) / 3600.0;
    }
    sums->slope_v_ah = end_slope(run, r, last, fmax(0.015, 8.0 * run->meter.step));
}

bool lw_run_sum(const lw_resistor_run *run, lw_run_sums *sums, lw_error *err)
{
    *sums = (lw_run_sums){.loop_ohm = run->load_ohm + run->lead_ohm};
    if (run->n < 2)
        return lw_fail(err, LW_WRONG_INPUT, "volts_v", "volts_v has %zu readings; a discharge needs at least 2.",
                       run->n);
    if (!lw_cell_volts("volts_v", run->volts_v, run->n, err) ||
        !lw_times_forward("times_s", run->times_s, run->n, true, err) || !check_fall(run, err))
        return false;
    sums->first_after_s = run->times_s[0] - start_time(run);
    if (sums->first_after_s < 0.0 || sums->first_after_s > start_window_s)
        return lw_fail(err, LW_WRONG_INPUT, "connected_s",
                       "The first reading was taken %g s after connecting; it must follow within %g s.",
                       sums->first_after_s, start_window_s);
    sums->first_v = cell_v(run, 0);
    sums->last_v = cell_v(run, run->n - 1);
    sums->last_a = sums->last_v / sums->loop_ohm;
    add_start(run, sums);
    integrate(run, sums);
    const double hours = (run->times_s[run->n - 1] - start_time(run)) / 3600.0;
    sums->mean_a = sums->drawn_ah / hours;
    sums->mean_v = sums->mean_a * sums->loop_ohm;
    return true;
}
