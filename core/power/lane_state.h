/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * State and sums of the lamps of one vector: LW_WIDTH of the LW_LANES, from lane number `at`.
 */
#ifndef LANEWICK_CORE_POWER_LANE_STATE_H
#define LANEWICK_CORE_POWER_LANE_STATE_H

#include "lanes.h"
#include "lanewick/vector.h"

typedef struct lane_sums {
    lw_v missing, wanted, lowest, panel, load, spilled, taken, charge, cold, hot;
} lane_sums;
typedef struct lane_state {
    lw_v charge, full, inverse_full, photo, resistance, load;
} lane_state;

LW_INTO lane_state_load(const lw_lane_state *from, int at, lane_state *to)
{
    lw_v_load(from->charge + at, &to->charge);
    lw_v_load(from->full + at, &to->full);
    lw_v_load(from->inverse_full + at, &to->inverse_full);
    lw_v_load(from->photo + at, &to->photo);
    lw_v_load(from->resistance + at, &to->resistance);
    lw_v_load(from->load + at, &to->load);
}

LW_INTO lane_sums_load(const lw_lane_sums *from, int at, lane_sums *to)
{
    lw_v_load(from->missing + at, &to->missing);
    lw_v_load(from->wanted + at, &to->wanted);
    lw_v_load(from->lowest + at, &to->lowest);
    lw_v_load(from->panel + at, &to->panel);
    lw_v_load(from->load + at, &to->load);
    lw_v_load(from->spilled + at, &to->spilled);
    lw_v_load(from->taken + at, &to->taken);
    lw_v_load(from->charge + at, &to->charge);
    lw_v_load(from->cold + at, &to->cold);
    lw_v_load(from->hot + at, &to->hot);
}

LW_INTO lane_sums_store(const lane_sums *from, int at, lw_lane_sums *to)
{
    lw_v_store(&from->missing, to->missing + at);
    lw_v_store(&from->wanted, to->wanted + at);
    lw_v_store(&from->lowest, to->lowest + at);
    lw_v_store(&from->panel, to->panel + at);
    lw_v_store(&from->load, to->load + at);
    lw_v_store(&from->spilled, to->spilled + at);
    lw_v_store(&from->taken, to->taken + at);
    lw_v_store(&from->charge, to->charge + at);
    lw_v_store(&from->cold, to->cold + at);
    lw_v_store(&from->hot, to->hot + at);
}

#endif
