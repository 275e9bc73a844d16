/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * LW_LANES lamps through some hours in vectors of LW_WIDTH: the one function of lane_hours_*.c, which say how wide and
 * for which machine (LW_TARGET).
 */
#include "lane_bucket.h"
#include "lane_cells.h"

LW_TARGET void LW_LANE_HOURS(const lw_engine *engine, const lw_drive_block *drive, int from, int to,
                             lw_lane_state *state, lw_lane_sums *sums)
{
    for (int at = 0; at < LW_LANES; at += LW_WIDTH) {
        lane_state s;
        lane_sums sum;
        lane_state_load(state, at, &s);
        lane_sums_load(sums, at, &sum);
        if (engine->lanes.cells)
            cells_hours(engine, drive, from, to, at, &s, &sum);
        else
            bucket_hours(engine, drive, from, to, at, &s, &sum);
        lw_v_store(&s.charge, state->charge + at);
        lane_sums_store(&sum, at, sums);
    }
}
