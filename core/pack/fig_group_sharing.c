/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure group_sharing: how the cells of a parallel group share the current through a discharge or a charge.
 */
#include "lanewick/figure.h"
#include "lanewick/sharing.h"

#include <math.h>

enum { OHM, CAPACITY, CURRENT, START, PATH, LIMIT, END_V, CLASS };
static const lw_input inputs[] = {
    [OHM] = {"resistances_mohm", "mohm", "resistance of each cell", LW_NUMBERS, 0.1, 10000.0, NULL, NULL, 1,
             LW_GROUP_CELLS},
    [CAPACITY] = {"capacities_ah", "Ah", "capacity of each cell; 2 Ah each when left out", LW_NUMBERS, 0.01, 400.0,
                  NULL, "", 1, LW_GROUP_CELLS},
    [CURRENT] = {"current_a", "A", "current of the group; negative for a charge", LW_NUMBER, -1000.0, 1000.0, NULL,
                 NULL, 0, 0},
    [START] = {"charge_share", "", "share of charge of all cells at the start; 1 (a charge: 0.1) when left out",
               LW_NUMBER, 0.0, 1.0, NULL, "", 0, 0},
    [PATH] = {"path_mohm", "mohm", "holder contact or wire of each cell", LW_NUMBER, 0.0, 1000.0, NULL, "0", 0, 0},
    [LIMIT] = {"cell_limit_a", "A", "what one cell may carry", LW_NUMBER, 0.001, 100.0, NULL, "", 0, 0},
    [END_V] = {"end_v", "V", "group voltage at which it stops; usual for the class when left out", LW_NUMBER, 2.0, 4.25,
               NULL, "", 0, 0},
    [CLASS] = {"voltage_class", "", "what is known of the chemistry", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
};

enum { START_A, MOST_A, AH, GROUP, START_SHARE, LARGEST, WHICH, AT, HOURS, WITHIN };
static const lw_output outputs[] = {
    [START_A] = {"start_a", "A", "current of each cell at the first moment", LW_NUMBERS},
    [MOST_A] = {"most_a", "A", "largest current of each cell in the run", LW_NUMBERS},
    [AH] = {"charge_ah", "Ah", "charge that each cell gave (negative: took in)", LW_NUMBERS},
    [GROUP] = {"group_mohm", "mohm", "resistance of the group", LW_NUMBER},
    [START_SHARE] = {"largest_start_share", "", "largest share at the first moment; 1 would be equal", LW_NUMBER},
    [LARGEST] = {"largest_share", "", "largest share in the whole run", LW_NUMBER},
    [WHICH] = {"largest_cell", "", "which cell has it, from 1", LW_INTEGER},
    [AT] = {"at_charge_share", "", "charge of the group at that moment", LW_NUMBER},
    [HOURS] = {"hours", "h", "length of the run", LW_NUMBER},
    [WITHIN] = {"within_limit", "", "no cell passes cell_limit_a", LW_FLAG},
};

static bool fill(const lw_value *in, lw_arena *arena, double **ohm, double **capacity, double **charge, lw_error *err)
{
    const size_t n = in[OHM].count;
    if (in[CAPACITY].given && in[CAPACITY].count != n)
        return lw_fail(err, LW_WRONG_INPUT, "capacities_ah",
                       "capacities_ah has %zu values, resistances_mohm %zu; each cell has both.", in[CAPACITY].count,
                       n);
    *ohm = lw_arena_take(arena, n, sizeof **ohm, err);
    *capacity = lw_arena_take(arena, n, sizeof **capacity, err);
    *charge = lw_arena_take(arena, n, sizeof **charge, err);
    if (!*ohm || !*capacity || !*charge)
        return false;
    for (size_t i = 0; i < n; i++) {
        (*ohm)[i] = in[OHM].list[i] / 1000.0;
        (*capacity)[i] = in[CAPACITY].given ? in[CAPACITY].list[i] : 2.0;
        (*charge)[i] = in[START].given ? in[START].number : in[CURRENT].number > 0.0 ? 1.0 : 0.1;
    }
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    double *ohm = NULL, *capacity = NULL, *charge = NULL;
    if (!fill(in, arena, &ohm, &capacity, &charge, err))
        return false;
    const lw_group_ask ask = {.ohm = ohm,
                              .capacity_ah = capacity,
                              .charge = charge,
                              .n = in[OHM].count,
                              .path_ohm = in[PATH].number / 1000.0,
                              .current_a = in[CURRENT].number,
                              .end_v = in[END_V].given ? in[END_V].number : 0.0,
                              .class = lw_cell_class_find(in[CLASS].text)};
    lw_group_run *r = lw_arena_take(arena, 1, sizeof *r, err);
    if (!r || !lw_group_share(&ask, r, err))
        return false;
    double most = 0.0;
    for (size_t i = 0; i < ask.n; i++)
        most = fmax(most, r->most_a[i]);
    out[START_A] = lw_value_list(r->start_a, ask.n);
    out[MOST_A] = lw_value_list(r->most_a, ask.n);
    out[AH] = lw_value_list(r->charge_ah, ask.n);
    out[GROUP] = lw_value_number(1000.0 * r->group_ohm);
    out[START_SHARE] = lw_value_number(r->largest_start_share);
    out[LARGEST] = lw_value_number(r->largest_share);
    out[WHICH] = lw_value_integer((double)r->largest_cell + 1.0);
    out[AT] = lw_value_number(r->largest_at_charge);
    out[HOURS] = lw_value_number(r->hours);
    if (in[LIMIT].given)
        out[WITHIN] = lw_value_flag(most <= in[LIMIT].number);
    return true;
}

const lw_figure lw_fig_group_sharing = {
    .name = "group_sharing",
    .room = "pack",
    .summary = "How the cells of a parallel group share the current, at once and through a whole discharge or charge.",
    .source = "Kirchhoff's laws: one voltage for all cells, currents (E - V)/R; open voltage curve of the class",
    .limits =
        "One resistance a cell, all cells at one temperature. At a lamp's 0.05 to 0.2 C shares follow the capacities "
        "except at the ends.",
    .example = "resistances_mohm=60,80,120 current_a=2 cell_limit_a=2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
