/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure resistance_two_pulse: d.c. resistance by two currents.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

enum { U1, I1, U2, I2, PERCENT, DIGITS, STEP };
static const lw_input inputs[] = {
    [U1] = {"u1_v", "V", "voltage at the end of the small load (0.2 C, 10 s), 0 to 4.6", LW_NUMBER, -1e5, 1e5, NULL,
            NULL, 0, 0},
    [I1] = {"i1_a", "A", "the small load; 0 for the open voltage", LW_NUMBER, 0.0, 1e3, NULL, NULL, 0, 0},
    [U2] = {"u2_v", "V", "voltage at the end of the large load (1 C, 1 s), 0 to 4.6", LW_NUMBER, -1e5, 1e5, NULL, NULL,
            0, 0},
    [I2] = {"i2_a", "A", "the large load", LW_NUMBER, 1e-4, 1e3, NULL, NULL, 0, 0},
    [PERCENT] = {"meter_percent", "%", "of the reading, from the meter's sheet", LW_NUMBER, 0.0, 10.0, NULL, "0.5", 0,
                 0},
    [DIGITS] = {"meter_digits", "", "of the last place, from the meter's sheet", LW_NUMBER, 0.0, 50.0, NULL, "2", 0, 0},
    [STEP] = {"meter_step_v", "V", "value of one digit", LW_NUMBER, 1e-6, 0.1, NULL, "0.001", 0, 0},
};

enum { OHM, SD };
static const lw_output outputs[] = {
    [OHM] = {"resistance_ohm", "ohm", "(u1 - u2) / (i2 - i1)", LW_NUMBER},
    [SD] = {"resistance_sd_ohm", "ohm", "its standard uncertainty", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_meter meter = {in[PERCENT].number, in[DIGITS].number, in[STEP].number};
    double ohm, sd;
    if (!lw_resistance_two_pulse(in[U1].number, in[I1].number, in[U2].number, in[I2].number, &meter, &ohm, &sd, err))
        return false;
    out[OHM] = lw_value_number(ohm);
    out[SD] = lw_value_number(sd);
    return true;
}

const lw_figure lw_fig_resistance_two_pulse = {
    .name = "resistance_two_pulse",
    .room = "cell",
    .summary = "Direct-current resistance of a cell from its voltage at two loads.",
    .source = "IEC 61960-3, d.c. internal resistance by two timed loads (clause and times from memory)",
    .limits = "Not to be compared with an a.c. value at 1 kHz, which is lower, nor with other pulse times.",
    .example = "u1_v=3.842 i1_a=0.44 u2_v=3.716 i2_a=2.2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
