/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the board, the fuse and the strips of a pack must keep. Values are common practice from memory unless a line
 * names more; the hard limits (highest and lowest cell voltage, charging temperatures) come from the voltage class and
 * from cell data sheets and cannot be passed.
 */
#include "lanewick/sharing.h"

#include <math.h>

static const double highest_supply_v = 60.0;          /* extra-low voltage, d.c. */
static const double fuse_low = 1.25, fuse_high = 1.5; /* of the highest steady current */
static const double nickel_a_mm2 = 5.0;               /* nickel strip, common practice */
static const double copper_a_mm2 = 4.0;               /* short copper wire in a box, common practice */
static const double hours_month = 30.0 * 24.0;

/* Windows by class: trip of 4.2 V cells 4.25 to 4.28 V, never above the limit of 4.35 V that a board may have when the
 * charger is the first line; LFP 3.65 to 3.75 V. */
static void set_voltages(const lw_protection_ask *ask, double ceiling_v, lw_protection *out)
{
    const bool lfp = ask->class->nominal_v < 3.4;
    out->charge_v = ask->series * ceiling_v;
    out->over_low_v = lfp ? 3.65 : 4.25;
    out->over_high_v = lfp ? 3.75 : ask->series > 1 ? 4.28 : 4.35;
    out->over_release_v = lfp ? 3.50 : 4.10;
    out->under_low_v = ask->class->floor_v;
    out->under_high_v = ask->class->floor_v + (lfp ? 0.5 : 0.3);
    out->under_release_v = out->under_high_v + 0.2;
    out->lamp_cutoff_v = fmax(ask->class->cutoff_v, out->under_high_v);
    out->balance_start_v = fmin(lfp ? 3.45 : 4.15, ceiling_v - 0.03);
    out->charge_low_c = 0.0; /* cell data sheets: charge 0 to 45 degC */
    out->charge_high_c = 45.0;
}

static void set_currents(const lw_protection_ask *ask, double highest_a, lw_protection *out)
{
    out->overcurrent_low_a = 1.5 * highest_a;
    out->overcurrent_high_a = fmin(2.0 * highest_a, ask->parallel * ask->cell_limit_a);
    out->short_ms = 1.0;
    out->fuse_least_a = fuse_low * highest_a;
    out->fuse_most_a = fmin(fuse_high * 2.0 * highest_a, ask->parallel * ask->cell_limit_a);
    out->fuse_v = out->charge_v;
    out->fuse_breaks_a = ask->pack_ohm > 0.0 ? out->charge_v / ask->pack_ohm : 0.0;
    out->balancing_needed = ask->series > 1;
    const double lost_ah_h = ask->self_discharge_spread_pct_month / 100.0 * ask->group_ah / hours_month;
    out->balance_a = out->balancing_needed && ask->top_hours_per_day > 0.0
                         ? 2.0 * lost_ah_h * 24.0 / ask->top_hours_per_day /* twice: it must catch up, too */
                         : 0.0;
    out->cell_wire_carries_a = ask->parallel >= 3 ? 2.0 * ask->cell_limit_a : 0.0;
    out->strip_mm2 = highest_a / nickel_a_mm2;
    out->wire_mm2 = highest_a / copper_a_mm2;
}

bool lw_protection_limits(const lw_protection_ask *ask, lw_protection *out, lw_error *err)
{
    *out = (lw_protection){0};
    const lw_cell_class *class = ask->class;
    const double ceiling_v = ask->ceiling_v > 0.0 ? ask->ceiling_v : class->ceiling_v;
    const double highest_a = fmax(ask->load_a, ask->charge_a);
    if (ask->series < 1 || ask->parallel < 1)
        return lw_fail(err, LW_WRONG_INPUT, "series", "series is %d and parallel is %d; both are at least 1.",
                       ask->series, ask->parallel);
    if (ceiling_v > class->limit_v)
        return lw_fail(
            err, LW_REFUSED, "ceiling_v",
            "A charge to %.2f V passes the limit of %.2f V of %s cells; set the charger to %.2f V or less a cell.",
            ceiling_v, class->limit_v, class->name, class->ceiling_v);
    if (ceiling_v <= class->cutoff_v)
        return lw_fail(err, LW_WRONG_INPUT, "ceiling_v",
                       "ceiling_v is %.2f V; it must lie above the cut-off of %.2f V.", ceiling_v, class->cutoff_v);
    if (ask->series * ceiling_v > highest_supply_v)
        return lw_fail(
            err, LW_REFUSED, "series",
            "%d groups reach %.1f V; above %.0f V d.c. the supply is no longer extra-low voltage. Use fewer in "
            "series.",
            ask->series, ask->series * ceiling_v, highest_supply_v);
    if (fuse_low * highest_a > ask->parallel * ask->cell_limit_a)
        return lw_fail(
            err, LW_REFUSED, "load_a",
            "A fuse for %.2f A needs %.2f A, more than the %.2f A that %d cells in parallel may give; use more "
            "cells in parallel or a smaller load.",
            highest_a, fuse_low * highest_a, ask->parallel * ask->cell_limit_a, ask->parallel);
    set_voltages(ask, ceiling_v, out);
    set_currents(ask, highest_a, out);
    return true;
}
