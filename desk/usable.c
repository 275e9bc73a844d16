/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which cells of a list a pack may hold: see usable.h.
 */
#include "usable.h"

#include <string.h>
#include <strings.h>

static bool is_one_of(const char *word, const char *a, const char *b)
{
    return strcasecmp(word, a) == 0 || strcasecmp(word, b) == 0;
}

bool lw_cell_usable(const lw_lot_cell *cell, const char *class, lw_unusable *out)
{
    const bool sound = !cell->verdict[0] || is_one_of(cell->verdict, "sound", "tired");
    const bool scrap = strcasecmp(cell->verdict, "scrap") == 0;
    const bool same = !cell->voltage_class[0] || strcasecmp(cell->voltage_class, class) == 0;
    out->scrap += scrap;
    out->unsure += !sound && !scrap;
    out->other_class += sound && !same;
    return sound && same;
}

int lw_stronger_first(const void *a, const void *b)
{
    const lw_lot_cell *one = a, *other = b;
    if (one->capacity_ah != other->capacity_ah)
        return one->capacity_ah > other->capacity_ah ? -1 : 1;
    return strcmp(one->id, other->id);
}
