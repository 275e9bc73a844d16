/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A store as a system states it: a bucket, or a pack put together from equal cells, and its size in the usual
 * measures.
 */
#include "lanewick/battery.h"

#include <math.h>

lw_battery lw_battery_bucket(double capacity_wh)
{
    return (lw_battery){.kind = LW_BATTERY_BUCKET,
                        .capacity_wh = capacity_wh,
                        .charge_efficiency = 0.97,
                        .discharge_efficiency = 0.97,
                        .self_discharge_month = 0.03,
                        .capacity_factor = 1.0,
                        .resistance_factor = 1.0,
                        .start_share = 1.0,
                        .charge_low_c = 0.0,
                        .charge_high_c = 45.0};
}

bool lw_battery_pack(const lw_cell_class *class, int series, int parallel, double cell_capacity_ah, double cell_ohm,
                     lw_battery *out, lw_error *err)
{
    if (series < 1 || series > LW_MAX_SERIES)
        return lw_fail(err, LW_WRONG_INPUT, "series", "series is %d; a pack has 1 to %d groups in series.", series,
                       LW_MAX_SERIES);
    if (parallel < 1 || parallel > 200)
        return lw_fail(err, LW_WRONG_INPUT, "parallel", "parallel is %d; a group has 1 to 200 cells.", parallel);
    if (!lw_in_range(err, "cell_capacity_ah", cell_capacity_ah, 0.05, 500.0, "Ah") ||
        !lw_in_range(err, "cell_ohm", cell_ohm, 0.0, 5.0, "ohm"))
        return false;
    *out = lw_battery_bucket(0.0);
    out->kind = LW_BATTERY_CELLS;
    out->series = series;
    for (int i = 0; i < series; i++) {
        /* Of the 10 s resistance about two thirds act at once (R0 41 of R0 + R1 64 mohm in measured 18650 logs). */
        out->groups[i].capacity_ah = cell_capacity_ah * parallel;
        out->groups[i].r0_ohm = 0.65 * cell_ohm / parallel;
        out->groups[i].r1_ohm = 0.35 * cell_ohm / parallel;
    }
    out->ocv = class->ocv;
    out->rc_seconds = 25.0;
    out->charge_efficiency_ah = 0.995;
    out->cutoff_v = class->cutoff_v;
    out->ceiling_v = class->ceiling_v;
    out->temperature_effects = true;
    return true;
}

double lw_battery_resistance_ohm(const lw_battery *battery)
{
    double sum = 0.0;
    for (int i = 0; i < battery->series; i++)
        sum += battery->groups[i].r0_ohm + battery->groups[i].r1_ohm;
    return sum * battery->resistance_factor;
}

double lw_battery_usable_ah(const lw_battery *battery)
{
    if (battery->kind == LW_BATTERY_BUCKET)
        return 0.0;
    const double top = battery->ceiling_v > 0.0 ? lw_ocv_charge(&battery->ocv, battery->ceiling_v) : 1.0;
    const double bottom = battery->cutoff_v > 0.0 ? lw_ocv_charge(&battery->ocv, battery->cutoff_v) : 0.0;
    double least = INFINITY;
    for (int i = 0; i < battery->series; i++)
        least = fmin(least, battery->groups[i].capacity_ah * (top - bottom) - battery->groups[i].missing_ah);
    return fmax(0.0, least) * battery->capacity_factor;
}

double lw_battery_nominal_v(const lw_battery *battery)
{
    return battery->kind == LW_BATTERY_BUCKET ? 0.0 : battery->series * lw_ocv_mean_v(&battery->ocv, 0.0, 1.0);
}

double lw_battery_usable_wh(const lw_battery *battery)
{
    if (battery->kind == LW_BATTERY_BUCKET)
        return battery->capacity_wh * battery->capacity_factor;
    const double top = battery->ceiling_v > 0.0 ? lw_ocv_charge(&battery->ocv, battery->ceiling_v) : 1.0;
    const double bottom = battery->cutoff_v > 0.0 ? lw_ocv_charge(&battery->ocv, battery->cutoff_v) : 0.0;
    return lw_battery_usable_ah(battery) * battery->series * lw_ocv_mean_v(&battery->ocv, bottom, top);
}
