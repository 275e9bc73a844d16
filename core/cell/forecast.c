/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Remaining life: the years until the capacity falls to what the lamp needs. The band takes the capacity at the ends of
 * its own 90 % band and the fade faster and slower than the model by a factor: fits for new cells of one type are off
 * by about half on others, and after the knee equal cells spread ever more (coefficient of variation 0.8 % at 92 % of
 * new, 3.3 % at 84 %, 14.5 % at 60 %, computed from the published ageing set of Baumhoefer et al. 2014).
 */
#include "lanewick/forecast.h"

#include "lanewick/roots.h"

#include <math.h>

static const double off_factor = 1.6, off_factor_past_knee = 2.5; /* own choice for the 90 % band */
static const double knee_health = 0.8;
static const double z90 = 1.6448536269514722;

typedef struct wish {
    const lw_life_ask *ask;
    double now_ah, speed;
} wish;

static double above_need(double years, const void *payload)
{
    const wish *w = payload;
    double capacity, resistance;
    const double health = fmin(1.0, w->now_ah / w->ask->new_ah);
    lw_fade_ahead(w->ask->model, &w->ask->stress, health, years * w->speed, &capacity, &resistance);
    return w->now_ah * capacity - w->ask->needed_ah;
}

/* Years for one capacity and speed; 0 when it is below the need already. */
static double years_of(const lw_life_ask *ask, double now_ah, double speed)
{
    const wish w = {ask, now_ah, speed};
    double years = LW_LIFE_MOST;
    if (above_need(0.0, &w) <= 0.0)
        return 0.0;
    if (above_need(LW_LIFE_MOST, &w) > 0.0 || !lw_root(above_need, &w, 0.0, LW_LIFE_MOST, 1e-4, &years, NULL))
        return LW_LIFE_MOST;
    return years;
}

bool lw_remaining_life(const lw_life_ask *ask, lw_life *out, lw_error *err)
{
    *out = (lw_life){0};
    if (!(ask->new_ah > 0.0) || !(ask->capacity_ah.value > 0.0))
        return lw_fail(err, LW_WRONG_INPUT, "new_ah",
                       "The capacities are %g Ah new and %g Ah now; both must be more than 0.", ask->new_ah,
                       ask->capacity_ah.value);
    if (ask->capacity_ah.value <= ask->needed_ah)
        return lw_fail(err, LW_NOT_COMPUTABLE, "needed_ah",
                       "The cell has %.2f Ah, the lamp needs %.2f Ah: nothing is left.", ask->capacity_ah.value,
                       ask->needed_ah);
    out->health = ask->capacity_ah.value / ask->new_ah;
    out->past_knee = out->health < knee_health;
    const double off = out->past_knee ? off_factor_past_knee : off_factor;
    const double half = z90 * ask->capacity_ah.sd;
    out->years = years_of(ask, ask->capacity_ah.value, 1.0);
    out->low_years = years_of(ask, ask->capacity_ah.value - half, off);
    out->high_years = years_of(ask, ask->capacity_ah.value + half, 1.0 / off);
    return true;
}
