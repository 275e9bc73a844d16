/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Newton's method on the nodal equations: see lanewick/netlist.h. When it does not settle, a conductance over every
 * junction and from every node to ground is lowered step by step (gmin stepping).
 */
#include "dense.h"
#include "lanewick/netlist.h"
#include "lanewick/units.h"
#include "stamp.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { MOST_STEPS = 300, MOST_UNKNOWNS = 200 };
static const double least_gmin = 1e-12;
static const double longest_step_v = 3.0;

static int count_branches(const lw_netlist *net)
{
    int branches = 0;
    for (size_t i = 0; i < net->count; i++)
        branches += lw_element_has_branch(&net->elements[i]);
    return branches;
}

static void build(lw_system_step *step, double gmin, double leak)
{
    const size_t n = (size_t)step->size;
    memset(step->matrix, 0, n * n * sizeof *step->matrix);
    memset(step->right, 0, n * sizeof *step->right);
    step->gmin = gmin;
    step->limited = false;
    int branch = step->net->nodes;
    for (size_t i = 0; i < step->net->count; i++)
        lw_stamp(step, i, lw_element_has_branch(&step->net->elements[i]) ? ++branch : -1);
    for (int k = 0; k < step->net->nodes; k++)
        step->matrix[(size_t)k * n + (size_t)k] += leak;
}

/* Takes part of the linear step, at most longest_step_v in any node; true when nothing moved any more. */
static bool advance(const lw_system_step *step, double part, double *v)
{
    double longest = 0.0;
    bool still = true;
    for (int k = 1; k <= step->net->nodes; k++) {
        const double moved = fabs(step->right[k - 1] - v[k]);
        longest = fmax(longest, moved);
        still = still && moved <= 1e-9 + 1e-9 * fabs(v[k]);
    }
    const double share = part * fmin(1.0, longest_step_v / fmax(longest, 1e-30));
    for (int k = 1; k <= step->net->nodes; k++)
        v[k] += share * (step->right[k - 1] - v[k]);
    return still;
}

/* True when the point was found; *floating is the node that nothing holds, or 0. */
static bool newton(lw_system_step *step, double *v, double gmin, double leak, int *iterations, int *floating)
{
    for (int i = 0; i < MOST_STEPS; i++) {
        int bad = 0;
        build(step, gmin, leak);
        if (!lw_dense_solve(step->matrix, step->right, step->size, &bad)) {
            *floating = bad < step->net->nodes ? bad + 1 : 0;
            return false;
        }
        ++*iterations;
        /* a step that jumps to and fro over a knee is taken ever shorter */
        const double part = i < 40 ? 1.0 : i < 80 ? 0.5 : i < 140 ? 0.2 : 0.05;
        if (advance(step, part, v) && i > 0 && !step->limited)
            return true;
    }
    return false;
}

static bool stepped(lw_system_step *step, double *v, int *iterations, int *floating)
{
    for (double g = 1e-2; g >= least_gmin; g *= 0.1)
        if (!newton(step, v, g, g, iterations, floating))
            return false;
    return newton(step, v, least_gmin, 0.0, iterations, floating);
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
    memset(step->junction, 0, 2 * net->count * sizeof *step->junction);
}

bool lw_netlist_solve(const lw_netlist *net, const double *start, lw_arena *arena, lw_solution *out, lw_error *err)
{
    if (net->count == SIZE_MAX || net->count == 0)
        return lw_fail(err, LW_BUG, "netlist", "The netlist has no elements, or more than there is room for.");
    lw_system_step step = {.net = net, .size = net->nodes + count_branches(net)};
    if (step.size > MOST_UNKNOWNS)
        return lw_fail(err, LW_NOT_COMPUTABLE, "netlist", "The circuit has %d unknowns; the most is %d.", step.size,
                       MOST_UNKNOWNS);
    *out = (lw_solution){0};
    step.thermal_v = lw_boltzmann_j_k * (net->celsius + lw_zero_celsius_k) / lw_electron_charge_c;
    if (!take_memory(net, &step, out, arena, err))
        return false;
    int floating = 0;
    restart(net, start, &step, out->node_v);
    bool found = newton(&step, out->node_v, least_gmin, 0.0, &out->iterations, &floating);
    if (!found && !floating) {
        restart(net, start, &step, out->node_v);
        found = stepped(&step, out->node_v, &out->iterations, &floating);
    }
    if (!found && floating)
        return lw_fail(err, LW_NOT_COMPUTABLE, "netlist", "Node %d of the circuit is held by nothing.", floating);
    if (!found)
        return lw_fail(err, LW_NOT_COMPUTABLE, "netlist", "No operating point of the circuit was found.");
    int branch = net->nodes;
    for (size_t i = 0; i < net->count; i++) {
        const double branch_a = lw_element_has_branch(&net->elements[i]) ? step.right[branch++] : 0.0;
        out->element_a[i] = lw_element_current(net, i, out->node_v, branch_a, step.thermal_v);
    }
    return true;
}
