/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Search for the smallest pack that keeps a wish, in the form set - step - converged: the caller runs the night
 * simulations (in threads, showing progress) and tells their results; the search only decides what to ask next.
 *
 * A line is one way of building a lamp (panel, charger, cells in series, ...) with the number of parallel cells
 * left open. More cells in parallel never make more dark nights, so each line is bracketed by doubling from a first
 * guess and then halved: about log2(most) simulations a line. Lines are independent of one another, so all
 * unfinished lines are asked in one batch.
 *
 *     lw_sizing_line lines[2] = {{.guess = 4, .most = 12}, {.guess = 2, .most = 12}};
 *     for (size_t n; (n = lw_sizing_step(lines, 2, asks)) > 0;)
 *         for (size_t i = 0; i < n; i++)
 *             lw_sizing_tell(&lines[asks[i].line], asks[i].parallel, keeps_the_wish(asks[i]));
 */
#ifndef LANEWICK_SIZING_H
#define LANEWICK_SIZING_H

#include <stdbool.h>
#include <stddef.h>

typedef struct lw_sizing_line {
    int guess, most;  /* set by the caller, 1 <= guess <= most: tried first, largest possible */
    int fails, keeps; /* largest known to fail (0: none), smallest known to keep the wish (0: none) */
} lw_sizing_line;

typedef struct lw_sizing_ask {
    size_t line;
    int parallel;
} lw_sizing_ask;

/* What to simulate now: at most one for each unfinished line; 0: converged. asks[count]. */
size_t lw_sizing_step(const lw_sizing_line *lines, size_t count, lw_sizing_ask *asks);
void lw_sizing_tell(lw_sizing_line *line, int parallel, bool keeps);
bool lw_sizing_line_done(const lw_sizing_line *line);
/* Smallest number that keeps the wish, 0 when even the most does not. Of a finished line. */
int lw_sizing_answer(const lw_sizing_line *line);

/* Pack [Wh] and panel [W] of the textbook worst-month method, for comparison and as a first guess: the month
 * with the largest load / sun sizes the panel, the nights of autonomy the pack (Duffie & Beckman, Solar Engineering of
 * Thermal Processes, chapter on design of photovoltaic systems; sizes of IEEE 1562-2021 in spirit, numbers from
 * memory).
 * load_wh_day and sun_kwh_m2_day (in the plane of the panel): means of each month; performance: share of the
 * rated panel energy that reaches the load (0..1); depth: usable share of the pack. */
typedef struct lw_worst_month {
    int month; /* 1..12 */
    double panel_w, pack_wh;
} lw_worst_month;
lw_worst_month lw_worst_month_size(const double load_wh_day[12], const double sun_kwh_m2_day[12], double performance,
                                   double nights, double depth);

#endif
