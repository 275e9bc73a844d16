/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Resistance from a logged current step: (V before - V then) / (I then - I before) at a stated time after it.
 * The step is where the current changes most between two samples; it began at the earlier of the two, unless the
 * rest was sampled so thinly that the later one must be meant.
 */
#include "lanewick/cell_test.h"

#include "pulse_fit.h"

#include <math.h>

static const double ramp_s = 1.0, ramp_share = 0.75; /* a fast logger; more of the step than this leaves too little */
static const double held_share = 0.9; /* the pulse lasts while the current keeps this share of its step */

typedef struct step {
    size_t before, first, last; /* last sample at rest; first and last sample of the pulse */
    double rest_v, rest_a;      /* voltage and current before the step */
    double start_s, amps;
} step;

/* Some logs begin half way up the step: a single sample, already with part of the current, followed at once by the
 * rest. The voltage at rest is then found by going back along the resistance of that first moment. */
static bool complete_ramp(const lw_log *log, step *out, lw_error *err)
{
    const double a0 = log->amps_a[out->before], a1 = log->amps_a[out->first];
    const double gap = log->times_s[out->first] - log->times_s[out->before];
    if (out->before != 0 || gap > ramp_s || fabs(a0) < 0.02 * fabs(a1))
        return true;
    if (fabs(a0) > ramp_share * fabs(a1))
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "amps_a[1]",
            "The log begins when the current already stood at %.0f %% of the pulse; it needs a sample at rest.",
            100.0 * a0 / a1);
    const double ohm = (log->volts_v[out->before] - log->volts_v[out->first]) / (a1 - a0);
    out->rest_v = log->volts_v[out->before] + ohm * a0;
    out->rest_a = 0.0;
    return true;
}

static bool find_step(const lw_log *log, double at_s, step *out, lw_error *err)
{
    size_t place = 0;
    double most = 0.0;
    for (size_t k = 1; k < log->n; k++) {
        const double change = fabs(log->amps_a[k]) - fabs(log->amps_a[k - 1]);
        if (change > most) {
            most = change;
            place = k;
        }
    }
    if (place == 0)
        return lw_fail(err, LW_WRONG_INPUT, "amps_a",
                       "The current never steps up in this log; it needs a sample at rest and then the pulse.");
    /* a logger may catch the ramp half way: rest is the sample before any of it */
    size_t before = place - 1;
    while (before > 0 && fabs(log->amps_a[before] - log->amps_a[before - 1]) > 0.02 * most)
        before--;
    out->before = before;
    out->first = place;
    out->rest_v = log->volts_v[before];
    out->rest_a = log->amps_a[before];
    if (!complete_ramp(log, out, err))
        return false;
    out->amps = log->amps_a[place] - out->rest_a;
    out->last = place;
    while (out->last + 1 < log->n && fabs(log->amps_a[out->last + 1] - out->rest_a) >= held_share * fabs(out->amps))
        out->last++;
    const double gap = log->times_s[place] - log->times_s[before];
    const bool thin = gap > 0.5 * at_s && log->times_s[out->last] - log->times_s[place] >= at_s;
    out->start_s = thin ? log->times_s[place] : log->times_s[before];
    return true;
}

/* Resistance at a time after the step, between the two nearest samples; false beyond the pulse. */
static bool resistance_at(const lw_log *log, const step *s, double at_s, double *ohm)
{
    const double when = s->start_s + at_s;
    const double length = log->times_s[s->last] - s->start_s;
    if (at_s > length * 1.03 + 1e-9 || when < log->times_s[s->first] - 1e-9)
        return false;
    size_t k = s->first;
    while (k < s->last && log->times_s[k] < when)
        k++;
    double v = log->volts_v[k], a = log->amps_a[k];
    if (k > s->first && log->times_s[k] > when) {
        const double share = (when - log->times_s[k - 1]) / (log->times_s[k] - log->times_s[k - 1]);
        v = log->volts_v[k - 1] + share * (v - log->volts_v[k - 1]);
        a = log->amps_a[k - 1] + share * (a - log->amps_a[k - 1]);
    }
    *ohm = (s->rest_v - v) / (a - s->rest_a);
    return true;
}

static lw_reading maybe(const lw_log *log, const step *s, double at_s)
{
    lw_reading r = {0};
    r.given = resistance_at(log, s, at_s, &r.value);
    return r;
}

bool lw_pulse_resistance(const lw_log *log, double at_s, lw_pulse *out, lw_error *err)
{
    step s = {0};
    *out = (lw_pulse){0};
    if (log->n < 2)
        return lw_fail(err, LW_WRONG_INPUT, "times_s", "The log has %zu samples; it needs at least 2.", log->n);
    if (!lw_cell_volts("volts_v", log->volts_v, log->n, err) ||
        !lw_times_forward("times_s", log->times_s, log->n, false, err) || !find_step(log, at_s, &s, err))
        return false;
    out->step_a = s.amps;
    out->start_s = s.start_s;
    out->length_s = log->times_s[s.last] - s.start_s;
    if (!resistance_at(log, &s, at_s, &out->resistance_ohm))
        return lw_fail(err, LW_NOT_COMPUTABLE, "at_s",
                       "at_s is %g s, but the pulse was held and sampled from %g to %g s after the step; ask for a "
                       "time between.",
                       at_s, log->times_s[s.first] - s.start_s, out->length_s);
    out->at_2s_ohm = maybe(log, &s, 2.0);
    out->at_10s_ohm = maybe(log, &s, 10.0);
    out->at_20s_ohm = maybe(log, &s, 20.0);
    const lw_pulse_shape shape = {log, s.first, s.last, s.rest_v, s.rest_a, s.start_s};
    out->fitted = lw_pulse_fit(&shape, &out->r0_ohm, &out->r1_ohm, &out->tau_s);
    return true;
}
