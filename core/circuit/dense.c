/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Gauss elimination with row pivoting: see dense.h.
 */
#include "dense.h"

#include <math.h>

static void swap_rows(double *matrix, double *right, int n, int i, int k)
{
    for (int j = 0; j < n; j++) {
        const double t = matrix[i * n + j];
        matrix[i * n + j] = matrix[k * n + j];
        matrix[k * n + j] = t;
    }
    const double t = right[i];
    right[i] = right[k];
    right[k] = t;
}

bool lw_dense_solve(double *matrix, double *right, int n)
{
    for (int c = 0; c < n; c++) {
        int best = c;
        for (int r = c + 1; r < n; r++)
            if (fabs(matrix[r * n + c]) > fabs(matrix[best * n + c]))
                best = r;
        if (!(fabs(matrix[best * n + c]) > 1e-30))
            return false;
        if (best != c)
            swap_rows(matrix, right, n, best, c);
        for (int r = c + 1; r < n; r++) {
            const double factor = matrix[r * n + c] / matrix[c * n + c];
            if (factor == 0.0)
                continue;
            for (int j = c; j < n; j++)
                matrix[r * n + j] -= factor * matrix[c * n + j];
            right[r] -= factor * right[c];
        }
    }
    for (int r = n - 1; r >= 0; r--) {
        for (int j = r + 1; j < n; j++)
            right[r] -= matrix[r * n + j] * right[j];
        right[r] /= matrix[r * n + r];
    }
    return true;
}
