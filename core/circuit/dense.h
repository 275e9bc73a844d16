/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A small dense system of linear equations.
 */
#ifndef LANEWICK_DENSE_H
#define LANEWICK_DENSE_H

#include <stdbool.h>

/* Solves the n x n system in place: matrix[row * n + column] is destroyed, right becomes the solution. Gauss with row
 * pivoting. False when a pivot is nothing. */
bool lw_dense_solve(double *matrix, double *right, int n);

#endif
