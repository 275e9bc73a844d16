/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The box: one lump of heat between sun, air and what works inside.
 */
#include "model.h"

#include <math.h>

lw_box lw_box_default(void)
{
    /* A grey box of 0.2 x 0.15 x 0.12 m, half in the sun, on a mast; figures of common practice. */
    return (lw_box){.follows_air = false,
                    .sunlit_m2 = 0.02,
                    .absorptance = 0.6,
                    .surface_m2 = 0.14,
                    .loss_w_m2k = 8.0,
                    .vent_w_k = 0.3,
                    .heat_capacity_j_k = 1500.0,
                    .charger_heat_share = 0.03,
                    .night_heat_w = 0.0};
}

double lw_box_target_c(const lw_system *system, double array_w, double air_c, double ghi_w_m2, double level)
{
    const lw_box *box = &system->box;
    if (box->follows_air)
        return air_c;
    const double loss_w_k = box->surface_m2 * box->loss_w_m2k + box->vent_w_k;
    const double sun_w = box->sunlit_m2 * box->absorptance * ghi_w_m2;
    const double own_w = box->charger_heat_share * array_w * ghi_w_m2 / 1000.0 + box->night_heat_w * level;
    return air_c + (sun_w + own_w) / loss_w_k;
}

double lw_box_hour_share(const lw_box *box)
{
    if (box->follows_air || box->heat_capacity_j_k <= 0.0)
        return 1.0;
    const double loss_w_k = box->surface_m2 * box->loss_w_m2k + box->vent_w_k;
    return 1.0 - exp(-3600.0 * loss_w_k / box->heat_capacity_j_k);
}
