/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Constant-resistor discharge: capacity restated to a small current and 25 degC, resistance, and how sure both
 * are. docs/models/cell-tests.md gives the equations.
 *
 *   R_10s = R (V_open / V_first - 1), less what the open voltage itself fell by then
 *   R_end = R (V_rebound / V_last - 1)
 *   C     = Q + (I_end - I_rate) R_end / |dV/dQ|        (first order; more than 5 % of Q is not trusted)
 */
#include "resistor.h"

#include "lanewick/cell_class.h"

#include <math.h>

static const double first_reading_s = 60.0;
static const double typical_slow_ohm = 0.090; /* worn 18650, a minute after the step (range 50..105 mohm) */
static const double slow_over_10s = 1.35;     /* resistance after a minute against 10 s */
static const double largest_share = 0.05;     /* of Q that the first-order correction may be */

static void resistances(const lw_resistor_run *run, const lw_run_sums *sums, lw_resistor_result *out)
{
    const double r = sums->loop_ohm, a = sums->first_v / r;
    if (run->open_before_v.given && sums->first_after_s <= first_reading_s) {
        /* the class's mean slope near the open voltage, for a charge of drawn_ah or more */
        double sag = 0.0;
        const double share = a * sums->first_after_s / 3600.0 / fmax(sums->to_end_ah, 1e-3);
        for (size_t i = 0; i < run->class->curve_count; i++) {
            const lw_cell_curve *curve = run->class->curves[i];
            const double charge = lw_curve_charge(curve, run->open_before_v.value);
            sag += (lw_curve_v(curve, charge) - lw_curve_v(curve, charge - 0.02)) / 0.02 * share;
        }
        sag /= (double)run->class->curve_count;
        const double ohm = (run->open_before_v.value - sag) / a - r;
        const double digit_v = run->meter.digits * run->meter.step / sqrt(3.0);
        const double sd = hypot(hypot(digit_v * sqrt(2.0), 0.5 * sag) / a, ohm * run->load_tolerance_pct / 100.0);
        out->resistance_10s_ohm = (lw_reading){true, ohm};
        out->resistance_10s_sd_ohm = (lw_reading){true, fmax(sd, 1e-4)};
    }
    if (run->open_after_v.given)
        out->resistance_end_ohm = (lw_reading){true, r * (run->open_after_v.value / sums->last_v - 1.0)};
}

static double slow_resistance(const lw_resistor_result *out)
{
    if (out->resistance_end_ohm.given && out->resistance_end_ohm.value > 0.0)
        return out->resistance_end_ohm.value;
    if (out->resistance_10s_ohm.given && out->resistance_10s_ohm.value > 0.0)
        return slow_over_10s * out->resistance_10s_ohm.value;
    return typical_slow_ohm;
}

/* Capacity at rate_a before the temperature; fills correction and remaining. */
static bool complete(const lw_resistor_run *run, const lw_run_sums *sums, double rate_a, lw_resistor_result *out,
                     lw_error *err)
{
    const double slow_ohm = slow_resistance(out);
    out->rate_a = rate_a;
    if (sums->finished) {
        const double end_a = run->end_v / sums->loop_ohm;
        const double ask = (end_a - rate_a) * slow_ohm / -sums->slope_v_ah;
        const double most = largest_share * sums->to_end_ah;
        out->correction_ah = fmin(fmax(ask, -most), most);
        out->capacity_ah = sums->to_end_ah + out->correction_ah;
        return true;
    }
    if (!lw_run_remaining(run, sums, rate_a, slow_ohm, &out->remaining_ah, &out->remaining_sd_ah, err))
        return false;
    out->capacity_ah = sums->to_end_ah + out->remaining_ah;
    return true;
}

/* Standard uncertainty of the capacity; the parts stand in docs/models/cell-tests.md in this order. */
static double capacity_sd(const lw_resistor_run *run, const lw_run_sums *sums, const lw_resistor_result *out)
{
    const double root3 = sqrt(3.0), q = out->capacity_ah;
    const double parts[] = {
        q * run->load_tolerance_pct / 100.0 / root3,
        run->meter_on_load ? 0.0 : q * run->lead_tolerance_ohm / sums->loop_ohm / root3,
        q * lw_meter_sd(&run->meter, sums->mean_v) / sums->mean_v,
        sums->finished ? lw_meter_sd(&run->meter, run->end_v) / -sums->slope_v_ah : 0.0,
        run->clock_s * sqrt(2.0) / root3 * sums->mean_a / 3600.0,
        run->n >= 5 ? (sums->drawn_ah - sums->coarse_ah) / 3.0 : 0.01 * q,
        0.3 * out->correction_ah,
        0.3 * (out->temperature_factor - 1.0) * q,
        out->remaining_sd_ah,
    };
    double sum = 0.0;
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++)
        sum += parts[i] * parts[i];
    return sqrt(sum);
}

static bool check(const lw_resistor_run *run, lw_error *err)
{
    if (run->load_ohm <= 0.0 || run->lead_ohm < 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "load_ohm", "load_ohm is %g ohm; a load has more than 0 ohm.",
                       run->load_ohm);
    if (run->open_before_v.given && !lw_cell_volts("open_before_v", &run->open_before_v.value, 1, err))
        return false;
    if (run->open_after_v.given && !lw_cell_volts("open_after_v", &run->open_after_v.value, 1, err))
        return false;
    if (run->open_before_v.given && run->n && run->open_before_v.value < run->volts_v[0])
        return lw_fail(err, LW_WRONG_INPUT, "open_before_v",
                       "open_before_v is %g V, lower than the %g V first read under load; open voltage is the higher.",
                       run->open_before_v.value, run->volts_v[0]);
    if (run->open_after_v.given && run->n && run->open_after_v.value < run->volts_v[run->n - 1])
        return lw_fail(err, LW_WRONG_INPUT, "open_after_v",
                       "open_after_v is %g V, lower than the last %g V under load; the voltage rises when the load "
                       "is taken off.",
                       run->open_after_v.value, run->volts_v[run->n - 1]);
    return true;
}

bool lw_resistor_discharge(const lw_resistor_run *run, lw_resistor_result *out, lw_error *err)
{
    lw_run_sums sums;
    *out = (lw_resistor_result){0};
    if (!check(run, err) || !lw_run_sum(run, &sums, err))
        return false;
    out->drawn_ah = sums.drawn_ah;
    out->drawn_wh = sums.drawn_wh;
    out->finished = sums.finished;
    resistances(run, &sums, out);
    /* 0.2 C of the capacity that comes out: three rounds settle it to a microampere-hour */
    double rate_a = run->rate_a.given ? run->rate_a.value : 0.2 * sums.drawn_ah;
    for (int round = 0; round < 3; round++) {
        if (!complete(run, &sums, rate_a, out, err))
            return false;
        if (run->rate_a.given)
            break;
        rate_a = 0.2 * out->capacity_ah;
    }
    out->temperature_factor = 1.0 / lw_cell_capacity_share(run->temp_c);
    out->capacity_ah *= out->temperature_factor;
    out->capacity_sd_ah = capacity_sd(run, &sums, out);
    return true;
}
