/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What one log of a cell tells: see lanewick/desk_cell.h.
 */
#include "lanewick/desk_cell.h"

bool lw_desk_cell_log(const char *bytes, size_t length, const lw_log_columns *columns, double end_v, double at_s,
                      lw_arena *arena, lw_log_answer *out, lw_error *err)
{
    lw_log log;
    *out = (lw_log_answer){0};
    if (!lw_log_csv_read(bytes, length, columns, arena, &log, err) || !lw_log_capacity(&log, end_v, &out->charge, err))
        return false;
    out->samples = log.n;
    out->pulsed = at_s > 0.0;
    return !out->pulsed || lw_pulse_resistance(&log, at_s, &out->pulse, err);
}
