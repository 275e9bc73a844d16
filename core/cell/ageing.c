/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fade of a used cell in the years to come. The models start with a new cell; a used one enters at the virtual
 * age at which a new cell under the same life would have its present loss, and goes on from there. Terms of
 * separate periods are never added.
 */
#include "lanewick/ageing.h"

#include "lanewick/roots.h"

#include <math.h>

typedef struct life {
    lw_ageing_model model;
    const lw_stress *stress;
    double loss;
} life;

static lw_fade after(const life *l, double days)
{
    const lw_stress *s = l->stress;
    const double cycles = s->cycles_per_day * days;
    if (l->model == LW_AGEING_LFP)
        return lw_fade_lfp(days, cycles, s->mean_charge, s->cell_c, s->depth, s->rate_per_h);
    /* throughput: charge plus discharge of the model's 2.05 Ah cell */
    return lw_fade_nmc(days, 2.0 * 2.05 * cycles, s->mean_v, s->cell_c, s->cycle_mean_v, s->depth);
}

static double loss_above(double days, const void *payload)
{
    const life *l = payload;
    const lw_fade f = after(l, days);
    return f.calendar + f.cycle - l->loss;
}

void lw_fade_ahead(lw_ageing_model model, const lw_stress *stress, double health_now, double years,
                   double *capacity_factor, double *resistance_factor)
{
    *capacity_factor = 1.0;
    *resistance_factor = 1.0;
    if (model == LW_AGEING_NONE || years <= 0.0)
        return;
    const life l = {model, stress, 1.0 - fmin(fmax(health_now, 0.3), 1.0)};
    const double longest = 100.0 * 365.0;
    double virtual_days = 0.0;
    if (l.loss > 0.0 && !lw_root(loss_above, &l, 0.0, longest, 1e-3, &virtual_days, NULL))
        virtual_days = longest;
    const double knee = 0.2;
    const lw_fade now = after(&l, virtual_days), then = after(&l, virtual_days + 365.0 * years);
    const double loss_then = then.calendar + then.cycle, loss_now = now.calendar + now.cycle;
    /* Beyond the knee every further loss counts twice: none of the models sees it. */
    const double beyond = fmax(0.0, loss_then - fmax(loss_now, knee));
    const double left = fmax(0.05, 1.0 - loss_then - beyond);
    *capacity_factor = fmin(1.0, left / (1.0 - loss_now));
    *resistance_factor =
        fmax(then.resistance_share / now.resistance_share, model == LW_AGEING_LFP ? 1.0 / *capacity_factor : 1.0);
}
