/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the regression misses, carried from the 24 nearest measured stations by simple kriging (Matheron 1963,
 * Economic Geology 58, 1246): covariance = sill (far exp(-d/far_km) + (1 - far) exp(-d/near_km - (dz/1700 m)^2)), a
 * nugget for each data set. Three quantities: the mean over the year, the deviations of the months, the wildness of the
 * days. Constants: data/climate/fit/kriging.py and fit_days.py (flat optimum, rounded).
 */
#include "climate_inner.h"

#include <math.h>
#include <string.h>

enum { STATIONS = 24 };
static const double height_scale_m = 1700.0;

typedef struct kernel {
    double sill, far, near_km, far_km;
    double nugget[LW_SET_COUNT]; /* standard deviation, by set: other, TMY, TMY2, TMY3, IMGW, IGDG, ETMY */
} kernel;

static const kernel year_part = {0.067 * 0.067, 0.4, 500.0, 2000.0, {0.04, 0.06, 0.025, 0.04, 0.04, 0.03, 0.04}};
static const kernel month_part = {0.060 * 0.060, 0.3, 333.0, 2000.0, {0.06, 0.07, 0.05, 0.09, 0.09, 0.05, 0.06}};
static const kernel day_part = {0.15 * 0.15, 0.3, 300.0, 1500.0, {0.13, 0.13, 0.13, 0.13, 0.13, 0.6, 0.6}};

typedef struct neighbour {
    double x[3], elev_m;
    int set;
    const unsigned char *row;
} neighbour;

static double covariance(const kernel *part, double km, double dz_m)
{
    const double dz = dz_m / height_scale_m;
    return part->sill * (part->far * exp(-km / part->far_km) + (1.0 - part->far) * exp(-km / part->near_km - dz * dz));
}

/* The Italian set of 1951-70 (IGDG) is 15 % below its surroundings: it has a field of its own, of short reach,
 * and tells nothing about the common one. */
static double covariance_alone(const kernel *part, double km)
{
    return 3.0 * part->sill * exp(-km / 120.0);
}

static bool stands_alone(const neighbour *n)
{
    return n->set == LW_SET_IGDG;
}

static double between(const kernel *part, const neighbour *a, const neighbour *b)
{
    if (stands_alone(a) != stands_alone(b))
        return 0.0;
    const double km = lw_chord_km(a->x, b->x);
    return stands_alone(a) ? covariance_alone(part, km) : covariance(part, km, a->elev_m - b->elev_m);
}

/* Solves A w = b in place (lower triangle of A given), Cholesky. A is positive definite: it has a nugget. */
static void solve(double a[STATIONS][STATIONS], size_t n, const double *b, double *w)
{
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j <= i; j++) {
            double sum = a[i][j];
            for (size_t k = 0; k < j; k++)
                sum -= a[i][k] * a[j][k];
            a[i][j] = i == j ? sqrt(sum) : sum / a[j][j];
        }
        w[i] = b[i];
        for (size_t k = 0; k < i; k++)
            w[i] -= a[i][k] * w[k];
        w[i] /= a[i][i];
    }
    for (size_t i = n; i-- > 0;) {
        for (size_t k = i + 1; k < n; k++)
            w[i] -= a[k][i] * w[k];
        w[i] /= a[i][i];
    }
}

/* Weights of the neighbours for the place; returns the variance that remains of the common field. */
static double weights(const kernel *part, const neighbour *place, const neighbour *n, size_t count, double *w)
{
    double a[STATIONS][STATIONS], b[STATIONS] = {0}, variance = part->sill;
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j <= i; j++)
            a[i][j] = between(part, &n[i], &n[j]);
        a[i][i] += part->nugget[n[i].set] * part->nugget[n[i].set];
        const double km = lw_chord_km(n[i].x, place->x);
        b[i] = stands_alone(&n[i]) ? covariance_alone(part, km) : covariance(part, km, n[i].elev_m - place->elev_m);
    }
    solve(a, count, b, w);
    for (size_t i = 0; i < count; i++)
        variance -= stands_alone(&n[i]) ? 0.0 : w[i] * b[i];
    return fmax(variance, 0.0);
}

static double row_mean(const unsigned char *row)
{
    double sum = 0.0;
    for (int m = 0; m < 12; m++)
        sum += lw_i16(row + LW_PACK_RESIDUAL + 2 * m) * 1e-4;
    return sum / 12.0;
}

void lw_climate_residual_at(const lw_climate_data *data, const double x[3], double elev_m, const lw_climate_skip *skip,
                            lw_climate_residual *out)
{
    lw_near near[STATIONS];
    neighbour n[STATIONS], place = {{x[0], x[1], x[2]}, elev_m, LW_SET_OTHER, NULL};
    double year[STATIONS], month[STATIONS], day[STATIONS];
    memset(out, 0, sizeof *out);
    out->count = lw_climate_nearest(data->measured, data->measured_count, LW_PACK_MEASURED, x, skip, STATIONS, near);
    for (size_t i = 0; i < out->count; i++) {
        const int set = near[i].row[LW_PACK_SET];
        n[i] = (neighbour){{0}, lw_i16(near[i].row + 6), set < LW_SET_COUNT ? set : LW_SET_OTHER, near[i].row};
        lw_row_position(near[i].row, n[i].x);
    }
    out->nearest_km = out->count > 0 ? near[0].km : INFINITY;
    out->variance = weights(&year_part, &place, n, out->count, year);
    out->variance += weights(&month_part, &place, n, out->count, month);
    out->day_variance = weights(&day_part, &place, n, out->count, day);
    for (size_t i = 0; i < out->count; i++) {
        const double mean = row_mean(n[i].row);
        for (int m = 0; m < 12; m++)
            out->log_clearness[m] +=
                year[i] * mean + month[i] * (lw_i16(n[i].row + LW_PACK_RESIDUAL + 2 * m) * 1e-4 - mean);
        out->log_day_sd += day[i] * lw_i16(n[i].row + LW_PACK_DAY_RESIDUAL) * 1e-4;
    }
}
