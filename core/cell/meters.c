/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which meter lies: several meters on the same resting cell, and each on one fresh alkaline cell. With three or
 * more the one far from the middle is suspected; with two the fresh cell decides. A meter whose own battery is weak
 * reads too high (common practice: its reference falls and every reading grows).
 */
#include "lanewick/cell_test.h"
#include "lanewick/stats.h"

#include <math.h>
#include <string.h>

/* Fresh alkaline cell, open: common practice. */
static const double fresh_low_v = 1.55, fresh_high_v = 1.65;

static double middle(const double *v, size_t n)
{
    double sorted[LW_MAX_METERS];
    memcpy(sorted, v, n * sizeof *v);
    lw_sort(sorted, n);
    return lw_quantile_sorted(sorted, n, 0.5);
}

static void suspect_by_middle(const double *v, size_t n, lw_meter_check *out)
{
    const double m = middle(v, n);
    double most = 0.0;
    for (size_t i = 0; i < n; i++)
        if (fabs(v[i] - m) > most) {
            most = fabs(v[i] - m);
            out->suspect = (int)i + 1;
            out->reads_high = v[i] > m;
        }
}

static double outside(double v)
{
    return fmax(0.0, fmax(fresh_low_v - v, v - fresh_high_v));
}

static void suspect_by_fresh(const double *fresh_v, size_t n, lw_meter_check *out)
{
    double most = 0.0;
    for (size_t i = 0; i < n; i++)
        if (outside(fresh_v[i]) > most) {
            most = outside(fresh_v[i]);
            out->suspect = (int)i + 1;
            out->reads_high = fresh_v[i] > fresh_high_v;
        }
}

static const char *advise(const lw_meter_check *c)
{
    if (c->agree && c->suspect == 0)
        return "The meters agree: go on.";
    if (c->agree)
        return "The meters agree with one another but not with the fresh cell: try another fresh cell before trusting "
               "any of them.";
    if (c->suspect == 0)
        return "The meters disagree and it cannot be told which one lies: read a fresh alkaline cell with both, or "
               "bring a third meter.";
    if (c->reads_high)
        return "This meter reads too high: change its battery and compare again; take no cell readings with it until "
               "then.";
    return "This meter reads too low: clean its probes and check its leads and range; take no cell readings with it "
           "until it agrees.";
}

bool lw_meters_compare(const double *cell_v, const double *fresh_v, size_t n, const lw_meter *meter,
                       lw_meter_check *out, lw_error *err)
{
    *out = (lw_meter_check){0};
    if (n < 2 || n > LW_MAX_METERS)
        return lw_fail(err, LW_WRONG_INPUT, "cell_v", "cell_v has %zu readings; compare 2 to %d meters.", n,
                       LW_MAX_METERS);
    if (!lw_cell_volts("cell_v", cell_v, n, err) || (fresh_v && !lw_cell_volts("fresh_v", fresh_v, n, err)))
        return false;
    double low = cell_v[0], high = cell_v[0];
    for (size_t i = 1; i < n; i++) {
        low = fmin(low, cell_v[i]);
        high = fmax(high, cell_v[i]);
    }
    out->spread_v = high - low;
    out->allowed_v = 2.0 * lw_meter_limit(meter, high); /* two meters at opposite ends of what their sheets allow */
    out->agree = out->spread_v <= out->allowed_v + 1e-9;
    if (!out->agree && n >= 3)
        suspect_by_middle(cell_v, n, out);
    else if (fresh_v)
        suspect_by_fresh(fresh_v, n, out);
    out->advice = advise(out);
    return true;
}
