/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light of one head on many places of the ground at once: eight places side by side in single precision, with no
 * branch and no memory asked for inside. For pictures and searches, where millions of pairs of lamp and place are
 * looked at; lanewick/light.h is the plain way and the reference.
 *
 * Against lw_lux_add() each place differs by less than 2e-5 of the light straight below the lamp at its peak
 * intensity, when the table's angles lie on the even steps (exact is true).
 */
#ifndef LANEWICK_LIGHT_BATCH_H
#define LANEWICK_LIGHT_BATCH_H

#include "lanewick/arena.h"
#include "lanewick/light.h"

enum { LW_BATCH_EIGHT = 8 };

/* A head's light on even steps of both angles, over all planes. */
typedef struct lw_even_table {
    size_t vertical_count, plane_count; /* the last plane is the first one again */
    float first_rad, last_rad;          /* vertical range; outside it the light is 0 */
    float vertical_per_rad, plane_per_rad;
    const float *candela; /* [plane * vertical_count + vertical]; plane 0 points away from the street side */
    bool exact;           /* every angle of the table lies on a step: the same straight lines */
} lw_even_table;

/* Lays the beam out in the arena. Steps: the widest of 10, 5, 2.5, 2, 1, 0.5, 0.25 degree on which all angles of the
 * table lie, else 0.25; closed forms: 0.5 degree down, 90 round (at most 1e-5 of the peak away for cos_power 1). */
LW_MUST_CHECK bool lw_even_table_of(const lw_beam *beam, lw_arena *arena, lw_even_table *out, lw_error *err);

/* Adds to horizontal_lx[i] what the lamp brings to the place (x_m[i], y_m[i]) on the ground; count is a multiple of
 * LW_BATCH_EIGHT. The lamp's own beam is not looked at. */
void lw_batch_ground(const lw_even_table *table, const lw_lamp *lamp, const float *x_m, const float *y_m, size_t count,
                     float *horizontal_lx);

#endif
