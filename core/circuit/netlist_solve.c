/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Newton's method on the nodal equations: see lanewick/netlist.h. When it does not settle, the circuit is let run to
 * its rest in time with a capacitor at every node (pseudo-transient continuation, Kelley & Keyes 1998, SIAM J. Numer.
 * Anal. 35, 508).
 */
#include "dense.h"
#include "lanewick/netlist.h"
#include "lanewick/units.h"
#include "stamp.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { MOST_STEPS = 500, MOST_PULLS = 3000, MOST_UNKNOWNS = 200 };
static const double still_v = 3e-7;
static const double nearly_still_v = 2e-5; /* rounding errors may keep a stiff circuit trembling */
static const double longest_step_v = 3.0;

static int count_branches(const lw_netlist *net)
{
    int branches = 0;
    for (size_t i = 0; i < net->count; i++)
        branches += lw_element_has_branch(&net->elements[i]);
    return branches;
}

static void join(bool *held, int a, int b, bool *changed)
{
    if (held[a] == held[b])
        return;
    held[a] = held[b] = true;
    *changed = true;
}

/* The first node that no chain of parts joins to ground, or 0. A current source holds nothing. */
static int floating_node(const lw_netlist *net)
{
    bool held[MOST_UNKNOWNS + 1] = {true}, changed = true;
    while (changed) {
        changed = false;
        for (size_t i = 0; i < net->count; i++) {
            const lw_element *e = &net->elements[i];
            if (e->kind == LW_CURRENT)
                continue;
            join(held, e->a, e->kind == LW_COMPARATOR || e->kind == LW_CHARGER ? 0 : e->b, &changed);
            if (e->kind == LW_CHARGER)
                join(held, e->b, 0, &changed);
            if (e->kind == LW_TRANSISTOR)
                join(held, e->c, e->b, &changed);
        }
    }
    for (int k = 1; k <= net->nodes; k++)
        if (!held[k])
            return k;
    return 0;
}

/* pull is a conductance from every node to its last voltage. */
static void build(lw_system_step *step, double pull)
{
    const size_t n = (size_t)step->size;
    memset(step->matrix, 0, n * n * sizeof *step->matrix);
    memset(step->right, 0, n * sizeof *step->right);
    step->limited = false;
    int branch = step->net->nodes;
    for (size_t i = 0; i < step->net->count; i++)
        lw_stamp(step, i, lw_element_has_branch(&step->net->elements[i]) ? ++branch : -1);
    for (int k = 0; k < step->net->nodes; k++) {
        step->matrix[(size_t)k * n + (size_t)k] += pull;
        step->right[k] += pull * step->v[k + 1];
    }
}

static bool solve(lw_system_step *step, double pull, int *iterations)
{
    build(step, pull);
    ++*iterations;
    return lw_dense_solve(step->matrix, step->right, step->size);
}

/* How far to follow the linear steps: half as far each time the step turns back, as it does over a knee, where it would
 * jump to and fro for ever; a little farther each time it does not. */
typedef struct stride {
    double part;
    int node;    /* that moved most in the last step */
    bool upward; /* and which way */
} stride;

static void adapt(stride *s, int node, bool upward)
{
    if (node == s->node && upward != s->upward)
        s->part = fmax(1e-4, 0.5 * s->part);
    else
        s->part = fmin(1.0, 1.4 * s->part);
    s->node = node;
    s->upward = upward;
}

/* Takes part of the linear step, at most longest_step_v in any node; gives how far the longest step wants to go. */
static double advance(const lw_system_step *step, stride *pace, double *v)
{
    double longest = 0.0;
    int node = 1;
    for (int k = 1; k <= step->net->nodes; k++) {
        const double moved = fabs(step->right[k - 1] - v[k]);
        node = moved > longest ? k : node;
        longest = fmax(longest, moved);
    }
    adapt(pace, node, step->right[node - 1] > v[node]);
    const double share = pace->part * fmin(1.0, longest_step_v / fmax(longest, 1e-30));
    for (int k = 1; k <= step->net->nodes; k++)
        v[k] += (longest < still_v ? 1.0 : share) * (step->right[k - 1] - v[k]);
    return longest;
}

