/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A trial of a wired charger: see lanewick/trial_csv.h.
 */
#include "lanewick/trial_csv.h"

size_t lw_trial_csv_memory(const char *bytes, size_t length)
{
    const size_t table = lw_csv_memory(bytes, length);
    return table ? table + 4 * (LW_TRIAL_READINGS * sizeof(double) + 64) : 0;
}

typedef struct most_of {
    double value;
    const char *unit;
} most_of;
static const most_of panel_v = {150.0, "V"}, pack_v = {60.0, "V"}, amps = {50.0, "A"};

static bool read_column(lw_csv *csv, const char *name, most_of most, double *out, lw_error *err)
{
    const int column = lw_csv_column(csv, name);
    if (column < 0)
        return lw_fail(err, LW_WRONG_INPUT, name,
                       "There is no column \"%s\"; the table needs panel_v, panel_a, pack_v and pack_a.", name);
    for (size_t row = 0; row < csv->rows; row++) {
        bool given = false;
        if (!lw_csv_number(csv, row, column, &given, &out[row], err))
            return false;
        if (!given)
            return lw_fail(err, LW_WRONG_INPUT, name, "Line %d has no %s.", csv->line[row], name);
        if (!lw_in_range(err, name, out[row], 0.0, most.value, most.unit))
            return false;
    }
    return true;
}

bool lw_trial_csv_read(const char *bytes, size_t length, lw_arena *arena, lw_trial_log *out, lw_error *err)
{
    lw_csv csv;
    if (!lw_csv_read(bytes, length, arena, &csv, err))
        return false;
    if (csv.rows < 3 || csv.rows > LW_TRIAL_READINGS)
        return lw_fail(err, LW_WRONG_INPUT, "trial", "The log has %zu readings; 3 to %d are needed.", csv.rows,
                       LW_TRIAL_READINGS);
    *out = (lw_trial_log){csv.rows, lw_arena_take(arena, csv.rows, sizeof(double), err),
                          lw_arena_take(arena, csv.rows, sizeof(double), err),
                          lw_arena_take(arena, csv.rows, sizeof(double), err),
                          lw_arena_take(arena, csv.rows, sizeof(double), err)};
    return out->panel_v && out->panel_a && out->pack_v && out->pack_a &&
           read_column(&csv, "panel_v", panel_v, out->panel_v, err) &&
           read_column(&csv, "panel_a", amps, out->panel_a, err) &&
           read_column(&csv, "pack_v", pack_v, out->pack_v, err) && read_column(&csv, "pack_a", amps, out->pack_a, err);
}
