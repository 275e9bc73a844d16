/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_flicker: flicker of a head dimmed by switching.
 */
#include "lanewick/figure.h"
#include "lanewick/flicker.h"

enum { HZ, DUTY, LOW };
static const lw_input inputs[] = {
    [HZ] = {"frequency_hz", "Hz", "of the switching", LW_NUMBER, 1, 1000000, NULL, NULL, 0, 0},
    [DUTY] = {"duty", "", "share of each period with full light", LW_NUMBER, 0.001, 1, NULL, NULL, 0, 0},
    [LOW] = {"low_share", "", "light between, over full light; 0: off", LW_NUMBER, 0, 1, NULL, "0", 0, 0},
};

enum { MEAN, DEPTH, INDEX, RISK, NONE_PCT, RISK_HZ, NONE_HZ, VERDICT };
static const lw_output outputs[] = {
    [MEAN] = {"mean_share", "", "mean light over full light", LW_NUMBER},
    [DEPTH] = {"modulation_depth_pct", "%", "(max - min)/(max + min)", LW_NUMBER},
    [INDEX] = {"flicker_index", "", "share of the light's area above its mean", LW_NUMBER},
    [RISK] = {"low_risk_pct", "%", "depth allowed at this frequency for low risk", LW_NUMBER},
    [NONE_PCT] = {"no_effect_pct", "%", "depth allowed for no observable effect", LW_NUMBER},
    [RISK_HZ] = {"low_risk_from_hz", "Hz", "frequency from which this depth is of low risk", LW_NUMBER},
    [NONE_HZ] = {"no_effect_from_hz", "Hz", "frequency from which it has no observable effect", LW_NUMBER},
    [VERDICT] = {"verdict", "", "in words", LW_TEXT},
};

static const char *verdict(const lw_flicker *f, double hz)
{
    if (f->depth_pct <= f->no_effect_pct)
        return "no observable effect";
    if (f->depth_pct <= f->low_risk_pct)
        return "low risk";
    if (hz < 90.0)
        return "CAUTION: people see it flicker; between 3 and 70 Hz it can bring on fits. Do not use it.";
    return "too deep for this frequency: headaches, and moving things seem to stand still. Switch faster.";
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const lw_flicker f = lw_flicker_of(in[HZ].number, in[DUTY].number, in[LOW].number);
    out[MEAN] = lw_value_number(f.mean_share);
    out[DEPTH] = lw_value_number(f.depth_pct);
    out[INDEX] = lw_value_number(f.index);
    out[RISK] = lw_value_number(f.low_risk_pct);
    out[NONE_PCT] = lw_value_number(f.no_effect_pct);
    out[RISK_HZ] = lw_value_number(f.low_risk_hz);
    out[NONE_HZ] = lw_value_number(f.no_effect_hz);
    out[VERDICT] = lw_value_text(verdict(&f, in[HZ].number));
    return true;
}

const lw_figure lw_fig_led_flicker = {
    .name = "led_flicker",
    .room = "light",
    .summary = "Whether a head that is dimmed by switching flickers, and the frequency that it needs.",
    .source = "IEEE Std 1789-2015, recommended practices 1 and 2 (from memory): 0.08 f and 0.0333 f per cent from 90 "
              "Hz, 0.025 f and 0.01 f below",
    .limits = "LEDs follow the current at once; a capacitor across them makes it better than told.",
    .example = "frequency_hz=500 duty=0.3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
