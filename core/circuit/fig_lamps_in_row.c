/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure lamps_in_row: voltage at each lamp along one pair of wires.
 */
#include "lanewick/figure.h"
#include "lanewick/wire.h"

enum { LENGTHS, CURRENTS, AREA, SUPPLY, TEMPERATURE };
static const lw_input inputs[] = {
    [LENGTHS] = {"lengths_m", "m", "length of each section from the supply on, one way", LW_NUMBERS, 0.01, 2000, NULL,
                 NULL, 1, 100},
    [CURRENTS] = {"currents_a", "A", "current of the lamp at the end of each section", LW_NUMBERS, 0, 60, NULL, NULL, 1,
                  100},
    [AREA] = {"area_mm2", "mm2", "copper area of one wire, class 5", LW_NUMBER, 0.05, 50, NULL, NULL, 0, 0},
    [SUPPLY] = {"supply_v", "V", "voltage where the row begins", LW_NUMBER, 0.5, 60, NULL, NULL, 0, 0},
    [TEMPERATURE] = {"conductor_temp_c", "degC", "temperature of the copper", LW_NUMBER, -40, 105, NULL, "20", 0, 0},
};

enum { VOLTS, LAST_PCT, FIRST_A, LOSS };
static const lw_output outputs[] = {
    [VOLTS] = {"volts_v", "V", "voltage at each lamp", LW_NUMBERS},
    [LAST_PCT] = {"drop_pct", "%", "drop to the last lamp", LW_NUMBER},
    [FIRST_A] = {"first_section_a", "A", "current in the first section", LW_NUMBER},
    [LOSS] = {"loss_w", "W", "heat in all wires", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const size_t n = in[LENGTHS].count;
    if (in[CURRENTS].count != n)
        return lw_fail(err, LW_WRONG_INPUT, "currents_a",
                       "lengths_m has %zu values and currents_a %zu; they must be as many.", n, in[CURRENTS].count);
    double *volts = lw_arena_take(arena, n, sizeof *volts, err);
    if (!volts)
        return false;
    const double ohm_km = 2.0 * lw_wire_ohm_per_km(in[AREA].number, 5, LW_COPPER) *
                          lw_wire_temperature_factor(LW_COPPER, in[TEMPERATURE].number);
    double amps = 0.0, at = in[SUPPLY].number, loss = 0.0;
    for (size_t i = 0; i < n; i++)
        amps += in[CURRENTS].list[i];
    out[FIRST_A] = lw_value_number(amps);
    for (size_t i = 0; i < n; i++) {
        const double ohm = ohm_km * in[LENGTHS].list[i] / 1000.0;
        at -= amps * ohm;
        loss += amps * amps * ohm;
        amps -= in[CURRENTS].list[i];
        volts[i] = at;
    }
    if (at <= 0.0)
        return lw_fail(err, LW_NOT_COMPUTABLE, "currents_a",
                       "The wires would need more than the %g V of the supply: thicker wire or fewer lamps.",
                       in[SUPPLY].number);
    out[VOLTS] = lw_value_list(volts, n);
    out[LAST_PCT] = lw_value_number(100.0 * (1.0 - at / in[SUPPLY].number));
    out[LOSS] = lw_value_number(loss);
    return true;
}

const lw_figure lw_fig_lamps_in_row = {
    .name = "lamps_in_row",
    .room = "circuit",
    .summary = "Voltage at each of several lamps along one pair of wires.",
    .source = "Ohm's law section by section; IEC 60228 class 5",
    .limits = "Lamps with a fixed current; each lamp's own lead is not counted",
    .example = "lengths_m=10,10,10 currents_a=0.5,0.5,0.5 area_mm2=0.75 supply_v=11.1",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
