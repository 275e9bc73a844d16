/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Companion models of the elements: a current and its derivatives at the last voltages make one linear step. Junction
 * voltages are limited per step (Nagel 1975), or their exponentials overflow.
 */
#include "stamp.h"

#include "device.h"

#include <math.h>

bool lw_element_has_branch(const lw_element *element)
{
    return element->kind == LW_VOLTAGE || element->kind == LW_COMPARATOR;
}

static void add(lw_system_step *s, int row, int column, double x)
{
    if (row > 0 && column > 0)
        s->matrix[(row - 1) * s->size + column - 1] += x;
}

static void add_right(lw_system_step *s, int row, double x)
{
    if (row > 0)
        s->right[row - 1] += x;
}

static void conductance(lw_system_step *s, int a, int b, double g)
{
    add(s, a, a, g);
    add(s, b, b, g);
    add(s, a, b, -g);
    add(s, b, a, -g);
}

/* A current from a to b of which the last value and the derivative by each of count node voltages are known; at[] are
 * the voltages where they were taken. */
static void current(lw_system_step *s, int a, int b, double amps, const int *nodes, const double *per, const double *at,
                    int count)
{
    double rest = amps;
    for (int k = 0; k < count; k++) {
        add(s, a, nodes[k], per[k]);
        add(s, b, nodes[k], -per[k]);
        rest -= per[k] * at[k];
    }
    add_right(s, a, -rest);
    add_right(s, b, rest);
}

static void limit(lw_system_step *s, double *junction, double wanted_v, double slope_v, double saturation_a)
{
    *junction = lw_junction_limit(wanted_v, *junction, slope_v, saturation_a);
    s->limited = s->limited || fabs(*junction - wanted_v) > 1e-9;
}

static void diode(lw_system_step *s, const lw_element *e, double *junction)
{
    const double slope_v = e->ideality * s->thermal_v;
    limit(s, junction, s->v[e->a] - s->v[e->b], slope_v, e->value);
    double g;
    const double amps = lw_junction_current(*junction, slope_v, e->value, &g);
    conductance(s, e->a, e->b, g);
    add_right(s, e->a, g * *junction - amps);
    add_right(s, e->b, amps - g * *junction);
}

/* A PNP is an NPN with every voltage and current turned round. */
static double sign_of(const lw_element *e)
{
    return e->pnp ? -1.0 : 1.0;
}

static void transistor(lw_system_step *s, const lw_element *e, double *junction)
{
    const double vt = s->thermal_v, sign = sign_of(e);
    limit(s, &junction[0], sign * (s->v[e->c] - s->v[e->b]), vt, e->value);
    limit(s, &junction[1], sign * (s->v[e->c] - s->v[e->a]), vt, e->value);
    lw_transistor_point p;
    lw_transistor_at(e, junction[0], junction[1], vt, &p);
    /* over base-emitter and base-collector: written with the node voltages base = 0, emitter, collector */
    const int nodes[3] = {e->c, e->b, e->a};
    const double at[3] = {0.0, -sign * junction[0], -sign * junction[1]};
    const double collector[3] = {p.collector_per_be + p.collector_per_bc, -p.collector_per_be, -p.collector_per_bc};
    const double base[3] = {p.base_per_be + p.base_per_bc, -p.base_per_be, -p.base_per_bc};
    current(s, e->a, e->b, sign * p.collector_a, nodes, collector, at, 3);
    current(s, e->c, e->b, sign * p.base_a, nodes, base, at, 3);
}

static void controlled(lw_system_step *s, const lw_element *e)
{
    double slope;
    const double g = lw_controlled_conductance(e, s->v[e->c], &slope);
    const double volts = s->v[e->a] - s->v[e->b];
    const int nodes[3] = {e->a, e->b, e->c};
    const double per[3] = {g, -g, slope * volts};
    const double at[3] = {s->v[e->a], s->v[e->b], s->v[e->c]};
    current(s, e->a, e->b, g * volts, nodes, per, at, 3);
}

static void sink(lw_system_step *s, const lw_element *e)
{
    double g;
    const double amps = lw_sink_current(e, s->v[e->a] - s->v[e->b], &g);
    const int nodes[2] = {e->a, e->b};
    const double per[2] = {g, -g}, at[2] = {s->v[e->a], s->v[e->b]};
    current(s, e->a, e->b, amps, nodes, per, at, 2);
}

