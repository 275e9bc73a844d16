/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a load makes sense, before any night is known.
 */
#include "lanewick/load.h"

#include <stdio.h>

static bool check_moment(const lw_moment *m, const char *field, lw_error *err)
{
    switch (m->kind) {
    case LW_AT_DUSK:
    case LW_AT_DAWN:
        return true;
    case LW_AT_CLOCK:
        return lw_in_range(err, field, m->value, 0.0, 24.0, "h");
    case LW_AT_NIGHT_SHARE:
        return lw_in_range(err, field, m->value, 0.0, 1.0, "");
    case LW_AFTER_DUSK:
    case LW_BEFORE_DAWN:
        return lw_in_range(err, field, m->value, 0.0, 24.0, "h");
    }
    return false;
}

static bool check_spans(const lw_load *load, lw_error *err)
{
    if (load->span_count < 0 || load->span_count > LW_MAX_SPANS)
        return lw_fail(err, LW_WRONG_INPUT, "load.schedule", "load.schedule has %d spans; the most is %d.",
                       load->span_count, LW_MAX_SPANS);
    for (int i = 0; i < load->span_count; i++) {
        char field[64];
        (void)snprintf(field, sizeof field, "load.schedule[%d].from", i + 1);
        if (!check_moment(&load->spans[i].from, field, err))
            return false;
        (void)snprintf(field, sizeof field, "load.schedule[%d].until", i + 1);
        if (!check_moment(&load->spans[i].until, field, err))
            return false;
        (void)snprintf(field, sizeof field, "load.schedule[%d].level", i + 1);
        if (!lw_in_range(err, field, load->spans[i].level, 0.0, 1.0, ""))
            return false;
    }
    return true;
}

static bool check_dims(const lw_load *load, lw_error *err)
{
    for (int i = 0; i < load->dim_count; i++) {
        if (!lw_in_range(err, "load.dimming.below_share", load->dims[i].below_share, 0.0, 1.0, "") ||
            !lw_in_range(err, "load.dimming.factor", load->dims[i].factor, 0.0, 1.0, ""))
            return false;
        if (i > 0 && load->dims[i].below_share <= load->dims[i - 1].below_share)
            return lw_fail(err, LW_WRONG_INPUT, "load.dimming",
                           "The steps of load.dimming must stand in order of rising below_share; step %d does not.",
                           i + 1);
    }
    return true;
}

static bool check_driver(const lw_load *load, lw_error *err)
{
    const lw_driver *d = &load->driver;
    if (d->kind != LW_DRIVER_RESISTOR && d->kind != LW_DRIVER_CONSTANT_CURRENT &&
        !lw_in_range(err, "load.driver.efficiency", d->efficiency, 0.2, 1.0, ""))
        return false;
    if (d->kind == LW_DRIVER_CONSTANT_POWER)
        return true;
    if (!lw_in_range(err, "load.driver.head_v", d->head_v, 1.0, 60.0, "V") ||
        !lw_in_range(err, "load.driver.dropout_v", d->dropout_v, 0.0, 10.0, "V"))
        return false;
    if (d->kind == LW_DRIVER_RESISTOR && !(d->reference_v > d->head_v))
        return lw_fail(err, LW_WRONG_INPUT, "load.driver.reference_v",
                       "load.driver.reference_v is %g V; with a series resistor it must be above head_v, %g V.",
                       d->reference_v, d->head_v);
    return true;
}

bool lw_load_check(const lw_load *load, lw_error *err)
{
    if (!lw_in_range(err, "load.head_w", load->head_w, 0.0, 10000.0, "W") ||
        !lw_in_range(err, "load.standby_w", load->standby_w, 0.0, 1000.0, "W") ||
        !lw_in_range(err, "load.standby_a", load->standby_a, 0.0, 100.0, "A") ||
        !lw_in_range(err, "load.dusk.altitude_deg", load->dusk_altitude_deg, -18.0, 10.0, "degree") ||
        !lw_in_range(err, "load.dusk.midpoints", load->dusk_midpoints, 0.0, 3600.0, "") ||
        !lw_in_range(err, "load.dusk.offset_min", load->dusk_offset_min, -180.0, 180.0, "min") ||
        !lw_in_range(err, "load.dusk.scatter_min", load->dusk_scatter_min, 0.0, 120.0, "min"))
        return false;
    for (int i = 0; i < load->other_count; i++)
        if (!lw_in_range(err, "load.others.power_w", load->others[i].power_w, 0.0, 10000.0, "W") ||
            !lw_in_range(err, "load.others.from_h", load->others[i].from_h, 0.0, 24.0, "h") ||
            !lw_in_range(err, "load.others.until_h", load->others[i].until_h, 0.0, 24.0, "h"))
            return false;
    return check_driver(load, err) && check_spans(load, err) && check_dims(load, err);
}
