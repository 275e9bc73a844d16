/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure dust: light that dust on the panel takes over a year.
 */
#include "lanewick/dust.h"
#include "lanewick/figure.h"
#include "lanewick/utc.h"

enum { LOSS_PER_DAY_PCT, MOST_PCT, WASH_RAIN_MM, CLEAN_EVERY_DAYS, RAIN_MM };
static const lw_input inputs[] = {
    [LOSS_PER_DAY_PCT] = {"loss_per_day_pct", "%",
                          "light lost more with each dry day: 0.1 mild, 0.4 dusty dry season, 1 beside an earth road",
                          LW_NUMBER, 0, 5, NULL, "0.2", 0, 0},
    [MOST_PCT] = {"most_pct", "%", "the loss does not grow beyond this", LW_NUMBER, 0, 90, NULL, "25", 0, 0},
    [WASH_RAIN_MM] = {"wash_rain_mm", "mm", "rain of a day that washes the glass", LW_NUMBER, 0.1, 100, NULL, "5", 0,
                      0},
    [CLEAN_EVERY_DAYS] = {"clean_every_days", "days", "the keeper wipes the glass; 0: never", LW_INTEGER, 0, 365, NULL,
                          "30", 0, 0},
    [RAIN_MM] = {"rain_mm", "mm", "rain of each of the 365 days; left out: none", LW_NUMBERS, 0, 2000, NULL, "", 365,
                 365},
};

enum { MEAN_LOSS_PCT, WORST_LOSS_PCT, WORST_DAY, MONTH_LOSS_PCT };
static const lw_output outputs[] = {
    [MEAN_LOSS_PCT] = {"mean_loss_pct", "%", "over the year", LW_NUMBER},
    [WORST_LOSS_PCT] = {"worst_loss_pct", "%", "on the dirtiest day", LW_NUMBER},
    [WORST_DAY] = {"worst_day", "", "that day of the year", LW_INTEGER},
    [MONTH_LOSS_PCT] = {"month_loss_pct", "%", "mean of each month", LW_NUMBERS},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const lw_dust dust = {.loss_per_day = in[LOSS_PER_DAY_PCT].number / 100.0,
                          .most = in[MOST_PCT].number / 100.0,
                          .wash_rain_mm = in[WASH_RAIN_MM].number,
                          .clean_every_days = (int)in[CLEAN_EVERY_DAYS].number};
    static const double dry[LW_DAYS];
    double factor[LW_DAYS], sum = 0.0;
    double *month_pct = lw_arena_take(arena, LW_MONTHS, sizeof *month_pct, err);
    if (!month_pct)
        return false;
    lw_dust_year(&dust, in[RAIN_MM].given ? in[RAIN_MM].list : dry, factor);
    int worst = 0;
    for (int day = 0; day < LW_DAYS; day++) {
        const int month = lw_month_of_day(day);
        sum += 1.0 - factor[day];
        month_pct[month - 1] += 100.0 * (1.0 - factor[day]) / lw_days_in_month(2026, month);
        worst = factor[day] < factor[worst] ? day : worst;
    }
    out[MEAN_LOSS_PCT] = lw_value_number(100.0 * sum / LW_DAYS);
    out[WORST_LOSS_PCT] = lw_value_number(100.0 * (1.0 - factor[worst]));
    out[WORST_DAY] = lw_value_integer(worst + 1);
    out[MONTH_LOSS_PCT] = lw_value_list(month_pct, LW_MONTHS);
    return true;
}

const lw_figure lw_fig_dust = {
    .name = "dust",
    .room = "sun",
    .summary = "Light lost to dust on the panel over a year, washed by rain or by the keeper.",
    .source = "linear growth with washing, after Kimber et al. (2006) (from memory); rates: common practice",
    .limits = "The dirtiest days are often sunny ones; what counts is the first cloudy month after a long dry spell.",
    .example = "loss_per_day_pct=0.4 clean_every_days=60",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
