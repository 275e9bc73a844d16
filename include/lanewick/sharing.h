/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the cells of one parallel group share the current, at once and through a whole discharge or charge; and the
 * limits that a protection board, fuse and strips of a pack must keep. docs/models/pack-sharing.md.
 */
#ifndef LANEWICK_SHARING_H
#define LANEWICK_SHARING_H

#include "lanewick/cell_class.h"
#include "lanewick/error.h"

#include <stddef.h>

enum { LW_GROUP_CELLS = 64 };

typedef struct lw_group_ask {
    const double *ohm;         /* [n] of each cell, all its resistance in one */
    const double *capacity_ah; /* [n] */
    const double *charge;      /* [n] share of charge at the start, 0..1 */
    size_t n;                  /* 1 to LW_GROUP_CELLS */
    double path_ohm;           /* holder contact or wire of each cell */
    double current_a;          /* of the group, discharge positive, charge negative; not 0 */
    double end_v;              /* group voltage at which it stops; the class's end when 0 */
    const lw_cell_class *class;
} lw_group_ask;

typedef struct lw_group_run {
    double start_a[LW_GROUP_CELLS];   /* at the first moment */
    double most_a[LW_GROUP_CELLS];    /* largest of the run, in the direction of the current */
    double charge_ah[LW_GROUP_CELLS]; /* given (or taken in) by each cell */
    double group_ohm;                 /* of the group at the first moment */
    double largest_start_share;       /* largest start_a over an equal share, 1: all alike */
    double largest_share;             /* the same over the whole run */
    size_t largest_cell;              /* which one, from 0 */
    double largest_at_charge;         /* mean share of charge of the group at that moment */
    double group_ah, hours;           /* of the run */
} lw_group_run;

/* Joined cells settle to one voltage before the first moment counted: charge[] is taken as it is given. */
LW_MUST_CHECK bool lw_group_share(const lw_group_ask *ask, lw_group_run *out, lw_error *err);

/* --- protection ------------------------------------------------------------------------------------------------- */

typedef struct lw_protection_ask {
    const lw_cell_class *class;
    int series, parallel;
    double load_a, charge_a; /* highest steady currents of the pack */
    double pack_ohm;         /* whole pack; 0: not known */
    double group_ah;
    double ceiling_v;                       /* end of charge per cell; the class's suggestion when 0 */
    double self_discharge_spread_pct_month; /* between the fastest and the slowest group */
    double top_hours_per_day;               /* time near full in which balancing works */
    double cell_limit_a;                    /* what one cell may give */
} lw_protection_ask;

typedef struct lw_protection {
    double charge_v;                /* of the pack, the charger's end voltage */
    double over_low_v, over_high_v; /* window for the board's overcharge trip, per group */
    double over_release_v;
    double under_low_v, under_high_v;      /* window for its over-discharge trip */
    double under_release_v, lamp_cutoff_v; /* lamp cut-off per group under load */
    double overcurrent_low_a, overcurrent_high_a;
    double short_ms;                    /* longest time to the short-circuit trip */
    double fuse_least_a, fuse_most_a;   /* window for the pack fuse's rating */
    double fuse_v, fuse_breaks_a;       /* d.c. voltage and breaking capacity it must have; breaks 0: not known */
    bool balancing_needed;              /* two or more groups in series */
    double balance_start_v, balance_a;  /* bleed that keeps up with the spread in self-discharge */
    double cell_wire_carries_a;         /* a cell's fuse wire must carry this; 0 below 3 cells in parallel */
    double strip_mm2, wire_mm2;         /* nickel strip and copper wire for the pack's current */
    double charge_low_c, charge_high_c; /* charging only between these cell temperatures */
} lw_protection;

/* LW_REFUSED: a ceiling above the class's limit; a pack above 60 V; a fuse that cannot lie between the load and what
 * the cells may give. */
LW_MUST_CHECK bool lw_protection_limits(const lw_protection_ask *ask, lw_protection *out, lw_error *err);

#endif
