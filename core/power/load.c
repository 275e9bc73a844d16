/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The schedule: when in each night the lamp is on, and how much of full light each step of the year asks for.
 * Dusk and dawn lie anywhere inside an hour; every step gets exactly its overlap.
 */
#include "lanewick/load.h"

#include <math.h>
#include <stddef.h>
#include <stdio.h>

void lw_moment_text(const lw_moment *moment, char *out, size_t size)
{
    const long minutes = lround(60.0 * moment->value);
    switch (moment->kind) {
    case LW_AT_DUSK:
        (void)snprintf(out, size, "dusk");
        break;
    case LW_AT_DAWN:
        (void)snprintf(out, size, "dawn");
        break;
    case LW_AT_CLOCK:
        (void)snprintf(out, size, "%02ld:%02ld", minutes / 60, minutes % 60);
        break;
    case LW_AT_NIGHT_SHARE:
        (void)snprintf(out, size, "%.3g%%", 100.0 * moment->value);
        break;
    case LW_AFTER_DUSK:
        (void)snprintf(out, size, "dusk+%.3gh", moment->value);
        break;
    case LW_BEFORE_DAWN:
        (void)snprintf(out, size, "dawn-%.3gh", moment->value);
        break;
    }
}

lw_load lw_load_default(void)
{
    return (lw_load){.driver = {.kind = LW_DRIVER_CONSTANT_POWER, .efficiency = 0.88}, .dusk_altitude_deg = -0.833};
}

void lw_load_nights(const lw_load *load, const double dark_share[LW_HOURS], lw_dark_part nights[LW_DAYS])
{
    const double offset_h = load->dusk_offset_min / 60.0;
    for (int d = 0; d < LW_DAYS; d++) {
        double dark_h = 0.0, dusk = -1.0, dawn = 36.0;
        for (int h = 12; h < 36; h++) {
            const double share = dark_share[(d * 24 + h) % LW_HOURS];
            if (share < 1e-9) /* nothing, but for rounding */
                continue;
            if (dusk < 0.0)
                dusk = h + 1 - share;
            dawn = h + share;
            dark_h += share;
        }
        /* A night within one hour: in its middle. */
        if (dusk >= 0.0 && dawn - dusk > dark_h + 1.0)
            dawn = dusk + dark_h;
        if (dawn < dusk) {
            const double middle = 0.5 * (dusk + dawn);
            dusk = middle - 0.5 * dark_h;
            dawn = middle + 0.5 * dark_h;
        }
        dusk += offset_h;
        dawn -= offset_h;
        nights[d] = dusk < offset_h || dawn <= dusk ? (lw_dark_part){24.0, 24.0}
                                                    : (lw_dark_part){fmax(dusk, 12.0), fmin(dawn, 36.0)};
    }
}

static double moment_h(const lw_moment *m, const lw_dark_part *night)
{
    switch (m->kind) {
    case LW_AT_DUSK:
        return night->dusk_h;
    case LW_AT_DAWN:
        return night->dawn_h;
    case LW_AT_CLOCK:
        return m->value < 12.0 ? m->value + 24.0 : m->value;
    case LW_AT_NIGHT_SHARE:
        return night->dusk_h + m->value * (night->dawn_h - night->dusk_h);
    case LW_AFTER_DUSK:
        return night->dusk_h + m->value;
    case LW_BEFORE_DAWN:
        return night->dawn_h - m->value;
    }
    return night->dusk_h;
}

typedef struct piece {
    double from_h, until_h, level;
} piece;

static int night_pieces(const lw_load *load, const lw_dark_part *night, piece pieces[LW_MAX_SPANS])
{
    if (load->span_count == 0) {
        pieces[0] = (piece){night->dusk_h, night->dawn_h, 1.0};
        return 1;
    }
    for (int i = 0; i < load->span_count; i++) {
        const lw_span *s = &load->spans[i];
        const double from = fmax(moment_h(&s->from, night), night->dusk_h);
        const double until = fmin(moment_h(&s->until, night), night->dawn_h);
        pieces[i] = (piece){from, fmax(from, until), s->level};
    }
    return load->span_count;
}

static bool no_overlap(const piece *pieces, int n, int night, lw_error *err)
{
    for (int i = 0; i < n; i++)
        for (int j = 0; j < i; j++) {
            const double from = fmax(pieces[i].from_h, pieces[j].from_h);
            const double until = fmin(pieces[i].until_h, pieces[j].until_h);
            if (until - from > 1e-6)
                return lw_fail(err, LW_WRONG_INPUT, "load.schedule",
                               "Spans %d and %d of load.schedule overlap by %.2f h in the night of day %d of the year; "
                               "let one end where the other begins.",
                               j + 1, i + 1, until - from, night + 1);
        }
    return true;
}

bool lw_load_levels(const lw_load *load, const lw_dark_part nights[LW_DAYS], int steps_per_hour, double *level_h,
                    lw_error *err)
{
    const int steps = LW_HOURS * steps_per_hour;
    const double step_h = 1.0 / steps_per_hour;
    for (int i = 0; i < steps; i++)
        level_h[i] = 0.0;
    for (int d = 0; d < LW_DAYS; d++) {
        piece pieces[LW_MAX_SPANS];
        const int n = night_pieces(load, &nights[d], pieces);
        if (!no_overlap(pieces, n, d, err))
            return false;
        for (int p = 0; p < n; p++) {
            const int last = (int)ceil(pieces[p].until_h / step_h);
            for (int k = (int)floor(pieces[p].from_h / step_h); k < last; k++) {
                const double from = fmax(k * step_h, pieces[p].from_h);
                const double until = fmin((k + 1) * step_h, pieces[p].until_h);
                level_h[(d * 24 * steps_per_hour + k) % steps] += fmax(0.0, until - from) * pieces[p].level;
            }
        }
    }
    return true;
}

void lw_load_other_w(const lw_load *load, double power_w[24])
{
    for (int h = 0; h < 24; h++) {
        power_w[h] = 0.0;
        for (int i = 0; i < load->other_count; i++) {
            const lw_other_load *o = &load->others[i];
            double share = 1.0;
            if (!o->always) {
                const double until_h = o->until_h > o->from_h ? o->until_h : o->until_h + 24.0;
                share = 0.0;
                for (int turn = 0; turn <= 24; turn += 24)
                    share += fmax(0.0, fmin(h + turn + 1.0, until_h) - fmax(h + turn, o->from_h));
            }
            power_w[h] += o->power_w * share;
        }
    }
}

lw_draw lw_load_draw(const lw_load *load)
{
    const lw_driver *d = &load->driver;
    const double low_v = 0.8 * d->head_v; /* white LEDs: no light below about 0.8 of the voltage at full power */
    lw_draw draw = {.zero_v = 0.0, .full_v = 1e-6, .most = 1.0};
    switch (d->kind) {
    case LW_DRIVER_CONSTANT_POWER:
    case LW_DRIVER_BOOST:
        draw.power_w = load->head_w / d->efficiency;
        break;
    case LW_DRIVER_BUCK:
        draw = (lw_draw){load->head_w / d->efficiency, 0.0, low_v, d->head_v + d->dropout_v, 1.0};
        break;
    case LW_DRIVER_CONSTANT_CURRENT:
        draw = (lw_draw){0.0, load->head_w / d->head_v, low_v, d->head_v + d->dropout_v, 1.0};
        break;
    case LW_DRIVER_RESISTOR:
        draw = (lw_draw){0.0, load->head_w / d->head_v, low_v, d->reference_v, 1e6};
        break;
    }
    return draw;
}
