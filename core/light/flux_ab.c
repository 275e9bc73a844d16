/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lumens of a table of photometric type A or B (ANSI/IES LM-63, CIE 121): solid angle cos(V) dV dH in type A,
 * cos(H) dV dH in type B; straight lines between the angles.
 */
#include "lanewick/light.h"

#include "lanewick/units.h"

#include <math.h>

typedef struct grid {
    const double *deg; /* the angle that stands under the cosine */
    size_t count;
    const double *across_deg; /* the other one */
    size_t across_count;
} grid;

static double cell(const lw_intensity *table, bool type_a, size_t i, size_t k)
{
    return type_a ? table->candela[k * table->vertical_count + i] : table->candela[i * table->vertical_count + k];
}

/* Integral over the other angle at angle i, by trapezium; a list that begins at 0 shows one half of a mirrored light.
 */
static double across(const lw_intensity *table, bool type_a, const grid *g, size_t i)
{
    double sum = 0.0;
    for (size_t k = 1; k < g->across_count; k++)
        sum += 0.5 * (cell(table, type_a, i, k) + cell(table, type_a, i, k - 1)) *
               (g->across_deg[k] - g->across_deg[k - 1]) * lw_radian_per_degree;
    return g->across_deg[0] == 0.0 ? 2.0 * sum : sum;
}

double lw_intensity_flux_ab_lm(const lw_intensity *table, bool type_a)
{
    const grid vertical_first = {table->vertical_deg, table->vertical_count, table->horizontal_deg,
                                 table->horizontal_count};
    const grid horizontal_first = {table->horizontal_deg, table->horizontal_count, table->vertical_deg,
                                   table->vertical_count};
    const grid *g = type_a ? &vertical_first : &horizontal_first;
    double flux = 0.0;
    for (size_t i = 1; i < g->count; i++) {
        const double a = g->deg[i - 1] * lw_radian_per_degree, b = g->deg[i] * lw_radian_per_degree;
        const double ia = across(table, type_a, g, i - 1), ib = across(table, type_a, g, i);
        const double slope = (ib - ia) / (b - a);
        flux += ib * sin(b) - ia * sin(a) + slope * (cos(b) - cos(a));
    }
    return g->deg[0] == 0.0 ? 2.0 * flux : flux;
}
