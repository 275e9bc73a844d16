/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A beam in numbers: see lanewick/diffuser.h.
 */
#include "lanewick/diffuser.h"

#include <math.h>

/* Most cd per 1000 lm at and beyond 70, 80, 90 degree; classes 4 to 6 also dark above 95 or 90 degree. */
static const struct {
    double at_70, at_80, at_90, dark_from_deg;
} glare_classes[] = {
    {INFINITY, 200.0, 50.0, INFINITY}, {INFINITY, 150.0, 30.0, INFINITY}, {INFINITY, 100.0, 20.0, INFINITY},
    {500.0, 100.0, 10.0, 95.0},        {350.0, 100.0, 10.0, 95.0},        {350.0, 100.0, 0.0, 90.0},
};
enum { GLARE_CLASSES = sizeof glare_classes / sizeof glare_classes[0] };

/* Largest intensity at and beyond an angle, half a degree apart, over all planes. */
static double most_beyond_cd(const lw_intensity *table, double from_deg)
{
    double most = 0.0;
    for (double gamma = from_deg; gamma <= 180.0; gamma += 0.5)
        for (size_t h = 0; h < table->horizontal_count; h++)
            most = fmax(most, lw_intensity_cd(table, table->horizontal_deg[h], gamma));
    return most;
}

static int glare_class(const lw_intensity *table, double lumens)
{
    const double per_klm = lumens > 0.0 ? 1000.0 / lumens : 0.0, nothing = 0.05;
    const double at_70 = most_beyond_cd(table, 70.0) * per_klm, at_80 = most_beyond_cd(table, 80.0) * per_klm;
    const double at_90 = most_beyond_cd(table, 90.0) * per_klm, at_95 = most_beyond_cd(table, 95.0) * per_klm;
    for (int i = GLARE_CLASSES - 1; i >= 0; i--) {
        const double dark = glare_classes[i].dark_from_deg == 95.0 ? at_95 : 0.0;
        if (at_70 <= glare_classes[i].at_70 && at_80 <= glare_classes[i].at_80 &&
            at_90 <= glare_classes[i].at_90 + nothing && dark <= nothing)
            return i + 1;
    }
    return 0;
}

static double mean_cd(const lw_intensity *table, double gamma_deg)
{
    enum { PLANES = 72 };
    double sum = 0.0;
    for (int i = 0; i < PLANES; i++)
        sum += lw_intensity_cd(table, 360.0 * i / PLANES, gamma_deg) / PLANES;
    return sum;
}

/* First angle at which the mean has fallen to half of straight below; 180 when it does not, 0 when it is dark there. */
static double half_deg(const lw_intensity *table)
{
    const double step = 0.1, half = 0.5 * mean_cd(table, 0.0);
    double gamma = 0.0;
    while (half > 0.0 && gamma < 180.0 && mean_cd(table, gamma) >= half)
        gamma += step;
    return fmin(gamma, 180.0);
}

lw_beam_numbers lw_beam_numbers_of(const lw_intensity *table)
{
    static const double edges_deg[] = {0.0, 30.0, 60.0, 80.0, 90.0, 180.0};
    lw_beam_numbers out = {.lumens = lw_intensity_flux_lm(table, 0.0, 180.0), .peak_cd = lw_intensity_peak_cd(table)};
    for (int i = 0; i < 5; i++)
        out.zone_lm[i] = lw_intensity_flux_lm(table, edges_deg[i], edges_deg[i + 1]);
    out.upward_share = out.lumens > 0.0 ? out.zone_lm[4] / out.lumens : 0.0;
    out.half_deg = half_deg(table);
    out.glare_class = glare_class(table, out.lumens);
    return out;
}
