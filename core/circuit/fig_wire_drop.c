/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure wire_drop: volts and watts lost in a pair of wires.
 */
#include "lanewick/figure.h"
#include "lanewick/wire.h"

enum { LENGTH, AREA, AWG, CLASS, CURRENT, SUPPLY, TEMPERATURE, METAL };
static const lw_input inputs[] = {
    [LENGTH] = {"length_m", "m", "length one way; both wires are counted", LW_NUMBER, 0.001, 2000, NULL, NULL, 0, 0},
    [AREA] = {"area_mm2", "mm2", "copper area of one wire (or give awg)", LW_NUMBER, 0.005, 50, NULL, "", 0, 0},
    [AWG] = {"awg", "", "wire gauge number, solid wire (or give area_mm2)", LW_INTEGER, 0, 40, NULL, "", 0, 0},
    [CLASS] = {"conductor_class", "", "IEC 60228: 1 solid, 2 stranded, 5 flexible, 6 extra flexible", LW_INTEGER, 1, 6,
               NULL, "5", 0, 0},
    [CURRENT] = {"current_a", "A", "current in the wire", LW_NUMBER, 0, 200, NULL, NULL, 0, 0},
    [SUPPLY] = {"supply_v", "V", "voltage where the wire begins", LW_NUMBER, 0.5, 1000, NULL, NULL, 0, 0},
    [TEMPERATURE] = {"conductor_temp_c", "degC", "temperature of the copper", LW_NUMBER, -40, 105, NULL, "20", 0, 0},
    [METAL] = {"material", "", "metal of the wire", LW_CHOICE, 0, 0, LW_WIRE_METAL_WORDS, "copper", 0, 0},
};

enum { RESISTANCE, DROP, PERCENT, LOSS };
static const lw_output outputs[] = {
    [RESISTANCE] = {"resistance_ohm", "ohm", "both wires together at this temperature", LW_NUMBER},
    [DROP] = {"drop_v", "V", "voltage lost, there and back", LW_NUMBER},
    [PERCENT] = {"drop_pct", "%", "the same in per cent of the supply", LW_NUMBER},
    [LOSS] = {"loss_w", "W", "heat in the wires", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[AREA].given == in[AWG].given)
        return lw_fail(err, LW_WRONG_INPUT, "area_mm2", "Give either area_mm2 or awg, one of the two.");
    const double supply = in[SUPPLY].number, amps = in[CURRENT].number;
    if (supply > LW_ELV_LIMIT_V)
        return lw_fail(err, LW_REFUSED, "supply_v",
                       "supply_v is %g V; above %g V d.c. it is no longer extra-low voltage, and lanewick computes no "
                       "wiring for it: a licensed electrician decides.",
                       supply, LW_ELV_LIMIT_V);
    if (in[CLASS].number == 3.0 || in[CLASS].number == 4.0)
        return lw_fail(err, LW_WRONG_INPUT, "conductor_class", "IEC 60228 has the classes 1, 2, 5 and 6, not %g.",
                       in[CLASS].number);
    const double area = in[AREA].given ? in[AREA].number : lw_awg_area_mm2(in[AWG].number);
    const int conductor_class = in[AREA].given ? (int)in[CLASS].number : 0;
    const lw_wire_metal metal = (lw_wire_metal)in[METAL].number;
    const double ohm = 2.0 * in[LENGTH].number / 1000.0 * lw_wire_ohm_per_km(area, conductor_class, metal) *
                       lw_wire_temperature_factor(metal, in[TEMPERATURE].number);
    if (amps * ohm >= supply)
        return lw_fail(err, LW_NOT_COMPUTABLE, "current_a",
                       "The wire would need %.4g V to carry %g A, but the supply has %g V; the most that can flow is "
                       "%.4g A.",
                       amps * ohm, amps, supply, supply / ohm);
    out[RESISTANCE] = lw_value_number(ohm);
    out[DROP] = lw_value_number(amps * ohm);
    out[PERCENT] = lw_value_number(100.0 * amps * ohm / supply);
    out[LOSS] = lw_value_number(amps * amps * ohm);
    return true;
}

const lw_figure lw_fig_wire_drop = {
    .name = "wire_drop",
    .room = "circuit",
    .summary = "Voltage and power lost in a pair of wires, there and back.",
    .source = "IEC 60228 tables 1 to 4 (read in two cable makers' tables); AWG by ASTM B258 with 0.017241 ohm mm2/m; "
              "0.00393 per K for copper",
    .limits = "Direct current; the IEC table gives the most a conductor may have; AWG is taken as solid copper",
    .caution = "A wire must also carry the current without heating: see figure ampacity. Fuse it at the pack.",
    .example = "length_m=6 area_mm2=1.5 current_a=2 supply_v=11.1 conductor_temp_c=50",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