/* True when the point was found. */
static bool newton(lw_system_step *step, double *v, int *iterations)
{
    stride pace = {.part = 1.0};
    double moved = INFINITY;
    for (int i = 0; i < MOST_STEPS; i++) {
        if (!solve(step, 0.0, iterations))
            return false;
        moved = advance(step, &pace, v);
        if (moved < still_v && i > 0 && !step->limited)
            return true;
    }
    return moved < nearly_still_v && !step->limited;
}

/* Every node holds on to its last voltage as a capacitor would, less and less as the voltages come to rest. Unlike
 * Newton's method alone this runs away from a constant-power load towards its stable point. */
static bool relax(lw_system_step *step, double *v, int *iterations)
{
    double pull = 1.0;
    for (int i = 0; i < MOST_PULLS && pull > 1e-13; i++) {
        stride pace = {.part = 1.0};
        if (!solve(step, pull, iterations))
            return false;
        const double moved = advance(step, &pace, v);
        pull = step->limited || moved > 0.3 ? fmin(10.0, 1.5 * pull) : 0.6 * pull;
    }
    return newton(step, v, iterations);
}

static bool take_memory(const lw_netlist *net, lw_system_step *step, lw_solution *out, lw_arena *arena, lw_error *err)
{
    const size_t n = (size_t)step->size;
    out->node_v = lw_arena_take(arena, (size_t)net->nodes + 1, sizeof(double), err);
    out->element_a = lw_arena_take(arena, net->count, sizeof(double), err);
    step->junction = lw_arena_take(arena, 2 * net->count, sizeof(double), err);
    step->matrix = lw_arena_take(arena, n * n, sizeof(double), err);
    step->right = lw_arena_take(arena, n, sizeof(double), err);
    step->v = out->node_v;
    return out->node_v && out->element_a && step->junction && step->matrix && step->right;
}

static void restart(const lw_netlist *net, const double *start, lw_system_step *step, double *v)
{
    const size_t size = ((size_t)net->nodes + 1) * sizeof *v;
    if (start)
        memcpy(v, start, size);
    else
        memset(v, 0, size);
    v[0] = 0.0;
    lw_stamp_begin(step);
}

bool lw_netlist_solve(const lw_netlist *net, const double *start, lw_arena *arena, lw_solution *out, lw_error *err)
{
    if (net->count == SIZE_MAX || net->count == 0)
        return lw_fail(err, LW_BUG, "netlist", "The netlist has no elements, or more than there is room for.");
    lw_system_step step = {.net = net, .size = net->nodes + count_branches(net)};
    if (step.size > MOST_UNKNOWNS)
        return lw_fail(err, LW_NOT_COMPUTABLE, "netlist", "The circuit has %d unknowns; the most is %d.", step.size,
                       MOST_UNKNOWNS);
    const int floating = floating_node(net);
    if (floating > 0)
        return lw_fail(err, LW_NOT_COMPUTABLE, "netlist", "Node %d of the circuit is held by nothing.", floating);
    *out = (lw_solution){0};
    step.thermal_v = lw_boltzmann_j_k * (net->celsius + lw_zero_celsius_k) / lw_electron_charge_c;
    if (!take_memory(net, &step, out, arena, err))
        return false;
    restart(net, start, &step, out->node_v);
    bool found = newton(&step, out->node_v, &out->iterations);
    if (!found) {
        restart(net, start, &step, out->node_v);
        found = relax(&step, out->node_v, &out->iterations);
    }
    if (!found)
        return lw_fail(err, LW_NOT_COMPUTABLE, "netlist", "No operating point of the circuit was found.");
    int branch = net->nodes;
    for (size_t i = 0; i < net->count; i++) {
        const double branch_a = lw_element_has_branch(&net->elements[i]) ? step.right[branch++] : 0.0;
        out->element_a[i] = lw_element_current(net, i, out->node_v, branch_a, step.thermal_v);
    }
    return true;
}
