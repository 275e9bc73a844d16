/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The fields of a cell that a slip may change, by their place.
 */
#include "lanewick/slip_json.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *name;
    size_t at, size; /* size 0: a number */
} fields[LW_SLIP_FIELDS] = {
    {"code", offsetof(lw_cell_record, code), sizeof((lw_cell_record *)0)->code},
    {"marking", offsetof(lw_cell_record, marking), sizeof((lw_cell_record *)0)->marking},
    {"voltage_class", offsetof(lw_cell_record, voltage_class), sizeof((lw_cell_record *)0)->voltage_class},
    {"shape", offsetof(lw_cell_record, shape), sizeof((lw_cell_record *)0)->shape},
    {"origin", offsetof(lw_cell_record, origin), sizeof((lw_cell_record *)0)->origin},
    {"look", offsetof(lw_cell_record, look), sizeof((lw_cell_record *)0)->look},
    {"note", offsetof(lw_cell_record, note), sizeof((lw_cell_record *)0)->note},
    {"found_v", offsetof(lw_cell_record, found_v), 0},
    {"rated_ah", offsetof(lw_cell_record, rated_ah), 0},
};

const char *lw_slip_kind_text(lw_slip_kind kind)
{
    static const char *const texts[] = {"crate", "cell", "change", "test", "remove", "run", "reading"};
    return texts[kind];
}

const char *lw_slip_field(int i)
{
    return fields[i].name;
}

void lw_slip_field_get(const lw_cell_record *cell, int i, char out[LW_NOTE])
{
    const char *at = (const char *)cell + fields[i].at;
    double x = NAN;
    if (fields[i].size > 0) {
        (void)snprintf(out, LW_NOTE, "%s", at);
        return;
    }
    memcpy(&x, at, sizeof x);
    out[0] = '\0';
    if (!isnan(x))
        (void)snprintf(out, LW_NOTE, "%.9g", x);
}

void lw_slip_field_set(lw_cell_record *to, const lw_cell_record *from, int i)
{
    const size_t size = fields[i].size > 0 ? fields[i].size : sizeof(double);
    memcpy((char *)to + fields[i].at, (const char *)from + fields[i].at, size);
}