static void charger(lw_system_step *s, const lw_element *e)
{
    const double in = s->v[e->a], out = s->v[e->b];
    double per_in, per_out;
    const double amps = lw_charger_current(e, in, out, &per_in, &per_out);
    const int nodes[2] = {e->a, e->b};
    const double at[2] = {in, out}, given[2] = {-per_in, -per_out};
    current(s, e->b, 0, -amps, nodes, given, at, 2);
    double drawn[2] = {per_in, per_out}, drawn_a = amps;
    if (e->charger.efficiency > 0.0) {
        const double volts = fmax(in, 0.5), share = 1.0 / (e->charger.efficiency * volts);
        const double given_v = fmax(out, 0.0); /* a reversed output takes nothing */
        drawn_a = given_v * amps * share;
        drawn[0] = given_v * per_in * share - (in > 0.5 ? drawn_a / volts : 0.0);
        drawn[1] = ((out > 0.0 ? amps : 0.0) + given_v * per_out) * share;
    }
    current(s, e->a, 0, drawn_a, nodes, drawn, at, 2);
}

/* Branch row: v_a - v_b = value. */
static void voltage(lw_system_step *s, const lw_element *e, int branch)
{
    add(s, e->a, branch, 1.0);
    add(s, e->b, branch, -1.0);
    add(s, branch, e->a, 1.0);
    add(s, branch, e->b, -1.0);
    add_right(s, branch, e->value);
}

/* Branch row: v_a = share x v_b with share from 0 to 1 by the difference c - d; its current comes out of the supply b.
 */
static void comparator(lw_system_step *s, const lw_element *e, int branch)
{
    double slope;
    const double share = lw_comparator_share(e, s->v[e->c] - s->v[e->d], &slope);
    const double supply = s->v[e->b];
    add(s, e->a, branch, 1.0);
    add(s, e->b, branch, -share);
    add(s, branch, e->a, 1.0);
    add(s, branch, e->b, -share);
    add(s, branch, e->c, -supply * slope);
    add(s, branch, e->d, supply * slope);
    add_right(s, branch, -supply * slope * (s->v[e->c] - s->v[e->d]));
}

/* A start that lies far above the knee would make the first step's exponentials meaningless: begin at the knee. */
static double begin(double wanted_v, double slope_v, double saturation_a)
{
    return fmin(wanted_v, lw_junction_knee(slope_v, saturation_a));
}

void lw_stamp_begin(lw_system_step *step)
{
    const double *v = step->v;
    for (size_t i = 0; i < step->net->count; i++) {
        const lw_element *e = &step->net->elements[i];
        double *junction = &step->junction[2 * i];
        junction[0] = junction[1] = 0.0;
        if (e->kind == LW_DIODE)
            junction[0] = begin(v[e->a] - v[e->b], e->ideality * step->thermal_v, e->value);
        if (e->kind == LW_TRANSISTOR) {
            junction[0] = begin(sign_of(e) * (v[e->c] - v[e->b]), step->thermal_v, e->value);
            junction[1] = begin(sign_of(e) * (v[e->c] - v[e->a]), step->thermal_v, e->value);
        }
    }
}

void lw_stamp(lw_system_step *step, size_t i, int branch)
{
    const lw_element *e = &step->net->elements[i];
    switch (e->kind) {
    case LW_RESISTANCE:
        conductance(step, e->a, e->b, 1.0 / e->value);
        break;
    case LW_VOLTAGE:
        voltage(step, e, branch);
        break;
    case LW_CURRENT:
        add_right(step, e->a, -e->value);
        add_right(step, e->b, e->value);
        break;
    case LW_DIODE:
        diode(step, e, &step->junction[2 * i]);
        break;
    case LW_TRANSISTOR:
        transistor(step, e, &step->junction[2 * i]);
        break;
    case LW_CONTROLLED:
        controlled(step, e);
        break;
    case LW_COMPARATOR:
        comparator(step, e, branch);
        break;
    case LW_SINK:
        sink(step, e);
        break;
    case LW_CHARGER:
        charger(step, e);
        break;
    }
}

double lw_element_current(const lw_netlist *net, size_t i, const double *v, double branch_a, double thermal_v)
{
    const lw_element *e = &net->elements[i];
    const double volts = v[e->a] - v[e->b];
    double x, y;
    lw_transistor_point p;
    switch (e->kind) {
    case LW_RESISTANCE:
        return volts / e->value;
    case LW_CURRENT:
        return e->value;
    case LW_DIODE:
        return lw_junction_current(volts, e->ideality * thermal_v, e->value, &x);
    case LW_TRANSISTOR:
        lw_transistor_at(e, sign_of(e) * (v[e->c] - v[e->b]), sign_of(e) * (v[e->c] - v[e->a]), thermal_v, &p);
        return sign_of(e) * p.collector_a;
    case LW_CONTROLLED:
        return lw_controlled_conductance(e, v[e->c], &x) * volts;
    case LW_SINK:
        return lw_sink_current(e, volts, &x);
    case LW_CHARGER:
        return lw_charger_current(e, v[e->a], v[e->b], &x, &y);
    case LW_VOLTAGE:
    case LW_COMPARATOR:
        break;
    }
    return branch_a;
}
