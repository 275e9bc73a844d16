/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head as a workshop knows it: lumens and a shape, an intensity file, or lux meter readings; with a bottle or cover
 * over it.
 */
#ifndef LANEWICK_HEAD_H
#define LANEWICK_HEAD_H

#include "lanewick/diffuser.h"
#include "lanewick/led.h"
#include "lanewick/light_colour.h"

enum { LW_HEAD_READINGS = 64 };

typedef struct lw_head {
    char name[80], date[12];  /* of the measurement, YYYY-MM-DD; "" when not stated */
    char intensity_file[256]; /* beside the document; "": none */
    double lumens;            /* of the bare head; 0: what the file or the readings say */
    double cos_power, street_plane_deg, watts;
    double colour_k; /* correlated colour temperature; 0: not stated */
    bool round;
    size_t reading_count; /* 0: none */
    double angle_deg[LW_HEAD_READINGS], lux_lx[LW_HEAD_READINGS];
    double distance_m, meter_share, dark_lx;
    bool as_read; /* straight lines between the readings; else the fitted power of the cosine */
    bool has_diffuser;
    char diffuser_kind[24], diffuser_material[24];
    double change_from_y; /* age at which the material wants changing; 0: it does not */
    lw_diffuser diffuser;
} lw_head;

/* A head worked out: its beam in the arena, what it is like, how sure that is. */
typedef struct lw_head_light {
    lw_beam bare, beam; /* the beam is that of the head behind its bottle, at the age stated */
    lw_intensity bare_table, table;
    bool fitted;
    lw_beam_fit fit; /* of readings */
    double lumens_sd_share;
    double file_watts; /* of its intensity file; 0: not stated, or no file */
    lw_band through;   /* share that the bottle lets through; 1 without */
    lw_beam_numbers numbers;
} lw_head_light;

/* Whether the closed form of its cos_power is all there is: no file, readings or diffuser. */
bool lw_head_is_plain(const lw_head *head);

/* file: the table of the head's intensity file, which is read elsewhere; NULL when it has none. Errors: readings that
 * cannot be fitted, angles that do not rise. */
LW_MUST_CHECK bool lw_head_light_of(const lw_head *head, const lw_intensity *file, lw_arena *arena, lw_head_light *out,
                                    lw_error *err);

/* Advice about its white for a lane near houses; hooded when less than 1 % goes upward. */
lw_light_colour lw_head_colour(const lw_head *head, const lw_head_light *light);

#endif
