/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure dusk_switch: the resistor beside the photoresistor, and the lux at which the lamp goes on and off.
 */
#include "lanewick/dusk.h"
#include "lanewick/eseries.h"
#include "lanewick/figure.h"

enum { R10, GAMMA, LUX_ON, RESISTOR, SUPPLY, REFERENCE, HYSTERESIS, SIDE, SERIES, DARK };
static const lw_input inputs[] = {
    [R10] = {"ldr_r10_ohm", "ohm", "photoresistor at 10 lux, measured on the part in hand", LW_NUMBER, 100, 1e7, NULL,
             NULL, 0, 0},
    [GAMMA] = {"ldr_gamma", "", "its slope, log10(R at 10 lux / R at 100 lux)", LW_NUMBER, 0.2, 1.5, NULL, NULL, 0, 0},
    [LUX_ON] = {"lux_on", "lx", "wanted: the lamp goes on when it is darker than this", LW_NUMBER, 0.05, 5000, NULL, "",
                0, 0},
    [RESISTOR] = {"resistor_ohm", "ohm", "resistor beside it, when it is given already", LW_NUMBER, 10, 1e8, NULL, "",
                  0, 0},
    [SUPPLY] = {"supply_v", "V", "voltage over the divider", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [REFERENCE] = {"reference_v", "V", "middle of the two thresholds; half the supply when left out", LW_NUMBER, 0.01,
                   60, NULL, "", 0, 0},
    [HYSTERESIS] = {"hysteresis_v", "V", "full width between the two thresholds", LW_NUMBER, 0, 60, NULL, NULL, 0, 0},
    [SIDE] = {"ldr_side", "", "where the photoresistor goes: to the supply or to ground", LW_CHOICE, 0, 0,
              "supply|ground", "supply", 0, 0},
    [SERIES] = {"series", "", "round the resistor to this series (by ratio); exact: leave it", LW_CHOICE, 0, 0,
                "exact|" LW_ESERIES_WORDS, "exact", 0, 0},
    [DARK] = {"ldr_dark_ohm", "ohm", "highest resistance it reaches in the dark", LW_NUMBER, 1000, 1e9, NULL, "2e7", 0,
              0},
};

enum { OUT_RESISTOR, OUT_ON, OUT_OFF, RATIO, NODE_ON, NODE_OFF, LDR_ON, LDR_OFF };
static const lw_output outputs[] = {
    [OUT_RESISTOR] = {"resistor_ohm", "ohm", "resistor beside the photoresistor", LW_NUMBER},
    [OUT_ON] = {"lux_on", "lx", "the lamp goes on below this, with that resistor", LW_NUMBER},
    [OUT_OFF] = {"lux_off", "lx", "and off above this", LW_NUMBER},
    [RATIO] = {"off_over_on", "", "how far apart: 3 to 6 is good", LW_NUMBER},
    [NODE_ON] = {"node_on_v", "V", "voltage of the divider at switch-on", LW_NUMBER},
    [NODE_OFF] = {"node_off_v", "V", "voltage of the divider at switch-off", LW_NUMBER},
    [LDR_ON] = {"ldr_on_ohm", "ohm", "the photoresistor at switch-on", LW_NUMBER},
    [LDR_OFF] = {"ldr_off_ohm", "ohm", "the photoresistor at switch-off", LW_NUMBER},
};

/* The two node levels as parts of the supply, in the order on, off. */
static bool levels(const lw_value *in, double *on, double *off, lw_error *err)
{
    const double supply = in[SUPPLY].number, half = 0.5 * in[HYSTERESIS].number;
    const double middle = in[REFERENCE].given ? in[REFERENCE].number : 0.5 * supply;
    if (middle >= supply)
        return lw_fail(err, LW_WRONG_INPUT, "reference_v",
                       "reference_v is %g V; it must lie between 0 and the supply of %g V.", middle, supply);
    if (middle - half <= 0.0 || middle + half >= supply)
        return lw_fail(err, LW_WRONG_INPUT, "hysteresis_v",
                       "hysteresis_v is %g V; around %g V the thresholds would be %g and %g V, and they must lie "
                       "between 0 and %g V.",
                       2.0 * half, middle, middle - half, middle + half, supply);
    const bool ground = in[SIDE].number != 0.0;
    *on = (ground ? middle + half : middle - half) / supply;
    *off = (ground ? middle - half : middle + half) / supply;
    return true;
}

static bool resistor(const lw_value *in, double on, double *ohm, lw_error *err)
{
    if (in[RESISTOR].given) {
        *ohm = in[RESISTOR].number;
        return true;
    }
    if (!in[LUX_ON].given)
        return lw_fail(err, LW_WRONG_INPUT, "lux_on", "Give lux_on, the wanted switching light, or resistor_ohm.");
    const double ldr = lw_ldr_ohm(in[R10].number, in[GAMMA].number, in[LUX_ON].number);
    *ohm = in[SIDE].number != 0.0 ? ldr * (1.0 - on) / on : ldr * on / (1.0 - on);
    if (in[SERIES].number > 0.0)
        *ohm = lw_eseries_round(*ohm, (lw_eseries)(in[SERIES].number - 1.0), LW_ROUND_NEAREST);
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    double on = 0.0, off = 0.0, ohm = 0.0;
    if (!levels(in, &on, &off, err) || !resistor(in, on, &ohm, err))
        return false;
    const lw_dusk_divider divider = {in[R10].number, in[GAMMA].number, ohm, in[SIDE].number != 0.0};
    const double lux_on = lw_dusk_lux(&divider, on), lux_off = lw_dusk_lux(&divider, off);
    const double ldr_on = lw_ldr_ohm(divider.r10_ohm, divider.gamma, lux_on);
    if (ldr_on > 0.5 * in[DARK].number || ohm < 100.0 || ohm > 1e7)
        return lw_fail(err, LW_NOT_COMPUTABLE, in[LUX_ON].given ? "lux_on" : "resistor_ohm",
                       "This photoresistor cannot reach %.3g lux: it would need %.3g ohm (dark limit %.3g ohm) beside "
                       "a resistor of %.3g ohm (100 ohm to 10 Mohm can be built); take another type or threshold.",
                       lux_on, ldr_on, in[DARK].number, ohm);
    out[OUT_RESISTOR] = lw_value_number(ohm);
    out[OUT_ON] = lw_value_number(lux_on);
    out[OUT_OFF] = lw_value_number(lux_off);
    out[RATIO] = lw_value_number(lux_off / lux_on);
    out[NODE_ON] = lw_value_number(on * in[SUPPLY].number);
    out[NODE_OFF] = lw_value_number(off * in[SUPPLY].number);
    out[LDR_ON] = lw_value_number(ldr_on);
    out[LDR_OFF] = lw_value_number(lw_ldr_ohm(divider.r10_ohm, divider.gamma, lux_off));
    return true;
}

const lw_figure lw_fig_dusk_switch = {
    .name = "dusk_switch",
    .room = "circuit",
    .summary = "Resistor beside a photoresistor, and the lux at which the lamp goes on and off.",
    .source = "photoresistor R = R10 (E/10)^-gamma as in part data sheets; voltage divider; comparator with hysteresis",
    .limits = "Levels are shares of the supply, so they hold from full to empty pack when the reference is a divider "
              "too; parts scatter: see dusk_tolerance",
    .caution = "A photoresistor contains cadmium: do not burn it; it is hazardous waste.",
    .example = "ldr_r10_ohm=15000 ldr_gamma=0.6 lux_on=3 supply_v=12 hysteresis_v=2.2 series=E12",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
