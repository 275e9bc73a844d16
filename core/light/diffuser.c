/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head's light behind its bottle: see lanewick/diffuser.h.
 */
#include "lanewick/diffuser.h"

#include "lanewick/units.h"

#include <math.h>

lw_diffuser lw_diffuser_of(size_t kind, size_t material, double years, double transmittance)
{
    const lw_diffuser_kind *k = lw_diffuser_kind_at(kind);
    const lw_band measured = {transmittance, transmittance, transmittance};
    return (lw_diffuser){.transmittance = isnan(transmittance) ? k->transmittance : measured,
                         .scattered = k->scattered,
                         .round = k->round,
                         .loss_per_year = lw_diffuser_material_at(material)->loss_per_year,
                         .years = years};
}

lw_band lw_diffuser_share(const lw_diffuser *d)
{
    return (lw_band){d->transmittance.low * pow(1.0 - d->loss_per_year.high, d->years),
                     d->transmittance.usual * pow(1.0 - d->loss_per_year.usual, d->years),
                     d->transmittance.high * pow(1.0 - d->loss_per_year.low, d->years)};
}

/* Angles 0 to last_deg in whole degrees, one plane. */
static bool plain_table(double last_deg, lw_arena *arena, double **cd, lw_intensity *out, lw_error *err)
{
    const size_t count = (size_t)last_deg + 1;
    double *angle = lw_arena_take(arena, count, sizeof *angle, err);
    double *plane = lw_arena_take(arena, 1, sizeof *plane, err);
    *cd = lw_arena_take(arena, count, sizeof **cd, err);
    if (!angle || !plane || !*cd)
        return false;
    for (size_t v = 0; v < count; v++)
        angle[v] = (double)v;
    *out = (lw_intensity){count, 1, angle, plane, *cd, LW_SYMMETRY_ROUND};
    return true;
}

bool lw_beam_table(const lw_beam *beam, lw_arena *arena, lw_intensity *out, lw_error *err)
{
    double *cd = NULL;
    if (beam->table) {
        *out = *beam->table;
        return true;
    }
    if (!plain_table(beam->round ? 180.0 : 90.0, arena, &cd, out, err))
        return false;
    for (size_t v = 0; v < out->vertical_count; v++) /* just inside the edge at 90 degree, where the form ends */
        cd[v] = lw_beam_cd(beam, 0.0, beam->round ? (double)v : fmin((double)v, 90.0 - 1e-7));
    return true;
}

/* The scattered part at an angle, of 1 lm. */
static double scattered_cd(const lw_diffuser *d, double gamma_deg)
{
    const double down = fmax(0.0, cos(gamma_deg * lw_radian_per_degree)) / lw_pi;
    return (1.0 - d->round) * down + d->round / (4.0 * lw_pi);
}

/* The bare table's vertical angles, with the whole degrees between them where the scattered light bends, and up to 180
 * when some light goes upward. */
static size_t merged_angles(const lw_diffuser *d, const lw_intensity *bare, double *out)
{
    const double last_bare = bare->vertical_deg[bare->vertical_count - 1];
    const double last = d->scattered * d->round > 0.0 ? 180.0 : last_bare;
    size_t count = 0, next = 0;
    for (double whole = 0.0; whole <= last; whole += 1.0) {
        while (next < bare->vertical_count && bare->vertical_deg[next] < whole)
            out[count++] = bare->vertical_deg[next++];
        if (next < bare->vertical_count && bare->vertical_deg[next] == whole)
            next++;
        out[count++] = whole;
    }
    return count;
}

bool lw_diffuser_table(const lw_diffuser *d, const lw_intensity *bare, lw_arena *arena, lw_intensity *out,
                       lw_error *err)
{
    double *angle = lw_arena_take(arena, bare->vertical_count + 181, sizeof *angle, err);
    if (!angle)
        return false;
    const size_t count = merged_angles(d, bare, angle), planes = bare->horizontal_count;
    double *cd = lw_arena_take(arena, count * planes, sizeof *cd, err);
    if (!cd)
        return false;
    const double share = lw_diffuser_share(d).usual, flux_lm = lw_intensity_flux_lm(bare, 0.0, 180.0);
    for (size_t h = 0; h < planes; h++)
        for (size_t v = 0; v < count; v++)
            cd[h * count + v] =
                share * ((1.0 - d->scattered) * lw_intensity_cd(bare, bare->horizontal_deg[h], angle[v]) +
                         d->scattered * flux_lm * scattered_cd(d, angle[v]));
    *out = (lw_intensity){count, planes, angle, bare->horizontal_deg, cd, bare->symmetry};
    return true;
}
