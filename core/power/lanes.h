/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner pieces of the lanes engine: LW_LANES lamps side by side in float. Every loop over lanes is plain
 * arithmetic without branches, so that the compiler turns it into vector instructions.
 */
#ifndef LANEWICK_CORE_POWER_LANES_H
#define LANEWICK_CORE_POWER_LANES_H

#include "lanewick/nights.h"
#include "model.h"

#include <stdint.h>
#include <string.h>

/* A broken line without looking anything up: y = y0 + sum bend[k] max(0, x - at[k]), x held within low..high. */
typedef struct lw_hinges {
    int n;
    float low, high, y0;
    float at[LW_OCV_POINTS], bend[LW_OCV_POINTS];
} lw_hinges;
void lw_hinges_from(const double *x, const double *y, int n, lw_hinges *out);

/* Constants of an engine in float. */
typedef struct lw_lane_model {
    bool cells, tracking, diode, follows_temperature, open_load, cutoff, blocks, end_by_start;
    bool by_voltage;       /* the light's draw depends on the pack's voltage beyond power / voltage */
    lw_hinges open_v;      /* pack, against share of charge */
    lw_hinges cell_charge; /* weakest group: share of charge against cell voltage */
    lw_hinges cold;        /* share of capacity against temperature */
    lw_hinges efficiency;  /* charger, against watts */
    float full, keep;      /* store when full; what self-discharge leaves each hour */
    float in_share, out_share;
    float r_ohm, weak_r_ohm, weak_capacity;
    float full_v, most_a, blocking_v, wire_ohm, floor_v, charger_share, start_w, low_c, high_c;
    float photo_a, isc_temp, ideality_v, series_ohm, shunt_s, log_i0[4];
    float power[7]; /* maximum power: S (p0 + T p1 + T2 p2 + L (p3 + T p4) + L2 (p5 + T p6)), L = ln S */
    float light_w, draw_w, draw_a, zero_v, inverse_span, most, floor_draw_a, floor_at_rest, standby_a, nominal_v;
    float counts_charge;
    int dim_count;
    float dim_below[LW_MAX_DIMS], dim_factor[LW_MAX_DIMS], dims_missing;
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

/* State and sums of eight lamps. */
typedef struct lw_lane_sums {
    float missing[LW_LANES], wanted[LW_LANES], lowest[LW_LANES];
    float panel[LW_LANES], load[LW_LANES], spilled[LW_LANES];
    float taken[LW_LANES], charge[LW_LANES], cold[LW_LANES], hot[LW_LANES];
} lw_lane_sums;
typedef struct lw_lane_state {
    float charge[LW_LANES];
    float full[LW_LANES], inverse_full[LW_LANES], photo[LW_LANES], resistance[LW_LANES], load[LW_LANES];
} lw_lane_state;

/* Hours from..to-1 of the year; sums are added to. */
void lw_lane_bucket_hours(const lw_engine *engine, const lw_drive_block *drive, int from, int to, lw_lane_state *state,
                          lw_lane_sums *sums);
void lw_lane_cells_hours(const lw_engine *engine, const lw_drive_block *drive, int from, int to, lw_lane_state *state,
                         lw_lane_sums *sums);

static inline float lw_least(float a, float b)
{
    return a < b ? a : b;
}

static inline float lw_most(float a, float b)
{
    return a > b ? a : b;
}

static inline float lw_hinges_at(const lw_hinges *h, float x)
{
    x = lw_least(lw_most(x, h->low), h->high);
    float y = h->y0;
    for (int k = 0; k < h->n; k++)
        y += h->bend[k] * lw_most(0.0F, x - h->at[k]);
    return y;
}

/* e^x by 2^k times a polynomial of degree 5 (relative error 2e-7 within -80..80). */
static inline float lw_lane_exp(float x)
{
    const float t = lw_least(lw_most(x, -80.0F), 80.0F) * 1.44269504F;
    const float k = (t + 12582912.0F) - 12582912.0F; /* nearest whole number */
    const float f = t - k;
    const float p =
        1.0F + f * (0.693147182F + f * (0.240226463F + f * (0.0555033F + f * (0.00961817F + f * 0.00133336F))));
    const int32_t bits = ((int32_t)k + 127) * (1 << 23);
    float scale;
    memcpy(&scale, &bits, sizeof scale);
    return p * scale;
}

/* ln x for x > 0 (absolute error 4e-5): exponent and a polynomial of the mantissa. */
static inline float lw_lane_log(float x)
{
    int32_t bits;
    memcpy(&bits, &x, sizeof bits);
    const float exponent = (float)((bits >> 23) - 127);
    const int32_t one = (bits & 0x7FFFFF) | 0x3F800000;
    float m;
    memcpy(&m, &one, sizeof m);
    const float p = -1.7417939F + m * (2.8212026F + m * (-1.4699568F + m * (0.44717955F - m * 0.056570851F)));
    return exponent * 0.693147182F + p;
}

#endif
