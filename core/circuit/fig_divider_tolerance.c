/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure divider_tolerance: worst case and scatter of a divider.
 */
#include "lanewick/figure.h"

#include <math.h>

enum { R1, R2, TOLERANCE };
static const lw_input inputs[] = {
    [R1] = {"r1_ohm", "ohm", "upper resistor", LW_NUMBER, 0.01, 1000000000.0, NULL, NULL, 0, 0},
    [R2] = {"r2_ohm", "ohm", "lower resistor", LW_NUMBER, 0.01, 1000000000.0, NULL, NULL, 0, 0},
    [TOLERANCE] = {"tolerance_pct", "%", "of each", LW_NUMBER, 0, 50, NULL, "5", 0, 0},
};

enum { RATIO, LOW, HIGH, RSS, SIGMA3 };
static const lw_output outputs[] = {
    [RATIO] = {"ratio", "", "lower over both", LW_NUMBER},
    [LOW] = {"worst_low_pct", "%", "worst case, low", LW_NUMBER},
    [HIGH] = {"worst_high_pct", "%", "worst case, high", LW_NUMBER},
    [RSS] = {"rss_pct", "%", "the two contributions added in squares", LW_NUMBER},
    [SIGMA3] = {"sigma3_uniform_pct", "%",
                "three standard deviations of parts uniform in their band: may pass the worst case", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double r1 = in[R1].number, r2 = in[R2].number, t = in[TOLERANCE].number / 100.0;
    const double k = r2 / (r1 + r2);
    const double low = r2 * (1.0 - t) / (r2 * (1.0 - t) + r1 * (1.0 + t));
    const double high = r2 * (1.0 + t) / (r2 * (1.0 + t) + r1 * (1.0 - t));
    const double rss = (1.0 - k) * t * sqrt(2.0);
    out[RATIO] = lw_value_number(k);
    out[LOW] = lw_value_number(100.0 * (low / k - 1.0));
    out[HIGH] = lw_value_number(100.0 * (high / k - 1.0));
    out[RSS] = lw_value_number(100.0 * rss);
    out[SIGMA3] = lw_value_number(100.0 * rss * sqrt(3.0));
    return true;
}

const lw_figure lw_fig_divider_tolerance = {
    .name = "divider_tolerance",
    .room = "circuit",
    .summary = "Worst case, squared sum and three-sigma of a voltage divider: why the worst case decides what "
               "is safe.",
    .source = "closed form; sensitivity of a divider (1 - k)(t2 - t1); uniform parts have a standard deviation "
              "t/sqrt 3",
    .limits = "Two independent resistors",
    .example = "r1_ohm=10000 r2_ohm=10000 tolerance_pct=1",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
