/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure cell_fuse: thin wire at each cell of a group, when one cell goes short inside.
 */
#include "lanewick/figure.h"
#include "lanewick/fuse.h"
#include "lanewick/wire.h"

#include "lanewick/units.h"

enum { PARALLEL, CELL_V, CELL_OHM, DIAMETER, LENGTH, AMBIENT };
static const lw_input inputs[] = {
    [PARALLEL] = {"parallel", "", "cells in the group", LW_INTEGER, 2, 200, NULL, NULL, 0, 0},
    [CELL_V] = {"cell_v", "V", "voltage of the cells", LW_NUMBER, 2.0, 4.4, NULL, "4.2", 0, 0},
    [CELL_OHM] = {"cell_ohm", "ohm", "resistance of a cell, also of the shorted one", LW_NUMBER, 0.002, 2, NULL, NULL,
                  0, 0},
    [DIAMETER] = {"diameter_mm", "mm", "diameter of the copper wire", LW_NUMBER, 0.05, 1.0, NULL, NULL, 0, 0},
    [LENGTH] = {"length_mm", "mm", "free length between the joints", LW_NUMBER, 5, 200, NULL, "20", 0, 0},
    [AMBIENT] = {"ambient_c", "degC", "start temperature", LW_NUMBER, -40, 70, NULL, "25", 0, 0},
};

enum { BAD_A, OTHER_A, BAD_S, OTHER_S, CARRY_A, PREECE_A, WIRE_OHM, HELPS };
static const lw_output outputs[] = {
    [BAD_A] = {"bad_cell_a", "A", "current through the wire of the shorted cell", LW_NUMBER},
    [OTHER_A] = {"other_cell_a", "A", "current through the wire of each other cell", LW_NUMBER},
    [BAD_S] = {"bad_cell_melts_s", "s", "time until its wire melts", LW_NUMBER},
    [OTHER_S] = {"other_cell_melts_s", "s", "time in which the others would melt", LW_NUMBER},
    [CARRY_A] = {"working_a", "A", "current a cell may give all the time, 0.3 of the long-time melting current",
                 LW_NUMBER},
    [PREECE_A] = {"melts_long_a", "A", "long-time melting current in open air", LW_NUMBER},
    [WIRE_OHM] = {"wire_ohm", "ohm", "resistance of one fuse wire, cold", LW_NUMBER},
    [HELPS] = {"helps", "", "only the bad cell's wire melts: above its long-time current, and well before the others",
               LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double d = in[DIAMETER].number, area = 0.25 * lw_pi * d * d;
    const double wire = lw_wire_ohm_per_km(area, 0, LW_COPPER) * in[LENGTH].number * 1e-6;
    const double branch = in[CELL_OHM].number + wire, others = in[PARALLEL].number - 1.0;
    const double bad = in[CELL_V].number / (branch + branch / others), other = bad / others;
    const double a2s = lw_fuse_wire_a2s(area, in[AMBIENT].number), melts = lw_fuse_wire_long_a(d);
    out[BAD_A] = lw_value_number(bad);
    out[OTHER_A] = lw_value_number(other);
    out[BAD_S] = lw_value_number(a2s / (bad * bad));
    out[OTHER_S] = lw_value_number(a2s / (other * other));
    out[CARRY_A] = lw_value_number(0.3 * melts);
    out[PREECE_A] = lw_value_number(melts);
    out[WIRE_OHM] = lw_value_number(wire);
    out[HELPS] = lw_value_flag(others >= 2.0 && bad > 1.5 * melts);
    return true;
}

const lw_figure lw_fig_cell_fuse = {
    .name = "cell_fuse",
    .room = "circuit",
    .summary = "Thin copper wire as a fuse at each cell: currents and melting times when one cell goes short.",
    .source = "Preece's rule 10244 d^1.5 (d in inch; Brooks, Printed Circuit Design and Fab); Onderdonk's equation "
              "with 1083 degC",
    .limits = "Between the two rules lie the real times; joints nearer than 20 mm cool the wire and it melts later; it "
              "begins to help at three cells in parallel",
    .caution =
        "Melting copper throws beads: sleeve the wire, keep it off the cell's skin and its vent. Nickel strip is "
        "not a fuse.",
    .example = "parallel=4 cell_v=3.9 cell_ohm=0.04 diameter_mm=0.25",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
