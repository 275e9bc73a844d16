/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner pieces of the lanes engine: LW_LANES lamps side by side in float.
 */
#ifndef LANEWICK_CORE_POWER_LANES_H
#define LANEWICK_CORE_POWER_LANES_H

#include "lanewick/nights.h"
#include "model.h"

enum { LW_HINGES = 24, LW_HINGE_TURN = 4 };
/* A broken line without looking anything up: y = y0 + sum bend[k] max(0, x - at[k]), x held within low..high. n is
 * a whole number of turns (the last bends may be 0): four sums side by side do not wait for one another. */
typedef struct lw_hinges {
    int n;
    float low, high, y0;
    float at[LW_HINGES], bend[LW_HINGES];
} lw_hinges;

/* Constants of an engine in float. */
typedef struct lw_lane_model {
    bool cells, tracking, diode, follows_temperature, open_load, cutoff, others_lower, blocks, end_by_start,
        dims_missing;
    bool counts_charge;
    bool by_voltage;       /* the head's light falls with the pack's voltage */
    lw_hinges open_v;      /* pack, against share of charge */
    lw_hinges cell_charge; /* weakest group: share of charge against cell voltage */
    lw_hinges cold;        /* share of capacity against temperature */
    lw_hinges efficiency;  /* charger, against watts */
    float full, keep;      /* store when full; what self-discharge leaves each hour */
    float in_share, inverse_in, out_share, inverse_out;
    float r_ohm, weak_r_ohm;
    float floor_bound; /* no floor lies above this share of charge */
    float steepest;    /* rise of the pack's voltage over the upper half of its charge, at its steepest */
    float full_v, most_a, blocking_v, wire_ohm, floor_v, charger_share, start_w, low_c, high_c;
    float photo_a, isc_temp, ideality_v, series_ohm, shunt_s, log_i0[4];
    float power[7]; /* maximum power: S (p0 + T p1 + T2 p2 + L (p3 + T p4) + L2 (p5 + T p6)), L = ln S */
    float light_w, draw_w, draw_a, zero_v, inverse_span, most, cutoff_v, others_cutoff_v, floor_draw_a, standby_a,
        nominal_v;
    int dim_count;
    float dim_below[LW_MAX_DIMS], dim_factor[LW_MAX_DIMS];
    float start_share, dark_limit;
} lw_lane_model;
void lw_lane_model_prepare(const lw_model *model, lw_lane_model *out);

struct lw_engine {
    lw_system system;
    lw_model model;
    lw_lane_model lanes;
    lw_plane plane;
    const lw_plane_hour *plane_hours; /* [8760] */
    const float *level_h;             /* [8760] */
    float other_w[24];
    int month[LW_DAYS];
};

/* State and sums of LW_LANES lamps. */
typedef struct lw_lane_sums {
    float missing[LW_LANES], wanted[LW_LANES], lowest[LW_LANES], panel[LW_LANES], load[LW_LANES], spilled[LW_LANES],
        taken[LW_LANES], charge[LW_LANES], cold[LW_LANES], hot[LW_LANES];
} lw_lane_sums;
typedef struct lw_lane_state {
    float charge[LW_LANES], full[LW_LANES], inverse_full[LW_LANES], photo[LW_LANES], resistance[LW_LANES],
        load[LW_LANES];
} lw_lane_state;

/* Hours from..to-1 of the year; sums are added to. */
typedef void lw_lane_hours(const lw_engine *engine, const lw_drive_block *drive, int from, int to, lw_lane_state *state,
                           lw_lane_sums *sums);
/* In vectors of 4, and for machines that have them of 8 and 16: the same bits. */
lw_lane_hours lw_lane_hours_4, lw_lane_hours_8, lw_lane_hours_16;
/* The widest that this machine has. */
lw_lane_hours *lw_lane_hours_here(void);
/* Fills drive->resistance from its pack_c. */
void lw_lane_resistance(lw_drive_block *drive);

#endif
