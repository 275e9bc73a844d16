/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure charge_program: the resistor that sets a linear charger's current.
 */
#include "lanewick/eseries.h"
#include "lanewick/figure.h"

enum { CURRENT, R, VOLTS, INPUT, PACK };
static const lw_input inputs[] = {
    [CURRENT] = {"current_a", "A", "wanted charge current (or give resistor_ohm)", LW_NUMBER, 0.01, 1.2, NULL, "", 0,
                 0},
    [R] = {"resistor_ohm", "ohm", "programming resistor (or give current_a)", LW_NUMBER, 500, 200000, NULL, "", 0, 0},
    [VOLTS] = {"constant_v", "V", "current times resistor, from the data sheet: 1000 or 1200", LW_NUMBER, 100, 3000,
               NULL, "1000", 0, 0},
    [INPUT] = {"input_v", "V", "voltage at the charger's input", LW_NUMBER, 3, 30, NULL, "", 0, 0},
    [PACK] = {"pack_v", "V", "voltage of the cell", LW_NUMBER, 2, 5, NULL, "3.7", 0, 0},
};

enum { OHM, AMPS, HEAT };
static const lw_output outputs[] = {
    [OHM] = {"resistor_ohm", "ohm", "E24, rounded up", LW_NUMBER},
    [AMPS] = {"current_a", "A", "current with it", LW_NUMBER},
    [HEAT] = {"heat_w", "W", "heat in the charger at this input", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[CURRENT].given == in[R].given)
        return lw_fail(err, LW_WRONG_INPUT, "current_a", "Give either current_a or resistor_ohm, one of the two.");
    const double constant = in[VOLTS].number;
    const double ohm =
        in[R].given ? in[R].number : lw_eseries_round(constant / in[CURRENT].number, LW_E24, LW_ROUND_UP);
    out[OHM] = lw_value_number(ohm);
    out[AMPS] = lw_value_number(constant / ohm);
    if (in[INPUT].given && in[INPUT].number <= in[PACK].number)
        return lw_fail(err, LW_WRONG_INPUT, "input_v",
                       "input_v is %g V; a linear charger needs more than the cell's %g V.", in[INPUT].number,
                       in[PACK].number);
    if (in[INPUT].given)
        out[HEAT] = lw_value_number((in[INPUT].number - in[PACK].number) * constant / ohm);
    return true;
}

const lw_figure lw_fig_charge_program = {
    .name = "charge_program",
    .room = "circuit",
    .summary = "Programming resistor of a one-cell linear charger, its current and its heat.",
    .source = "data sheets of common one-cell linear chargers: 1000 V (450 to 550 mA at 2 kohm) or 1200 V "
              "(from memory) over the resistor",
    .limits = "Above about 1 W the chip throttles itself at 120 degC: count 0.5 to 0.6 A in the sun",
    .caution = "Many such boards have no cold cut-off: none may charge below 0 degC. Their input dies at 6.5 to "
               "8 V.",
    .example = "current_a=0.5 input_v=5.5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
