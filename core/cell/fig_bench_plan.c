/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure bench_plan: how many days a crate's capacity tests take, and what holds them up.
 */
#include "lanewick/figure.h"
#include "lanewick/verdict.h"

enum { CELLS, CAPACITY, RESISTORS, LOAD, SLOTS, CHARGE, SUN, HOURS, CLASS };
static const lw_input inputs[] = {
    [CELLS] = {"cells", "", "how many", LW_INTEGER, 1, 100000, NULL, NULL, 0, 0},
    [CAPACITY] = {"capacity_ah", "Ah", "of a usual cell", LW_NUMBER, 0.05, 100.0, NULL, "2", 0, 0},
    [RESISTORS] = {"resistors", "", "discharges at once", LW_INTEGER, 1, 1000, NULL, "8", 0, 0},
    [LOAD] = {"load_ohm", "ohm", "each resistor", LW_NUMBER, 0.1, 1000.0, NULL, "4", 0, 0},
    [SLOTS] = {"slots", "", "charges at once", LW_INTEGER, 1, 1000, NULL, "4", 0, 0},
    [CHARGE] = {"charge_a", "A", "current of each slot", LW_NUMBER, 0.01, 20.0, NULL, "1", 0, 0},
    [SUN] = {"sun_wh_day", "Wh", "energy a day for the bench; no limit when left out", LW_NUMBER, 1.0, 1e6, NULL, "", 0,
             0},
    [HOURS] = {"hours_day", "h", "hours a day that somebody is there", LW_NUMBER, 0.5, 24.0, NULL, "8", 0, 0},
    [CLASS] = {"voltage_class", "", "of the cells", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
};

enum { DAYS, PER_DAY, ENERGY, BOTTLENECK, CHARGE_H, DISCHARGE_H, READ_ON };
static const lw_output outputs[] = {
    [DAYS] = {"days", "d", "until the last capacity is read", LW_INTEGER},
    [PER_DAY] = {"cells_per_day", "", "in the long run", LW_NUMBER},
    [ENERGY] = {"energy_wh", "Wh", "of all charges, chargers included", LW_NUMBER},
    [BOTTLENECK] = {"bottleneck", "", "what holds it up: charging slots, resistors or sun", LW_TEXT},
    [CHARGE_H] = {"charge_h", "h", "charge of a usual cell", LW_NUMBER},
    [DISCHARGE_H] = {"discharge_h", "h", "discharge of a usual cell", LW_NUMBER},
    [READ_ON] = {"read_on_day", "d", "day on which each cell's capacity is read", LW_NUMBERS},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const size_t n = (size_t)in[CELLS].number;
    double *capacity = lw_arena_take(arena, n, sizeof *capacity, err);
    double *days = lw_arena_take(arena, n, sizeof *days, err);
    int *day = lw_arena_take(arena, n, sizeof *day, err);
    if (!capacity || !days || !day)
        return false;
    for (size_t i = 0; i < n; i++)
        capacity[i] = in[CAPACITY].number;
    const lw_bench bench = {.resistors = (int)in[RESISTORS].number,
                            .load_ohm = in[LOAD].number,
                            .slots = (int)in[SLOTS].number,
                            .charge_a = in[CHARGE].number,
                            .sun_wh_day = in[SUN].given ? in[SUN].number : 0.0,
                            .hours_day = in[HOURS].number};
    lw_bench_days plan;
    if (!lw_bench_plan(capacity, n, &bench, lw_test_class_find(in[CLASS].text), NULL, day, &plan, err))
        return false;
    for (size_t i = 0; i < n; i++)
        days[i] = day[i];
    out[DAYS] = lw_value_integer(plan.days);
    out[PER_DAY] = lw_value_number(plan.per_day);
    out[ENERGY] = lw_value_number(plan.energy_wh);
    out[BOTTLENECK] = lw_value_text(plan.bottleneck);
    out[CHARGE_H] = lw_value_number(plan.charge_h);
    out[DISCHARGE_H] = lw_value_number(plan.discharge_h);
    out[READ_ON] = lw_value_list(days, n);
    return true;
}

const lw_figure lw_fig_bench_plan = {
    .name = "bench_plan",
    .room = "cell",
    .summary = "How many days the capacity tests of a crate take on a given bench, and what holds them up.",
    .source = "charge = capacity / current + 1 h taper, energy by 87 % of charger and cell (from memory); day by day",
    .limits = "Charge on one day, rest overnight, discharge the next day.",
    .caution =
        "No charge and no discharge runs unattended or where people sleep. Charge between 0 and 45 degC only, on a "
        "surface that cannot burn, sand at hand.",
    .example = "cells=96 capacity_ah=2.2 resistors=8 load_ohm=4 slots=8 charge_a=1 sun_wh_day=90 hours_day=8",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
