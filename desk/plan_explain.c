/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Why the chosen lamps are as they are: the month and the part that limit them, what a little more would bring, how
 * the years ahead look, and what to buy or trim where the wish is missed. All by simulation of the chosen lamp with
 * one thing changed.
 */
#include "plan_work.h"

#include "lanewick/stats.h"
#include "lanewick/utc.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { MORE_PANEL, MORE_PACK, DIM, TRIM, WHAT_IFS };

static void nights_of_month(const double *dark, double night_h[LW_MONTHS])
{
    int day = 0;
    for (int m = 0; m < LW_MONTHS; m++) {
        night_h[m] = 0.0;
        for (int d = 0; d < lw_days_in_month(LW_COMMON_YEAR, m + 1); d++, day++)
            for (int h = 0; h < 24; h++)
                night_h[m] += dark[day * 24 + h] / lw_days_in_month(LW_COMMON_YEAR, m + 1);
    }
}

static void set_what_if(lw_what_if *out, const lw_trial *trial, const char *what)
{
    (void)snprintf(out->what, sizeof out->what, "%s", what);
    out->dark = trial->outcome.dark;
    out->given = true;
}

static bool what_ifs(lw_plan_work *work, lw_plan_kind *kind, bool first, lw_error *err)
{
    const lw_want *want = &work->brief->want;
    const lw_shelf *shelf = &work->brief->shelf;
    lw_trial trials[WHAT_IFS];
    char what[96];
    for (int i = 0; i < WHAT_IFS; i++)
        trials[i] = lw_trial_of(work, kind->kind, &kind->design, LW_WORK_BLOCKS);
    trials[MORE_PANEL].panel_scale = lw_plan_quarter_more;
    trials[MORE_PACK].pack_scale = lw_plan_quarter_more;
    trials[DIM].dims = true;
    const bool can_dim = shelf->driver[kind->design.driver].dims || want->least_late_level <= 0.0;
    const bool trim = want->least_late_level < 1.0 && !kind->design.trimmed && can_dim;
    trials[TRIM].design.trimmed = trim || kind->design.trimmed;
    if (!lw_work_run(work, trials, !first ? DIM : trim ? WHAT_IFS : TRIM, err))
        return false;
    (void)snprintf(what, sizeof what, "a quarter more panel (%.3g W instead of %.3g W)",
                   lw_plan_quarter_more * lw_design_panel_w(shelf, &kind->design),
                   lw_design_panel_w(shelf, &kind->design));
    set_what_if(&kind->more_panel, &trials[MORE_PANEL], what);
    (void)snprintf(what, sizeof what, "a quarter more pack (%.0f Wh instead of %.0f Wh)",
                   lw_plan_quarter_more * lw_design_pack_wh(shelf, &kind->design),
                   lw_design_pack_wh(shelf, &kind->design));
    set_what_if(&kind->more_pack, &trials[MORE_PACK], what);
    if (first && !want->dims && !want->hand_switch && shelf->driver[kind->design.driver].dims)
        set_what_if(&kind->dim, &trials[DIM], "half light while the pack is below 30 %");
    if (first && trim) {
        (void)snprintf(what, sizeof what, "late light turned down to %.0f %%", 100.0 * want->least_late_level);
        set_what_if(&kind->trim, &trials[TRIM], what);
    }
    kind->limit_month = lw_outcome_limit_month(&kind->outcome);
    (void)snprintf(kind->limit_what, sizeof kind->limit_what, "%s",
                   lw_outcome_limit_part(&trials[MORE_PANEL].outcome, &trials[MORE_PACK].outcome));
    return true;
}

/* A lamp whose case was clear early is simulated in full now. */
static bool in_full(lw_plan_work *work, lw_plan_kind *kind, lw_error *err)
{
    if (kind->outcome.years >= LW_WORK_BLOCKS * LW_LANES)
        return true;
    lw_trial trial = lw_trial_of(work, kind->kind, &kind->design, LW_WORK_BLOCKS);
    if (!lw_work_run(work, &trial, 1, err))
        return false;
    kind->outcome = trial.outcome;
    return true;
}

/* The years before the last, and the last as already simulated. */
static bool years_ahead(lw_plan_work *work, lw_plan_kind *kind, lw_error *err)
{
    lw_trial trials[LW_PLAN_YEARS];
    const size_t years = (size_t)fmin(LW_PLAN_YEARS, ceil(work->brief->want.planned_years));
    for (size_t i = 0; i < years; i++) {
        trials[i] = lw_trial_of(work, kind->kind, &kind->design, i + 1 < years ? LW_WORK_BLOCKS : 1);
        trials[i].year = i + 1 < years ? (double)(i + 1) : work->brief->want.planned_years;
    }
    if (!lw_work_run(work, trials, years, err))
        return false;
    for (size_t i = 0; i < years; i++)
        kind->ahead[i] = (lw_year_ahead){trials[i].year, trials[i].capacity_share,
                                         i + 1 < years ? trials[i].outcome.dark : kind->outcome.dark};
    kind->ahead_count = years;
    return true;
}

/* Smallest of rising steps that keeps the wish, or 0. */
static double first_that_keeps(const lw_trial *trials, const double *steps, size_t n, double sure_share)
{
    for (size_t i = 0; i < n; i++)
        if (trials[i].outcome.sure_share >= sure_share)
            return steps[i];
    return 0.0;
}

