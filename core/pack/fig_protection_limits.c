/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure protection_limits: what the board, the fuse and the strips of a pack must keep.
 */
#include "lanewick/figure.h"
#include "lanewick/sharing.h"

enum { CLASS, SERIES, PARALLEL, LOAD, CHARGE, OHM, GROUP, CEILING, SPREAD, TOP, LIMIT };
static const lw_input inputs[] = {
    [CLASS] = {"voltage_class", "", "of all cells", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
    [SERIES] = {"series", "", "groups in series", LW_INTEGER, 1, 100, NULL, NULL, 0, 0},
    [PARALLEL] = {"parallel", "", "cells in the smallest group", LW_INTEGER, 1, 200, NULL, NULL, 0, 0},
    [LOAD] = {"load_a", "A", "highest steady current of the lamp", LW_NUMBER, 0.001, 1000.0, NULL, NULL, 0, 0},
    [CHARGE] = {"charge_a", "A", "highest charging current", LW_NUMBER, 0.0, 1000.0, NULL, "0", 0, 0},
    [OHM] = {"pack_mohm", "mohm", "resistance of the whole pack", LW_NUMBER, 0.1, 1e5, NULL, "", 0, 0},
    [GROUP] = {"group_ah", "Ah", "capacity of a group; 2 Ah a cell when left out", LW_NUMBER, 0.05, 10000.0, NULL, "",
               0, 0},
    [CEILING] = {"ceiling_v", "V", "end of charge per cell; the class's suggestion when left out", LW_NUMBER, 3.0, 5.0,
                 NULL, "", 0, 0},
    [SPREAD] = {"self_discharge_spread_pct", "%", "a month, between the fastest and the slowest group", LW_NUMBER, 0.0,
                100.0, NULL, "3", 0, 0},
    [TOP] = {"top_hours", "h", "a day near full charge, in which balancing works", LW_NUMBER, 0.1, 24.0, NULL, "1", 0,
             0},
    [LIMIT] = {"cell_limit_a", "A", "what one reclaimed cell may carry", LW_NUMBER, 0.05, 100.0, NULL, "1", 0, 0},
};

enum {
    CHARGE_V,
    OVER_LOW,
    OVER_HIGH,
    OVER_RELEASE,
    UNDER_LOW,
    UNDER_HIGH,
    UNDER_RELEASE,
    CUTOFF,
    CURRENT_LOW,
    CURRENT_HIGH,
    SHORT_MS,
    FUSE_LEAST,
    FUSE_MOST,
    FUSE_V,
    FUSE_BREAKS,
    BALANCING,
    BALANCE_V,
    BALANCE_A,
    CELL_WIRE,
    STRIP,
    WIRE,
    COLD,
    HOT
};
static const lw_output outputs[] = {
    [CHARGE_V] = {"charge_v", "V", "end of charge of the pack", LW_NUMBER},
    [OVER_LOW] = {"overcharge_trip_low_v", "V", "the board's overcharge trip per group: from", LW_NUMBER},
    [OVER_HIGH] = {"overcharge_trip_high_v", "V", "to, within 1 s", LW_NUMBER},
    [OVER_RELEASE] = {"overcharge_release_v", "V", "and its release", LW_NUMBER},
    [UNDER_LOW] = {"overdischarge_trip_low_v", "V", "the board's over-discharge trip per group: from", LW_NUMBER},
    [UNDER_HIGH] = {"overdischarge_trip_high_v", "V", "to", LW_NUMBER},
    [UNDER_RELEASE] = {"overdischarge_release_v", "V", "and its release", LW_NUMBER},
    [CUTOFF] = {"lamp_cutoff_v", "V", "the lamp goes out per group under load", LW_NUMBER},
    [CURRENT_LOW] = {"overcurrent_trip_low_a", "A", "overcurrent trip: from", LW_NUMBER},
    [CURRENT_HIGH] = {"overcurrent_trip_high_a", "A", "to", LW_NUMBER},
    [SHORT_MS] = {"short_trip_ms", "ms", "short-circuit trip within", LW_NUMBER},
    [FUSE_LEAST] = {"fuse_least_a", "A", "rating of the pack fuse: at least", LW_NUMBER},
    [FUSE_MOST] = {"fuse_most_a", "A", "at most, and no more than the wire carries", LW_NUMBER},
    [FUSE_V] = {"fuse_dc_v", "V", "d.c. voltage that it must stand", LW_NUMBER},
    [FUSE_BREAKS] = {"fuse_breaks_a", "A", "current that it must break", LW_NUMBER},
    [BALANCING] = {"balancing_needed", "", "a board that watches and balances every group is required", LW_FLAG},
    [BALANCE_V] = {"balance_start_v", "V", "balancing starts per group at", LW_NUMBER},
    [BALANCE_A] = {"balance_a", "A", "balancing current that keeps up with the self-discharge", LW_NUMBER},
    [CELL_WIRE] = {"cell_wire_carries_a", "A", "a cell's fuse wire must carry this; see figure cell_fuse", LW_NUMBER},
    [STRIP] = {"nickel_strip_mm2", "mm2", "section of nickel strip for the whole current", LW_NUMBER},
    [WIRE] = {"copper_wire_mm2", "mm2", "section of copper wire for the whole current", LW_NUMBER},
    [COLD] = {"charge_from_c", "degC", "charge only from this cell temperature", LW_NUMBER},
    [HOT] = {"charge_to_c", "degC", "up to this", LW_NUMBER},
};

static void fill(const lw_protection *p, lw_value *out)
{
    out[CHARGE_V] = lw_value_number(p->charge_v);
    out[OVER_LOW] = lw_value_number(p->over_low_v);
    out[OVER_HIGH] = lw_value_number(p->over_high_v);
    out[OVER_RELEASE] = lw_value_number(p->over_release_v);
    out[UNDER_LOW] = lw_value_number(p->under_low_v);
    out[UNDER_HIGH] = lw_value_number(p->under_high_v);
    out[UNDER_RELEASE] = lw_value_number(p->under_release_v);
    out[CUTOFF] = lw_value_number(p->lamp_cutoff_v);
    out[CURRENT_LOW] = lw_value_number(p->overcurrent_low_a);
    out[CURRENT_HIGH] = lw_value_number(p->overcurrent_high_a);
    out[SHORT_MS] = lw_value_number(p->short_ms);
    out[FUSE_LEAST] = lw_value_number(p->fuse_least_a);
    out[FUSE_MOST] = lw_value_number(p->fuse_most_a);
    out[FUSE_V] = lw_value_number(p->fuse_v);
    if (p->fuse_breaks_a > 0.0)
        out[FUSE_BREAKS] = lw_value_number(p->fuse_breaks_a);
    out[BALANCING] = lw_value_flag(p->balancing_needed);
    if (p->balancing_needed) {
        out[BALANCE_V] = lw_value_number(p->balance_start_v);
        out[BALANCE_A] = lw_value_number(p->balance_a);
    }
    if (p->cell_wire_carries_a > 0.0)
        out[CELL_WIRE] = lw_value_number(p->cell_wire_carries_a);
    out[STRIP] = lw_value_number(p->strip_mm2);
    out[WIRE] = lw_value_number(p->wire_mm2);
    out[COLD] = lw_value_number(p->charge_low_c);
    out[HOT] = lw_value_number(p->charge_high_c);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_protection_ask ask = {
        .class = lw_cell_class_find(in[CLASS].text),
        .series = (int)in[SERIES].number,
        .parallel = (int)in[PARALLEL].number,
        .load_a = in[LOAD].number,
        .charge_a = in[CHARGE].number,
        .pack_ohm = in[OHM].given ? in[OHM].number / 1000.0 : 0.0,
        .group_ah = in[GROUP].given ? in[GROUP].number : 2.0 * in[PARALLEL].number,
        .ceiling_v = in[CEILING].given ? in[CEILING].number : 0.0,
        .self_discharge_spread_pct_month = in[SPREAD].number,
        .top_hours_per_day = in[TOP].number,
        .cell_limit_a = in[LIMIT].number,
    };
    lw_protection p;
    if (!lw_protection_limits(&ask, &p, err))
        return false;
    fill(&p, out);
    return true;
}

const lw_figure lw_fig_protection_limits = {
    .name = "protection_limits",
    .room = "pack",
    .summary = "Thresholds for the protection board, the pack fuse, balancing and strips of a pack.",
    .source =
        "limits of cell data sheets (4.20 V +-0.05 V, charge 0 to 45 degC); windows, fuse and section factors common "
        "practice from memory",
    .limits = "The board comes on top of a charger with the right voltage, never instead of it.",
    .caution =
        "The fuse sits at the pack's plus, as close as can be, before anything else is connected. A board that trips "
        "often shows a fault: find it, never bridge the board.",
    .example = "voltage_class=4v2 series=3 parallel=4 load_a=1.2 charge_a=1.5 pack_mohm=60 group_ah=7.9",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
