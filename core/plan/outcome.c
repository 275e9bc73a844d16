/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What many simulated draws say together: mean, band, share that keeps the wish, months. See lanewick/plan.h.
 */
#include "lanewick/plan.h"

#include "lanewick/stats.h"
#include "lanewick/utc.h"

#include <math.h>

static void months(const lw_nights_summary *draws, size_t n, lw_outcome *out)
{
    for (int m = 0; m < LW_MONTHS; m++) {
        double dark = 0.0, panel = 0.0, load = 0.0, spilled = 0.0;
        for (size_t i = 0; i < n; i++) {
            dark += draws[i].by_month[m];
            panel += (double)draws[i].panel_month_wh[m];
            load += (double)draws[i].load_month_wh[m];
            spilled += (double)draws[i].spilled_month_wh[m];
        }
        const double days = (double)n * lw_days_in_month(LW_COMMON_YEAR, m + 1);
        out->by_month[m] = dark / (double)n;
        out->panel_month_wh[m] = panel / days;
        out->load_month_wh[m] = load / days;
        out->spilled_month_wh[m] = spilled / days;
    }
}

void lw_outcome_of(const lw_nights_summary *draws, size_t n, double wish, double sure_share, double *scratch,
                   lw_outcome *out)
{
    *out = (lw_outcome){.years = (uint32_t)n, .pack_low_c = INFINITY, .pack_high_c = -INFINITY};
    size_t kept = 0;
    for (size_t i = 0; i < n; i++) {
        scratch[i] = draws[i].dark_nights;
        kept += draws[i].dark_nights <= wish ? 1 : 0;
        out->unserved_share += (double)draws[i].unserved_share / (double)n;
        out->lowest_charge_share += (double)draws[i].lowest_charge_share / (double)n;
        out->full_cycles += (double)draws[i].full_cycles / (double)n;
        out->cold_h += (double)draws[i].cold_h / (double)n;
        out->hot_h += (double)draws[i].hot_h / (double)n;
        out->pack_low_c = fmin(out->pack_low_c, (double)draws[i].pack_low_c);
        out->pack_high_c = fmax(out->pack_high_c, (double)draws[i].pack_high_c);
    }
    out->sure_share = (double)kept / (double)n;
    out->dark.mean = lw_mean(scratch, n);
    lw_sort(scratch, n);
    out->dark.low = lw_quantile_sorted(scratch, n, 0.05);
    out->dark.high = lw_quantile_sorted(scratch, n, 0.95);
    out->kept_nights = lw_quantile_sorted(scratch, n, sure_share);
    months(draws, n, out);
}

const double lw_plan_quarter_more = 1.25;

int lw_outcome_limit_month(const lw_outcome *outcome)
{
    int most = 0, poorest = 0;
    double least = INFINITY;
    for (int m = 0; m < LW_MONTHS; m++) {
        if (outcome->by_month[m] > outcome->by_month[most])
            most = m;
        const double spare =
            (outcome->panel_month_wh[m] + outcome->spilled_month_wh[m]) / fmax(1e-6, outcome->load_month_wh[m]);
        if (spare < least) {
            least = spare;
            poorest = m;
        }
    }
    return (outcome->by_month[most] > 0.02 ? most : poorest) + 1;
}

const char *lw_outcome_limit_part(const lw_outcome *more_panel, const lw_outcome *more_pack)
{
    const double a = more_panel->dark.mean, b = more_pack->dark.mean;
    if (fabs(a - b) > 0.05)
        return a < b ? "panel" : "pack";
    return more_panel->unserved_share < more_pack->unserved_share ? "panel" : "pack";
}
