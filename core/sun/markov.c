/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Long-run behaviour of the Markov matrices of daily clearness: rows brought to a sum of 1, the stationary shares
 * by repeated multiplication, mean, standard deviation and lag-1 correlation of the middles of the states.
 */
#include "markov.h"

#include <math.h>

enum { TURNS = 200 }; /* the second eigenvalue is below 0.6: 0.6^200 is nothing */

static void normalise(int matrix, double step[LW_MARKOV_STATES][LW_MARKOV_STATES])
{
    for (int i = 0; i < LW_MARKOV_STATES; i++) {
        double sum = 0.0;
        for (int j = 0; j < LW_MARKOV_STATES; j++)
            sum += lw_markov_listed[matrix][i][j];
        for (int j = 0; j < LW_MARKOV_STATES; j++)
            step[i][j] = lw_markov_listed[matrix][i][j] / sum;
    }
}

static void stationary(double step[LW_MARKOV_STATES][LW_MARKOV_STATES], double share[LW_MARKOV_STATES])
{
    for (int i = 0; i < LW_MARKOV_STATES; i++)
        share[i] = 1.0 / LW_MARKOV_STATES;
    for (int turn = 0; turn < TURNS; turn++) {
        double next[LW_MARKOV_STATES] = {0.0};
        for (int i = 0; i < LW_MARKOV_STATES; i++)
            for (int j = 0; j < LW_MARKOV_STATES; j++)
                next[j] += share[i] * step[i][j];
        for (int i = 0; i < LW_MARKOV_STATES; i++)
            share[i] = next[i];
    }
}

static void moments(lw_markov *m)
{
    const double width = (m->high - m->low) / LW_MARKOV_STATES;
    double square = 0.0, product = 0.0;
    m->mean = 0.0;
    for (int i = 0; i < LW_MARKOV_STATES; i++)
        m->mean += m->share[i] * (m->low + (i + 0.5) * width);
    for (int i = 0; i < LW_MARKOV_STATES; i++) {
        const double x = m->low + (i + 0.5) * width - m->mean;
        square += m->share[i] * x * x;
        for (int j = 0; j < LW_MARKOV_STATES; j++)
            product += m->share[i] * m->step[i][j] * x * (m->low + (j + 0.5) * width - m->mean);
    }
    m->sd = sqrt(square);
    m->lag1 = product / square;
}

lw_markov lw_markov_of(int matrix)
{
    lw_markov m = {.low = lw_markov_low[matrix], .high = lw_markov_high[matrix]};
    normalise(matrix, m.step);
    stationary(m.step, m.share);
    moments(&m);
    for (int i = 0; i < LW_MARKOV_STATES; i++) {
        for (int j = 1; j < LW_MARKOV_STATES; j++)
            m.step[i][j] += m.step[i][j - 1];
        m.step[i][LW_MARKOV_STATES - 1] = 1.0;
    }
    return m;
}

int lw_markov_class(double monthly_clearness)
{
    const double steps = (monthly_clearness - 0.30) / 0.05;
    return steps <= 0.0 ? 0 : (steps > 8.0 ? 9 : (int)ceil(steps));
}
