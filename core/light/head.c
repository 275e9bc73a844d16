/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head worked out from what a workshop knows of it: see lanewick/head.h.
 */
#include "lanewick/head.h"

#include "lanewick/units.h"

#include <math.h>

bool lw_head_is_plain(const lw_head *head)
{
    return !head->intensity_file[0] && head->reading_count == 0 && !head->has_diffuser;
}

/* Readings as candela; the light that is there without the head is taken off. */
static bool candela_of(const lw_head *head, double *cd, lw_error *err)
{
    for (size_t i = 0; i < head->reading_count; i++) {
        if (i > 0 && !(head->angle_deg[i] > head->angle_deg[i - 1]))
            return lw_fail(err, LW_WRONG_INPUT, "angle_deg",
                           "angle_deg must rise: %g comes after %g. Put the readings in order and take the mean of two "
                           "at one angle.",
                           head->angle_deg[i], head->angle_deg[i - 1]);
        if (head->lux_lx[i] < head->dark_lx)
            return lw_fail(err, LW_WRONG_INPUT, "lux_lx",
                           "Reading %zu is %g lx, less than the %g lx without the head. Measure on a darker night.",
                           i + 1, head->lux_lx[i], head->dark_lx);
        cd[i] = (head->lux_lx[i] - head->dark_lx) * head->distance_m * head->distance_m;
    }
    return true;
}

/* Straight lines between the readings, to 0 at 90 degree where they stop earlier. One standard deviation of the lumens:
 * the meter's scale moves all readings alike. */
static bool table_as_read(const lw_head *head, const double *cd, lw_arena *arena, lw_head_light *out, lw_error *err)
{
    const size_t n = head->reading_count;
    const double last = head->angle_deg[n - 1];
    if (head->angle_deg[0] != 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "angle_deg", "The first angle is %g; begin straight below, at 0 degree.",
                       head->angle_deg[0]);
    double *angle = lw_arena_take(arena, n + 1, sizeof *angle, err);
    double *table = lw_arena_take(arena, n + 1, sizeof *table, err);
    double *plane = lw_arena_take(arena, 1, sizeof *plane, err);
    if (!angle || !table || !plane)
        return false;
    for (size_t i = 0; i < n; i++) {
        angle[i] = head->angle_deg[i];
        table[i] = cd[i];
    }
    angle[n] = last < 90.0 ? 90.0 : 180.0;
    const size_t count = last == 90.0 || last == 180.0 ? n : n + 1;
    out->bare_table = (lw_intensity){count, 1, angle, plane, table, LW_SYMMETRY_ROUND};
    out->lumens_sd_share = head->meter_share;
    return lw_intensity_check(&out->bare_table, err);
}

static bool fit_readings(const lw_head *head, lw_head_light *out, lw_error *err)
{
    double lux[LW_HEAD_READINGS];
    for (size_t i = 0; i < head->reading_count; i++)
        lux[i] = head->lux_lx[i] - head->dark_lx;
    if (head->angle_deg[head->reading_count - 1] > 89.0)
        return lw_fail(err, LW_WRONG_INPUT, "angle_deg",
                       "A power of the cosine is dark at 90 degree; end at 89 or give \"shape\": \"as_read\".");
    out->fitted = true;
    if (!lw_beam_fit_cosine(head->angle_deg, lux, head->reading_count, head->distance_m, head->meter_share, &out->fit,
                            err))
        return false;
    out->lumens_sd_share = out->fit.flux_sd_lm / out->fit.flux_lm;
    out->bare = (lw_beam){.peak_cd = out->fit.peak_cd, .cos_power = out->fit.cos_power};
    return true;
}

/* The bare head's table at the lumens stated. */
static bool scale(const lw_head *head, lw_arena *arena, lw_intensity *table, lw_error *err)
{
    const double lumens = lw_intensity_flux_lm(table, 0.0, 180.0);
    if (!(lumens > 0.0))
        return lw_fail(err, LW_WRONG_INPUT, "head", "The head gives no light.");
    if (head->lumens <= 0.0)
        return true;
    const size_t count = table->vertical_count * table->horizontal_count;
    double *cd = lw_arena_take(arena, count, sizeof *cd, err);
    if (!cd)
        return false;
    for (size_t i = 0; i < count; i++)
        cd[i] = table->candela[i] * head->lumens / lumens;
    table->candela = cd;
    return true;
}

static bool bare_of(const lw_head *head, const lw_intensity *file, lw_arena *arena, lw_head_light *out, lw_error *err)
{
    double cd[LW_HEAD_READINGS];
    out->bare = (lw_beam){.street_plane_deg = head->street_plane_deg};
    if (head->reading_count && !candela_of(head, cd, err))
        return false;
    if (head->reading_count && head->as_read) {
        if (!table_as_read(head, cd, arena, out, err) || !scale(head, arena, &out->bare_table, err))
            return false;
    } else if (file) {
        out->bare_table = *file;
        if (!scale(head, arena, &out->bare_table, err))
            return false;
    } else if (head->reading_count) {
        if (!fit_readings(head, out, err))
            return false;
        if (head->lumens > 0.0)
            out->bare.peak_cd = lw_cosine_peak_cd(head->lumens, out->fit.cos_power);
        return lw_beam_table(&out->bare, arena, &out->bare_table, err);
    } else {
        out->bare.cos_power = head->cos_power;
        out->bare.round = head->round;
        out->bare.peak_cd =
            head->round ? head->lumens / (4.0 * lw_pi) : lw_cosine_peak_cd(head->lumens, head->cos_power);
        return lw_beam_table(&out->bare, arena, &out->bare_table, err);
    }
    out->bare.table = &out->bare_table;
    return true;
}

bool lw_head_light_of(const lw_head *head, const lw_intensity *file, lw_arena *arena, lw_head_light *out, lw_error *err)
{
    *out = (lw_head_light){.through = {1.0, 1.0, 1.0}};
    if (!bare_of(head, file, arena, out, err))
        return false;
    out->beam = out->bare;
    out->table = out->bare_table;
    if (head->has_diffuser) {
        out->through = lw_diffuser_share(&head->diffuser);
        if (!lw_diffuser_table(&head->diffuser, &out->bare_table, arena, &out->table, err))
            return false;
        out->beam = (lw_beam){.table = &out->table, .street_plane_deg = head->street_plane_deg};
    }
    out->numbers = lw_beam_numbers_of(&out->table);
    return true;
}

lw_light_colour lw_head_colour(const lw_head *head, const lw_head_light *light)
{
    return lw_light_colour_of(head->colour_k, light->numbers.upward_share < 0.01, true, false);
}
