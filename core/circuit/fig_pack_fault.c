/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure pack_fault: what a pack drives into a short circuit, and whether the fuse can break it.
 */
#include "lanewick/figure.h"
#include "lanewick/fuse.h"
#include "lanewick/wire.h"

enum { CELL_V, SERIES, PARALLEL, CELL_OHM, LOOP_OHM, KIND, RATING, AREA, AMBIENT };
static const lw_input inputs[] = {
    [CELL_V] = {"cell_v", "V", "voltage of a full cell", LW_NUMBER, 2.0, 4.4, NULL, "4.2", 0, 0},
    [SERIES] = {"series", "", "groups in series", LW_INTEGER, 1, 16, NULL, NULL, 0, 0},
    [PARALLEL] = {"parallel", "", "cells in a group", LW_INTEGER, 1, 200, NULL, NULL, 0, 0},
    [CELL_OHM] = {"cell_ohm", "ohm", "direct-current resistance of a cell; the least in the pack hurts most", LW_NUMBER,
                  0.002, 2.0, NULL, NULL, 0, 0},
    [LOOP_OHM] = {"loop_ohm", "ohm", "wires, joints and fuse in the shorted loop", LW_NUMBER, 0, 10, NULL, "0", 0, 0},
    [KIND] = {"fuse_kind", "", "kind of fuse at the pack", LW_CHOICE, 0, 0, LW_FUSE_KIND_WORDS, "", 0, 0},
    [RATING] = {"rating_a", "A", "its rating", LW_NUMBER, 0.03, 40, NULL, "", 0, 0},
    [AREA] = {"wire_area_mm2", "mm2", "thinnest wire behind the fuse", LW_NUMBER, 0.05, 50, NULL, "", 0, 0},
    [AMBIENT] = {"ambient_c", "degC", "air around the wire", LW_NUMBER, -40, 69, NULL, "45", 0, 0},
};

enum { VOLTS, AMPS, BREAKS, BREAKS_A, WIRE_S, WIRE_A };
static const lw_output outputs[] = {
    [VOLTS] = {"pack_v", "V", "voltage of the full pack", LW_NUMBER},
    [AMPS] = {"short_a", "A", "prospective short-circuit current", LW_NUMBER},
    [BREAKS] = {"fuse_breaks", "", "the fuse can break it", LW_FLAG},
    [BREAKS_A] = {"breaking_capacity_a", "A", "greatest current that this kind of fuse can break", LW_NUMBER},
    [WIRE_S] = {"wire_s", "s", "time in which the short ruins the wire: the fuse must be faster", LW_NUMBER},
    [WIRE_A] = {"wire_a", "A", "current that the wire carries for ever; its fuse may be no greater", LW_NUMBER},
};

/* The fuse blows before the wire burns; a kind that is not told counts by its rating alone. */
static bool guards_wire(const lw_value *in, lw_value *out, lw_error *err)
{
    if (!in[AREA].given)
        return true;
    const double wire_a = lw_wire_ampacity_a(in[AREA].number, in[AMBIENT].number);
    const lw_fuse_kind kind = in[KIND].given ? (lw_fuse_kind)in[KIND].number : LW_FUSE_BLADE;
    const double most_a = lw_fuse_guards_a(kind, wire_a);
    out[WIRE_A] = lw_value_number(wire_a);
    return !in[RATING].given || in[RATING].number <= most_a ||
           lw_fail(err, LW_REFUSED, "rating_a",
                   "Wire of %g mm2 carries %.3g A at %g degC; a fuse of this kind may be %.3g A at most to guard it, "
                   "and %g A lets the wire burn first. Take a thicker wire or a smaller fuse.",
                   in[AREA].number, wire_a, in[AMBIENT].number, most_a, in[RATING].number);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double series = in[SERIES].number, volts = series * in[CELL_V].number;
    const double ohm = series * in[CELL_OHM].number / in[PARALLEL].number + in[LOOP_OHM].number;
    const double amps = volts / ohm;
    out[VOLTS] = lw_value_number(volts);
    out[AMPS] = lw_value_number(amps);
    if (in[AREA].given)
        out[WIRE_S] = lw_value_number(lw_wire_fault_a2s(in[AREA].number) / (amps * amps));
    if (!guards_wire(in, out, err))
        return false;
    if (!in[KIND].given)
        return true;
    const lw_fuse_kind kind = (lw_fuse_kind)in[KIND].number;
    const double capacity = lw_fuse_breaks_a(kind, in[RATING].given ? in[RATING].number : 0.0);
    if (amps > capacity)
        return lw_fail(err, LW_REFUSED, "fuse_kind",
                       "The pack drives %.3g A into a short circuit; this kind of fuse breaks at most %.3g A and would "
                       "go on burning as an arc. Fit a blade fuse (ISO 8820-3, 1000 A at 32 V).",
                       amps, capacity);
    if (volts > lw_fuse_highest_v(kind))
        return lw_fail(err, LW_REFUSED, "fuse_kind", "The pack has %.3g V; this kind of fuse is made for %g V d.c.",
                       volts, lw_fuse_highest_v(kind));
    out[BREAKS] = lw_value_flag(true);
    out[BREAKS_A] = lw_value_number(capacity);
    return true;
}

const lw_figure lw_fig_pack_fault = {
    .name = "pack_fault",
    .room = "circuit",
    .summary = "Short-circuit current of a pack; refused when the fuse cannot break it.",
    .source = "Ohm's law; breaking capacities of IEC 60127-2 and ISO 8820-3, wire by IEC 60364-4-43 433.1 (In <= Iz, "
              "I2 <= 1.45 Iz; I2 2.1 In of 5 x 20, 1.35 In of blades) and 434.5.2, k = 115 (all from memory)",
    .limits = "A cell's resistance at the start of a short is lower than the one-second value by up to a half: the "
              "true peak may be twice as high",
    .caution = "A shorted pack throws molten metal within a second. Rings and watch straps off; cover what you do not "
               "work on; tools with taped shafts.",
    .example = "series=3 parallel=2 cell_ohm=0.04 loop_ohm=0.02 fuse_kind=blade rating_a=5 wire_area_mm2=1.5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
