/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How cells fade: calendar and cycle parts, entered at the virtual age that gives a used cell's present loss.
 * docs/models/ageing.md: the fits are for new cells of one type; after the knee (below about 80 %) fade speeds up
 * and none of these models sees it.
 */
#ifndef LANEWICK_AGEING_H
#define LANEWICK_AGEING_H

#include <stdbool.h>

/* A steady way of life. */
typedef struct lw_stress {
    double cell_c;         /* temperature that ages as much as the real course */
    double mean_v;         /* NMC: resting voltage most of the time */
    double mean_charge;    /* LFP: share of charge most of the time, 0..1 */
    double cycle_mean_v;   /* NMC: quadratic mean voltage of the cycle */
    double depth;          /* of the usual cycle, 0..1 */
    double cycles_per_day; /* full equivalent cycles (charge + discharge of one capacity) */
    double rate_per_h;     /* LFP: usual current / capacity */
} lw_stress;

typedef struct lw_fade {
    double calendar, cycle;  /* losses as share of the new capacity */
    double capacity_share;   /* 1 - calendar - cycle, not below 0 */
    double resistance_share; /* R / R new; 1 where the model has none */
} lw_fade;

/* Schmalstieg et al. (2014), J. Power Sources 257, 325: NMC 18650, after days of this life from new.
 * throughput_ah: charge plus discharge of a 2.05 Ah cell. */
lw_fade lw_fade_nmc(double days, double throughput_ah, double mean_v, double cell_c, double cycle_mean_v, double depth);
/* Naumann et al. (2018) J. Energy Storage 17, 153 (calendar) and (2020) J. Power Sources 451, 227666 (cycles): LFP. */
lw_fade lw_fade_lfp(double days, double full_cycles, double charge, double cell_c, double depth, double rate_per_h);

typedef enum lw_ageing_model { LW_AGEING_NONE, LW_AGEING_NMC, LW_AGEING_LFP } lw_ageing_model;
/* Further years of a life for a cell whose capacity is now health_now (0.3..1) of new: capacity and resistance
 * afterwards as shares of what they are now. Below 80 % of new the speed is doubled (own caution for the knee). */
void lw_fade_ahead(lw_ageing_model model, const lw_stress *stress, double health_now, double years,
                   double *capacity_factor, double *resistance_factor);

#endif
