/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner pieces of the ageing models.
 */
#ifndef LANEWICK_CORE_CELL_AGEING_INNER_H
#define LANEWICK_CORE_CELL_AGEING_INNER_H

typedef struct lw_nmc_rates {
    double calendar;     /* per day^0.75 */
    double cycle;        /* per sqrt(Ah) of a 2.05 Ah cell */
    double calendar_ohm; /* per day^0.75 */
    double cycle_ohm;    /* per Ah */
} lw_nmc_rates;
lw_nmc_rates lw_nmc_rates_of(double mean_v, double cell_c, double cycle_mean_v, double depth);
/* Charge plus discharge of the model's cell in full cycles. */
double lw_nmc_throughput_ah(double full_cycles);

typedef struct lw_lfp_rates {
    double calendar; /* per sqrt(second) */
    double cycle;    /* per sqrt(full cycle) */
} lw_lfp_rates;
lw_lfp_rates lw_lfp_rates_of(double charge, double cell_c, double depth, double rate_per_h);

#endif