static bool how_near(lw_plan_work *work, lw_plan_kind *kind, lw_error *err)
{
    static const double more[] = {1.25, 1.5, 2.0, 2.5, 3.0, 4.0}, less[] = {0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3};
    enum { MORE = 6, LESS = 7 };
    const lw_want *want = &work->brief->want;
    lw_trial trials[2 * MORE + LESS];
    for (size_t i = 0; i < 2 * MORE + LESS; i++)
        trials[i] = lw_trial_of(work, kind->kind, &kind->design, LW_WORK_BLOCKS);
    for (size_t i = 0; i < MORE; i++) {
        trials[i].panel_scale = more[i];
        trials[MORE + i].panel_scale = more[i];
        trials[MORE + i].pack_scale = more[i];
    }
    for (size_t i = 0; i < LESS; i++)
        trials[2 * MORE + i].load_scale = less[i];
    if (!lw_work_run(work, trials, 2 * MORE + LESS, err))
        return false;
    const double panel = first_that_keeps(trials, more, MORE, want->sure_share);
    const double both = first_that_keeps(trials + MORE, more, MORE, want->sure_share);
    const double light = first_that_keeps(trials + 2 * MORE, less, LESS, want->sure_share);
    const double watts = lw_design_panel_w(&work->brief->shelf, &kind->design);
    const double wh = lw_design_pack_wh(&work->brief->shelf, &kind->design);
    char buy[120], trim[80] = "";
    if (panel > 0.0 && panel <= both * 1.5)
        (void)snprintf(buy, sizeof buy, "buy %.3g W of panel instead of %.3g W", panel * watts, watts);
    else
        (void)snprintf(buy, sizeof buy, "buy %.3g W of panel and %.0f Wh of pack instead of %.3g W and %.0f Wh",
                       both * watts, both * wh, watts, wh);
    if (light > 0.0)
        (void)snprintf(trim, sizeof trim, "turn all light down to %.0f %%", 100.0 * light);
    if (both <= 0.0 && light <= 0.0)
        (void)snprintf(
            kind->near, sizeof kind->near,
            "Four times the panel and pack would not keep the wish, nor would light at 30 %%: the sun is away "
            "for too long.");
    else
        (void)snprintf(kind->near, sizeof kind->near,
                       both > 0.0 && light > 0.0 ? "To keep the wish, %s, or %s." : "To keep the wish, %s%s.",
                       both > 0.0 ? buy : "", trim);
    return true;
}

/* Sun in the plane of the panel behind glass and dirt, mean day of each month [kWh/m2]. */
static void month_sun(const lw_plan_work *work, double sun[LW_MONTHS])
{
    for (int m = 0, h = 0; m < LW_MONTHS; m++) {
        double sum = 0.0;
        const int end = h + 24 * lw_days_in_month(LW_COMMON_YEAR, m + 1);
        for (; h < end; h++)
            for (int i = 0; i < LW_LANES; i++)
                sum += (double)work->drive[0].light_w_m2[h][i];
        sun[m] = sum / (LW_LANES * lw_days_in_month(LW_COMMON_YEAR, m + 1)) / 1000.0;
    }
}

/* The textbook's answer: three nights of store to 80 % depth; of the rated panel energy, glass and dirt being counted
 * already, 60 % reaches the lamp with the usual reserve of a fifth (common practice). */
static void textbook(const lw_plan_work *work, lw_plan_kind *kind)
{
    double sun[LW_MONTHS];
    month_sun(work, sun);
    kind->textbook = lw_worst_month_size(kind->outcome.load_month_wh, sun, 0.6, 3.0, 0.8);
}

/* The chosen lamp through the brief's own year. */
static bool own_year(lw_plan_work *work, lw_plan_kind *kind, lw_error *err)
{
    if (!work->file_year)
        return true;
    lw_trial trial = lw_trial_of(work, kind->kind, &kind->design, 1);
    return lw_work_own_year(work, &trial, &kind->file_dark_nights, err);
}

bool lw_work_explain(lw_plan_work *work, lw_error *err)
{
    lw_plan *plan = work->plan;
    const lw_place *place = &work->brief->place;
    double *dark = lw_arena_take(&work->arena, LW_HOURS, sizeof *dark, err);
    if (!dark || !lw_dark_shares(place->lat_deg, place->lon_deg, place->utc_offset_h, LW_SUN_SPENCER_DAILY,
                                 work->brief->want.dusk_sun_deg, 0, dark, err))
        return false;
    for (size_t i = 0; i < plan->kind_count; i++) {
        lw_plan_kind *kind = &plan->kind[i];
        nights_of_month(dark, kind->night_h);
        kind->load_wh_night = lw_mean(kind->outcome.load_month_wh, LW_MONTHS);
        textbook(work, kind);
        /* Cures are told once for each kind of lamp. */
        const bool first = i == 0 || plan->kind[i - 1].kind != kind->kind;
        if (!in_full(work, kind, err) || !what_ifs(work, kind, first, err) || !years_ahead(work, kind, err) ||
            !own_year(work, kind, err) || (!kind->keeps && !how_near(work, kind, err)))
            return false;
        lw_work_tell(work, 0.75 + 0.25 * (double)(i + 1) / (double)plan->kind_count, "reasons");
    }
    return true;
}
