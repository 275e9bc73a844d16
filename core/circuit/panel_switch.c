/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The panel as dusk sensor: see lanewick/panel_switch.h. The current of the panel's own diodes is left out: at the
 * tenths of a volt of dusk it is under a hundredth of the bleeder's.
 */
#include "lanewick/panel_switch.h"

#include "spread.h"

#include <math.h>

enum { VALUES = 320, TRIED = 32 };
static const double noon_lx = 1e5;
/* A hundredth of the panel's power weighs as much as light that scatters by three quarters: minutes are cheap. */
static const double bleed_weight = 150.0;

static double scale_ohm(const lw_panel_switch *s)
{
    return 1.0 / (1.0 / s->bleeder_ohm + 1.0 / s->shunt_ohm);
}

bool lw_panel_switch_at(const lw_panel_switch *s, double *on_v, double *off_v, double *lux_on, double *lux_off,
                        lw_error *err)
{
    double low, high;
    lw_comparator_levels(s->r1_ohm, s->r2_ohm, s->r3_ohm, &low, &high);
    *on_v = low * s->supply_v + s->offset_v;
    *off_v = high * s->supply_v + s->offset_v;
    const double ohm = scale_ohm(s), on_a = *on_v / ohm - s->leak_a, off_a = *off_v / ohm - s->leak_a;
    if (!(on_a > 0.0) || !(off_a > on_a))
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "shelf.switch_parts.leak_ua",
            "The blocking diode's leak of %.3g uA alone holds the panel over the %.3g V of switch-on: take a "
            "silicon diode, or a smaller bleeder.",
            1e6 * s->leak_a, *on_v);
    *lux_on = noon_lx * on_a / s->isc_a;
    *lux_off = noon_lx * off_a / s->isc_a;
    return true;
}

/* How far such a switch is from good: wanted light, off at 3.5 times on, little scatter by leak, offset and the panel's
 * own leak. */
static double miss(const lw_panel_switch_parts *p, const lw_panel_switch *s, double wanted_lx)
{
    double on_v, off_v, on, off;
    if (!lw_panel_switch_at(s, &on_v, &off_v, &on, &off, NULL) || off < 2.5 * on || off > 6.0 * on ||
        on < wanted_lx / 1.5 || on > 1.5 * wanted_lx)
        return INFINITY;
    const double ohm = scale_ohm(s);
    const double scatter = (p->offset_v + p->leak_a * ohm) / on_v + ohm / s->shunt_ohm;
    return fabs(log(on / wanted_lx)) + 0.5 * fabs(log(off / (3.5 * on))) + 2.0 * scatter +
           bleed_weight * p->bleed_part_ohm / s->bleeder_ohm;
}

bool lw_panel_switch_choose(const lw_resistors *at_hand, double wanted_lx, lw_panel_switch_parts *p, lw_error *err)
{
    double upper[VALUES], bleeder[VALUES], best = INFINITY;
    const size_t n = lw_resistors_between(at_hand, 100e3, 4.7e6, upper, VALUES), step = 1 + n / TRIED;
    const size_t m = lw_resistors_between(at_hand, 330.0, 100e3, bleeder, VALUES), skip = 1 + m / TRIED;
    lw_panel_switch s = p->middle;
    for (size_t i = 0; i < n; i += step)
        for (size_t k = 0; k < m; k += skip) {
            s.r1_ohm = upper[i];
            s.bleeder_ohm = bleeder[k];
            s.r3_ohm = lw_resistor_near(at_hand, s.r1_ohm / 2.5);
            const double share = wanted_lx / noon_lx * s.isc_a * scale_ohm(&s) / s.supply_v;
            const double rest = 1.0 / (s.r1_ohm * share) - 1.0 / s.r1_ohm - 1.0 / s.r3_ohm;
            if (!(rest > 1e-8) || rest > 1e-3)
                continue;
            s.r2_ohm = lw_resistor_near(at_hand, 1.0 / rest);
            const double here = miss(p, &s, wanted_lx);
            if (here >= best)
                continue;
            best = here;
            p->middle = s;
        }
    return isfinite(best) ||
           lw_fail(err, LW_NOT_COMPUTABLE, "resistors",
                   "No resistors at hand make the panel a sensor for %.3g lx: it needs a bleeder between 330 ohm and "
                   "100 kohm, R1 from 100 kohm up, R3 near R1/2.5 and R2 some tens of kohm.",
                   wanted_lx);
}

enum { ISC, SHUNT, RB, R1, R2, R3, LEAK, OFFSET, PARTS };

static bool switching(const void *fixed, const double *x, double *on, double *off)
{
    lw_panel_switch s = *(const lw_panel_switch *)fixed;
    double on_v, off_v;
    s.isc_a = x[ISC];
    s.shunt_ohm = x[SHUNT];
    s.bleeder_ohm = x[RB];
    s.r1_ohm = x[R1];
    s.r2_ohm = x[R2];
    s.r3_ohm = x[R3];
    s.leak_a = x[LEAK];
    s.offset_v = x[OFFSET];
    return lw_panel_switch_at(&s, &on_v, &off_v, on, off, NULL);
}

static lw_spread_law law_of(const lw_panel_switch_parts *p)
{
    const lw_panel_switch *m = &p->middle;
    const double few = 1.0 - p->tolerance, many = 1.0 + p->tolerance;
    return (lw_spread_law){.parts = PARTS,
                           .low = {m->isc_a * (1.0 - p->isc_part), p->shunt_low_ohm, m->bleeder_ohm * few,
                                   m->r1_ohm * few, m->r2_ohm * few, m->r3_ohm * few, 0.0, -p->offset_v},
                           .high = {m->isc_a * (1.0 + p->isc_part), p->shunt_high_ohm, m->bleeder_ohm * many,
                                    m->r1_ohm * many, m->r2_ohm * many, m->r3_ohm * many, p->leak_a, p->offset_v},
                           .geometric = 1u << SHUNT,
                           .switching = switching,
                           .fixed = m};
}

bool lw_panel_switch_draws(const lw_panel_switch_parts *parts, size_t samples, uint64_t seed, double *lux_on,
                           double *lux_off, lw_error *err)
{
    const lw_spread_law law = law_of(parts);
    return lw_spread_draws(&law, samples, seed, lux_on, lux_off, err);
}

bool lw_panel_switch_tolerance(const lw_panel_switch_parts *parts, size_t samples, uint64_t seed, lw_arena *arena,
                               lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err)
{
    const lw_spread_law law = law_of(parts);
    return lw_spread_of(&law, samples, seed, arena, on, off, err);
}
