/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nights in plain words: a summary, one line a month, the dark nights one by one.
 */
#include "nights_print.h"

#include "cli.h"
#include "lanewick/utc.h"

#include <stdio.h>

static const char *const month_names[LW_MONTHS] = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};

enum { LISTED = 40, BAR = 31 };

static void bar(double count)
{
    for (int i = 0; i < BAR && i + 0.5 <= count; i++)
        (void)putchar('#');
    (void)putchar('\n');
}

static void summary(const lw_nights *n)
{
    lw_cli_print("Dark nights           %d in the year%s\n", n->dark_nights,
                 n->dark_nights == 0 ? ": the lamp gives its light every night" : "");
    lw_cli_print("Light not given       %.3f %% of what is wanted\n", 100.0 * n->unserved_share);
    lw_cli_print("Lowest charge         %.1f %% of the pack\n", 100.0 * n->lowest_charge_share);
    lw_cli_print("Pack temperature      %.0f to %.0f degC, mean %.0f\n", n->pack_low_c, n->pack_high_c, n->pack_mean_c);
    if (n->cold_h > 0.0 || n->hot_h > 0.0)
        lw_cli_print(
            "Charging not allowed  %.0f h too cold, %.0f h too hot. A lithium cell must not be charged there.\n",
            n->cold_h, n->hot_h);
    lw_cli_print("Pack use              %.0f full cycles a year, daily swing %.0f %%\n", n->full_cycles,
                 100.0 * n->mean_depth);
}

static void months(const lw_nights *n)
{
    lw_cli_print("\nmonth   night h   panel Wh/d   used Wh/d   no room Wh/d   dark\n");
    int day = 0;
    for (int m = 0; m < LW_MONTHS; m++) {
        double night_h = 0.0;
        for (int d = 0; d < lw_days_in_month(LW_COMMON_YEAR, m + 1); d++)
            night_h += n->wanted_h[day++] / lw_days_in_month(LW_COMMON_YEAR, m + 1);
        (void)printf("%s     %8.2f   %10.1f  %10.1f   %12.1f   %4d  ", month_names[m], night_h,
                     n->panel_wh[m] / lw_days_in_month(LW_COMMON_YEAR, m + 1),
                     n->load_wh[m] / lw_days_in_month(LW_COMMON_YEAR, m + 1),
                     n->spilled_wh[m] / lw_days_in_month(LW_COMMON_YEAR, m + 1), n->by_month[m]);
        bar(n->by_month[m]);
    }
}

void lw_print_nights(const lw_system *system, const lw_weather_year *year, const lw_nights *nights)
{
    (void)printf("%s\nat %s (%.2f, %.2f)\n\n", system->name,
                 year->station[0] ? year->station : "the weather file's place", year->lat_deg, year->lon_deg);
    lw_cli_print("Panel and pack        %.1f W, %.1f Wh usable\n", lw_panel_standard_w(&system->panel),
                 lw_battery_usable_wh(&system->battery));
    summary(nights);
    months(nights);
    if (nights->dark_nights == 0)
        return;
    lw_cli_print("\nevening   hours missing   Wh missing   lowest charge\n");
    int listed = 0;
    for (int d = 0; d < LW_DAYS && listed < LISTED; d++) {
        if (!nights->dark[d])
            continue;
        char date[6];
        lw_day_text(d, date);
        (void)printf("%s     %6.2f of %5.2f   %10.2f        %5.1f %%\n", date, nights->missing_h[d],
                     nights->wanted_h[d], nights->missing_wh[d], 100.0 * nights->lowest_share[d]);
        listed++;
    }
    if (nights->dark_nights > LISTED)
        lw_cli_print("... and %d more; --json lists them all.\n", nights->dark_nights - LISTED);
}

void lw_print_night_draws(const lw_night_draws *request, const lw_nights_summary *summaries, const lw_dark_band *band)
{
    double by_month[LW_MONTHS] = {0.0}, unserved = 0.0, panel[LW_MONTHS] = {0.0}, load[LW_MONTHS] = {0.0};
    uint32_t without = 0;
    for (uint32_t y = 0; y < request->years; y++) {
        for (int m = 0; m < LW_MONTHS; m++) {
            by_month[m] += summaries[y].by_month[m] / (double)request->years;
            panel[m] += (double)summaries[y].panel_month_wh[m] / request->years;
            load[m] += (double)summaries[y].load_month_wh[m] / request->years;
        }
        unserved += (double)summaries[y].unserved_share / request->years;
        without += summaries[y].dark_nights == 0;
    }
    (void)printf("%s\nat %.2f, %.2f: %s\n\n", request->system->name, request->climate->lat_deg,
                 request->climate->lon_deg, request->climate->basis);
    lw_cli_print("Dark nights a year    %.1f on average over %u years of made weather\n", band->mean, request->years);
    lw_cli_print("%2.0f of 100 years       between %.0f and %.0f dark nights\n", 100.0 * request->confidence, band->low,
                 band->high);
    lw_cli_print("Years without any     %u of %u\n", without, request->years);
    lw_cli_print("Light not given       %.3f %% of what is wanted\n", 100.0 * unserved);
    lw_cli_print("\nmonth   panel Wh/d   used Wh/d   dark nights\n");
    for (int m = 0; m < LW_MONTHS; m++) {
        (void)printf("%s      %9.1f   %9.1f   %8.2f  ", month_names[m],
                     panel[m] / lw_days_in_month(LW_COMMON_YEAR, m + 1),
                     load[m] / lw_days_in_month(LW_COMMON_YEAR, m + 1), by_month[m]);
        bar(by_month[m]);
    }
    lw_cli_print("\nTypical years understate bad ones; docs/models/nights.md says what these numbers hold.\n");
}
