/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parallel group: all cells have the group's voltage V. With open voltages E and resistances R,
 * I = sum (E - V) / R, so V = (sum E / R - I) / sum 1 / R and i = (E - V) / R. Step by step the charge moves and the
 * open voltages with it: steep parts of the curve push the current to other cells.
 */
#include "lanewick/sharing.h"

#include <math.h>

enum { STEPS = 4000, MOST_STEPS = 20000 };

typedef struct state {
    double charge[LW_GROUP_CELLS], amps[LW_GROUP_CELLS];
    double group_v;
} state;

static void solve(const lw_group_ask *ask, state *s)
{
    double conductance = 0.0, driven = 0.0, open[LW_GROUP_CELLS];
    for (size_t i = 0; i < ask->n; i++) {
        const double g = 1.0 / (ask->ohm[i] + ask->path_ohm);
        open[i] = lw_ocv_at(&ask->class->ocv, s->charge[i]);
        conductance += g;
        driven += open[i] * g;
    }
    s->group_v = (driven - ask->current_a) / conductance;
    for (size_t i = 0; i < ask->n; i++)
        s->amps[i] = (open[i] - s->group_v) / (ask->ohm[i] + ask->path_ohm);
}

static bool check(const lw_group_ask *ask, lw_error *err)
{
    if (ask->n < 1 || ask->n > LW_GROUP_CELLS)
        return lw_fail(err, LW_WRONG_INPUT, "resistances_mohm", "The group has %zu cells; it may have 1 to %d.", ask->n,
                       LW_GROUP_CELLS);
    if (ask->current_a == 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "current_a",
                       "current_a is 0; give a discharge (positive) or a charge "
                       "(negative).");
    for (size_t i = 0; i < ask->n; i++)
        if (!(ask->ohm[i] + ask->path_ohm > 0.0) || !(ask->capacity_ah[i] > 0.0))
            return lw_fail(err, LW_WRONG_INPUT, "resistances_mohm",
                           "Cell %zu has %g ohm and %g Ah; both must be more than 0.", i + 1, ask->ohm[i],
                           ask->capacity_ah[i]);
    return true;
}

static void note_largest(const lw_group_ask *ask, const state *s, lw_group_run *out)
{
    const double equal = fabs(ask->current_a) / (double)ask->n, sign = ask->current_a > 0.0 ? 1.0 : -1.0;
    double mean = 0.0, all = 0.0;
    for (size_t i = 0; i < ask->n; i++) {
        mean += s->charge[i] * ask->capacity_ah[i];
        all += ask->capacity_ah[i];
    }
    for (size_t i = 0; i < ask->n; i++) {
        const double a = sign * s->amps[i];
        out->most_a[i] = fmax(out->most_a[i], a);
        if (a / equal > out->largest_share) {
            out->largest_share = a / equal;
            out->largest_cell = i;
            out->largest_at_charge = mean / all;
        }
    }
}

/* Length of a step: a fixed part of the run, and short against the time in which two cells equalise. */
static double step_s(const lw_group_ask *ask)
{
    double all = 0.0, fastest = HUGE_VAL;
    for (size_t i = 0; i < ask->n; i++) {
        all += ask->capacity_ah[i];
        fastest = fmin(fastest, 3600.0 * ask->capacity_ah[i] * (ask->ohm[i] + ask->path_ohm));
    }
    const double steepest_v = 20.0; /* per full charge, at the empty end */
    return fmax(fmin(3600.0 * all / fabs(ask->current_a) / STEPS, 0.25 * fastest / steepest_v),
                3600.0 * all / fabs(ask->current_a) / MOST_STEPS);
}

static bool ended(const lw_group_ask *ask, const state *s, double end_v)
{
    if (ask->current_a > 0.0 ? s->group_v <= end_v : s->group_v >= end_v)
        return true;
    for (size_t i = 0; i < ask->n; i++)
        if ((s->charge[i] <= 0.0 && s->amps[i] > 0.0) || (s->charge[i] >= 1.0 && s->amps[i] < 0.0))
            return true;
    return false;
}

bool lw_group_share(const lw_group_ask *ask, lw_group_run *out, lw_error *err)
{
    *out = (lw_group_run){0};
    if (!check(ask, err))
        return false;
    state s = {0};
    double conductance = 0.0;
    for (size_t i = 0; i < ask->n; i++) {
        s.charge[i] = ask->charge[i];
        conductance += 1.0 / (ask->ohm[i] + ask->path_ohm);
    }
    out->group_ohm = 1.0 / conductance;
    const double usual = ask->current_a > 0.0 ? ask->class->cutoff_v : ask->class->ceiling_v;
    const double end_v = ask->end_v > 0.0 ? ask->end_v : usual, dt = step_s(ask);
    solve(ask, &s);
    note_largest(ask, &s, out);
    out->largest_start_share = out->largest_share;
    for (size_t i = 0; i < ask->n; i++)
        out->start_a[i] = s.amps[i];
    for (int step = 0; step < 4 * MOST_STEPS && !ended(ask, &s, end_v); step++) {
        for (size_t i = 0; i < ask->n; i++) {
            s.charge[i] -= s.amps[i] * dt / 3600.0 / ask->capacity_ah[i];
            out->charge_ah[i] += s.amps[i] * dt / 3600.0;
        }
        out->hours += dt / 3600.0;
        solve(ask, &s);
        note_largest(ask, &s, out);
    }
    out->group_ah = ask->current_a * out->hours;
    return true;
}
