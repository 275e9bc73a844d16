/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ten Markov matrices of daily clearness (Aguiar, Collares-Pereira & Conde 1988, Solar Energy 40, 269): ten
 * equal states between two edges; today's state is the row, tomorrow's the column.
 */
#ifndef LANEWICK_MARKOV_H
#define LANEWICK_MARKOV_H

enum { LW_MARKOV_MATRICES = 10, LW_MARKOV_STATES = 10 };

extern const double lw_markov_low[LW_MARKOV_MATRICES];  /* lowest state's edge, clearness */
extern const double lw_markov_high[LW_MARKOV_MATRICES]; /* highest state's edge */
/* As published, rounded to three places: a row sums to 1 within 0.003. */
extern const double lw_markov_listed[LW_MARKOV_MATRICES][LW_MARKOV_STATES][LW_MARKOV_STATES];

/* What a matrix implies in the long run. */
typedef struct lw_markov {
    double step[LW_MARKOV_STATES][LW_MARKOV_STATES]; /* cumulated rows, each ending in exactly 1 */
    double share[LW_MARKOV_STATES];                  /* of days in each state */
    double low, high;
    double mean, sd, lag1; /* of the middles of the states */
} lw_markov;

/* matrix 0..9, counted from 0 as in the tables above. */
lw_markov lw_markov_of(int matrix);

/* The matrix that stands for a monthly mean clearness: steps of 0.05 from 0.30. */
int lw_markov_class(double monthly_clearness);

#endif
