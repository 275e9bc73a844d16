/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure lumen_maintenance: light left after hours of burning, from test readings or from B and alpha.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"

#include <math.h>

enum { HOURS, SHARES, B, ALPHA, AT, TO };
static const lw_input inputs[] = {
    [HOURS] = {"hours_h", "h", "hours of the test readings", LW_NUMBERS, 0, 1e6, NULL, "", 2, 1000},
    [SHARES] = {"share", "", "light at those hours over the light at the start", LW_NUMBERS, 0.01, 1.5, NULL, "", 2,
                1000},
    [B] = {"b", "", "B of phi = B exp(-alpha t), instead of readings", LW_NUMBER, 0.5, 1.5, NULL, "", 0, 0},
    [ALPHA] = {"alpha_per_h", "1/h",
               "alpha, instead of readings; about 1e-5 at 85 degC where nothing is known (from memory)", LW_NUMBER,
               -1e-3, 1e-2, NULL, "", 0, 0},
    [AT] = {"at_h", "h", "hours of burning; 12 h a night are 4380 a year", LW_NUMBER, 0, 1e6, NULL, "21900", 0, 0},
    [TO] = {"to_share", "", "share for the life", LW_NUMBER, 0.1, 0.99, NULL, "0.7", 0, 0},
};

enum { OUT_SHARE, OUT_LIFE, OUT_B, OUT_ALPHA, OUT_LIMIT, OUT_NOTE };
static const lw_output outputs[] = {
    [OUT_SHARE] = {"share_left", "", "light left at at_h", LW_NUMBER},
    [OUT_LIFE] = {"life_h", "h", "hours until to_share", LW_NUMBER},
    [OUT_B] = {"b", "", "B", LW_NUMBER},
    [OUT_ALPHA] = {"alpha_per_h", "1/h", "alpha", LW_NUMBER},
    [OUT_LIMIT] = {"claim_limit_h", "h", "six times the test: nothing may be claimed beyond", LW_NUMBER},
    [OUT_NOTE] = {"note", "", "what the answer is worth", LW_TEXT},
};

static bool decay_of(const lw_value *in, lw_decay *decay, lw_error *err)
{
    const bool readings = in[HOURS].given && in[SHARES].given, stated = in[B].given && in[ALPHA].given;
    if (readings == stated || in[HOURS].given != in[SHARES].given)
        return lw_fail(err, LW_WRONG_INPUT, "hours_h", "Give either hours_h and share, or b and alpha_per_h.");
    if (stated) {
        *decay = (lw_decay){in[B].number, in[ALPHA].number, INFINITY};
        return true;
    }
    if (in[HOURS].count != in[SHARES].count)
        return lw_fail(err, LW_WRONG_INPUT, "share", "share has %zu values and hours_h %zu; they must be as many.",
                       in[SHARES].count, in[HOURS].count);
    return lw_decay_fit(in[HOURS].list, in[SHARES].list, in[HOURS].count, decay, err);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    lw_decay decay = {0};
    if (!decay_of(in, &decay, err))
        return false;
    const double life = lw_decay_hours(&decay, in[TO].number);
    out[OUT_SHARE] = lw_value_number(lw_decay_share(&decay, in[AT].number));
    if (isfinite(life))
        out[OUT_LIFE] = lw_value_number(life);
    out[OUT_B] = lw_value_number(decay.b);
    out[OUT_ALPHA] = lw_value_number(decay.alpha_per_h);
    if (isfinite(decay.claim_limit_h))
        out[OUT_LIMIT] = lw_value_number(decay.claim_limit_h);
    const bool beyond = in[AT].number > decay.claim_limit_h || (isfinite(life) && life > decay.claim_limit_h);
    out[OUT_NOTE] = lw_value_text(beyond ? "beyond six times the test: no claim, a guess at best"
                                         : "the LED alone: solder, water and driver usually end the head first");
    return true;
}

const lw_figure lw_fig_lumen_maintenance = {
    .name = "lumen_maintenance",
    .room = "light",
    .summary = "Share of an LED's light that is left after hours of burning, and its life.",
    .source = "IES TM-21-11: phi(t) = B exp(-alpha t), L70 = ln(B/0.7)/alpha, no claim beyond 6 times the test (from a "
              "public IES article; fitting rule from memory)",
    .limits = "Only the LED itself; the six-fold rule is the standard's for 20 samples or more.",
    .example = "b=0.985 alpha_per_h=4.2e-6 at_h=20000",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
