/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure thermistor_window: values of the charge temperature window.
 */
#include "lanewick/charging.h"
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum { R25, B, COLD, HOT, PULL, WRONG };
static const lw_input inputs[] = {
    [R25] = {"r25_ohm", "ohm", "at 25 degC", LW_NUMBER, 100, 1000000.0, NULL, "10000", 0, 0},
    [B] = {"b_k", "K", "its B value, printed with the part", LW_NUMBER, 2000, 5500, NULL, NULL, 0, 0},
    [COLD] = {"cold_c", "degC", "no charging below", LW_NUMBER, -20, 40, NULL, "0", 0, 0},
    [HOT] = {"hot_c", "degC", "no charging above", LW_NUMBER, 20, 90, NULL, "45", 0, 0},
    [PULL] = {"pull_up_ohm", "ohm", "resistor to the supply", LW_NUMBER, 100, 10000000.0, NULL, "10000", 0, 0},
    [WRONG] = {"other_b_k", "K", "a B value that the part may have instead", LW_NUMBER, 2000, 5500, NULL, "", 0, 0},
};

enum { COLD_OHM, HOT_OHM, COLD_RATIO, HOT_RATIO, COLD_IS, HOT_IS };
static const lw_output outputs[] = {
    [COLD_OHM] = {"cold_ohm", "ohm", "thermistor at the cold limit", LW_NUMBER},
    [HOT_OHM] = {"hot_ohm", "ohm", "at the hot limit", LW_NUMBER},
    [COLD_RATIO] = {"cold_ratio", "", "voltage over the supply at the cold limit", LW_NUMBER},
    [HOT_RATIO] = {"hot_ratio", "", "at the hot limit", LW_NUMBER},
    [COLD_IS] = {"cold_with_other_c", "degC", "true cold limit when the part has the other B", LW_NUMBER},
    [HOT_IS] = {"hot_with_other_c", "degC", "true hot limit then", LW_NUMBER},
};

/* Temperature at which a thermistor of this B has the resistance. */
static double celsius_at(double r25_ohm, double b_k, double ohm)
{
    return 1.0 / (1.0 / 298.15 + log(ohm / r25_ohm) / b_k) - lw_zero_celsius_k;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double r25 = in[R25].number, b = in[B].number, pull = in[PULL].number;
    if (in[COLD].number >= in[HOT].number)
        return lw_fail(err, LW_WRONG_INPUT, "cold_c", "cold_c is %g; it must lie below hot_c, %g.", in[COLD].number,
                       in[HOT].number);
    if (in[COLD].number < 0.0 || in[HOT].number > 45.0)
        return lw_fail(err, LW_REFUSED, in[COLD].number < 0.0 ? "cold_c" : "hot_c",
                       "Lithium cells are charged between 0 and 45 degC only; the window asked for is %g to %g degC.",
                       in[COLD].number, in[HOT].number);
    const double cold = lw_thermistor_ohm(r25, b, in[COLD].number), hot = lw_thermistor_ohm(r25, b, in[HOT].number);
    out[COLD_OHM] = lw_value_number(cold);
    out[HOT_OHM] = lw_value_number(hot);
    out[COLD_RATIO] = lw_value_number(cold / (cold + pull));
    out[HOT_RATIO] = lw_value_number(hot / (hot + pull));
    if (in[WRONG].given) {
        out[COLD_IS] = lw_value_number(celsius_at(r25, in[WRONG].number, cold));
        out[HOT_IS] = lw_value_number(celsius_at(r25, in[WRONG].number, hot));
    }
    return true;
}

const lw_figure lw_fig_thermistor_window = {
    .name = "thermistor_window",
    .room = "circuit",
    .summary = "Thermistor values and ratios at the cold and hot limit of charging.",
    .source = "R25 exp(B (1/T - 1/298.15)), as in thermistor data sheets; window 0 to 45 degC of this project "
              "(JEITA practice is similar)",
    .limits = "A thermistor to ground with a resistor to the supply",
    .caution = "The thermistor sits on a cell, not on the board. Many cheap boards tie this input to ground: "
               "the cold cut-off is then missing.",
    .example = "b_k=3950 other_b_k=3435",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
