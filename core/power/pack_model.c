/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Series groups as one store. All groups carry the same current, so a single number, the charge of the weakest
 * group, tells the state of all of them; the weakest sets the end, what the others hold beyond is never used.
 */
#include "model.h"

#include <math.h>
#include <string.h>

void lw_pack_prepare(const lw_battery *battery, lw_pack_model *out)
{
    memset(out, 0, sizeof *out);
    out->series = battery->series;
    out->ocv = battery->ocv;
    out->full_ah = INFINITY;
    out->equal = true;
    const double top = battery->ceiling_v > 0.0 ? lw_ocv_charge(&battery->ocv, battery->ceiling_v) : 1.0;
    for (int g = 0; g < battery->series; g++) {
        const lw_group *group = &battery->groups[g];
        out->capacity_ah[g] = group->capacity_ah * battery->capacity_factor;
        out->lift_ah[g] = out->capacity_ah[g] * top - group->missing_ah * battery->capacity_factor;
        out->full_ah = fmin(out->full_ah, out->lift_ah[g]);
        out->r_ohm[g] = (group->r0_ohm + group->r1_ohm) * battery->resistance_factor;
        out->r0_ohm += group->r0_ohm * battery->resistance_factor;
        out->r1_ohm += group->r1_ohm * battery->resistance_factor;
    }
    for (int g = 0; g < battery->series; g++) {
        out->lift_ah[g] -= out->full_ah;
        out->equal = out->equal && out->lift_ah[g] == 0.0 && out->capacity_ah[g] == out->capacity_ah[0];
    }
}

double lw_pack_open_v(const lw_pack_model *pack, double charge_ah)
{
    if (pack->equal)
        return pack->series * lw_ocv_at(&pack->ocv, charge_ah / pack->capacity_ah[0]);
    double sum = 0.0;
    for (int g = 0; g < pack->series; g++)
        sum += lw_ocv_at(&pack->ocv, (charge_ah + pack->lift_ah[g]) / pack->capacity_ah[g]);
    return sum;
}

double lw_pack_floor_ah(const lw_pack_model *pack, double cutoff_v, double current_a, double resistance_share)
{
    if (!(cutoff_v > 0.0))
        return 0.0;
    double highest = 0.0;
    for (int g = 0; g < pack->series; g++) {
        const double v = cutoff_v + current_a * pack->r_ohm[g] * resistance_share;
        highest = fmax(highest, pack->capacity_ah[g] * lw_ocv_charge(&pack->ocv, v) - pack->lift_ah[g]);
    }
    return fmin(highest, pack->full_ah);
}
