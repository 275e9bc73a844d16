/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Chargers as a system states them: usual values of the three kinds.
 */
#include "lanewick/charger.h"

#include "lanewick/stats.h"

#include <stddef.h>

double lw_curve_at(const lw_curve *curve, double x)
{
    return lw_interpolate(curve->x, curve->y, (size_t)curve->n, x);
}

lw_charger lw_charger_default(lw_charger_kind kind)
{
    lw_charger c = {.kind = kind, .wire_share = 1.0, .tracking_share = 1.0, .charge_cutoff = true};
    switch (kind) {
    case LW_CHARGER_DIRECT:
        c.blocking_v = 0.35; /* Schottky diode (from memory, 0.3..0.5 V) */
        break;
    case LW_CHARGER_LINEAR:
        c.blocking_v = 0.1;
        c.input_floor_v = 4.6;
        c.standby_w = 0.002;
        break;
    case LW_CHARGER_TRACKING:
        c.wire_share = 0.98;
        c.tracking_share = 0.98; /* from memory, 98..99 % of a true tracker */
        break;
    }
    c.efficiency = (lw_curve){.n = 1, .x = {0.0}, .y = {0.94}}; /* from memory, 93..97 % */
    return c;
}
