/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure dusk_transistors: the dusk switch of two transistors that share an emitter resistor.
 */
#include "lanewick/figure.h"
#include "lanewick/trigger.h"

#include <math.h>

enum {
    R10_LOW,
    R10_HIGH,
    GAMMA_LOW,
    GAMMA_HIGH,
    LUX,
    RB,
    R1,
    R2,
    R3,
    SERIES,
    TOLERANCE,
    VBE_LOW,
    VBE_HIGH,
    MISMATCH,
    GAIN_LOW,
    GAIN_HIGH,
    COLD,
    WARM,
    EMPTY,
    FULL,
    SAMPLES,
    SEED
};
static const lw_input inputs[] = {
    [R10_LOW] = {"r10_low_ohm", "ohm", "photoresistor at 10 lux, least", LW_NUMBER, 100, 1e7, NULL, "10000", 0, 0},
    [R10_HIGH] = {"r10_high_ohm", "ohm", "the same, greatest", LW_NUMBER, 100, 1e7, NULL, "20000", 0, 0},
    [GAMMA_LOW] = {"gamma_low", "", "slope, least", LW_NUMBER, 0.2, 1.5, NULL, "0.5", 0, 0},
    [GAMMA_HIGH] = {"gamma_high", "", "slope, greatest", LW_NUMBER, 0.2, 1.5, NULL, "0.7", 0, 0},
    [LUX] = {"lux_on", "lx", "wanted switch-on light: the resistors are chosen for it (or give all four)", LW_NUMBER,
             0.05, 1000, NULL, "", 0, 0},
    [RB] = {"resistor_ohm", "ohm", "base of Q1 to minus", LW_NUMBER, 100, 1e8, NULL, "", 0, 0},
    [R1] = {"r1_ohm", "ohm", "plus to collector of Q1 and base of Q2", LW_NUMBER, 1000, 1e7, NULL, "", 0, 0},
    [R2] = {"r2_ohm", "ohm", "both emitters to minus", LW_NUMBER, 1000, 1e7, NULL, "", 0, 0},
    [R3] = {"r3_ohm", "ohm", "collector of Q2 to base of Q3", LW_NUMBER, 1000, 1e7, NULL, "", 0, 0},
    [SERIES] = {"series", "", "resistors at hand", LW_CHOICE, 0, 0, LW_ESERIES_WORDS, "E12", 0, 0},
    [TOLERANCE] = {"tolerance_pct", "%", "of the four resistors", LW_NUMBER, 0, 20, NULL, "5", 0, 0},
    [VBE_LOW] = {"vbe_low_v", "V", "base to emitter at 0.1 mA and 25 degC, least", LW_NUMBER, 0.45, 0.75, NULL, "0.55",
                 0, 0},
    [VBE_HIGH] = {"vbe_high_v", "V", "the same, greatest", LW_NUMBER, 0.45, 0.75, NULL, "0.65", 0, 0},
    [MISMATCH] = {"mismatch_mv", "mV", "between two transistors of one bag, either way", LW_NUMBER, 0, 50, NULL, "10",
                  0, 0},
    [GAIN_LOW] = {"gain_low", "", "collector over base current, least", LW_NUMBER, 30, 1000, NULL, "100", 0, 0},
    [GAIN_HIGH] = {"gain_high", "", "the same, greatest", LW_NUMBER, 30, 1000, NULL, "450", 0, 0},
    [COLD] = {"celsius_low", "degC", "coldest dusk", LW_NUMBER, -30, 80, NULL, "5", 0, 0},
    [WARM] = {"celsius_high", "degC", "warmest dusk", LW_NUMBER, -30, 80, NULL, "45", 0, 0},
    [EMPTY] = {"empty_v", "V", "empty pack", LW_NUMBER, 2, 60, NULL, "9", 0, 0},
    [FULL] = {"full_v", "V", "full pack", LW_NUMBER, 2, 60, NULL, "12.6", 0, 0},
    [SAMPLES] = {"samples", "", "draws", LW_INTEGER, 1000, 400000, NULL, "20000", 0, 0},
    [SEED] = {"seed", "", "of the draws", LW_INTEGER, 0, 4294967295.0, NULL, "1", 0, 0},
};

enum {
    OUT_RB,
    OUT_R1,
    OUT_R2,
    OUT_R3,
    ON,
    OFF,
    RATIO,
    ON_V,
    OFF_V,
    ON_EMPTY,
    OFF_EMPTY,
    ON_FULL,
    OFF_FULL,
    ON_COLD,
    ON_WARM,
    ON_WORST_LOW,
    ON_WORST_HIGH,
    OFF_WORST_LOW,
    OFF_WORST_HIGH,
    ON_P05,
    ON_P50,
    ON_P95,
    OFF_P05,
    OFF_P50,
    OFF_P95,
    DAY,
    NIGHT,
    MONTH
};
static const lw_output outputs[] = {
    [OUT_RB] = {"resistor_ohm", "ohm", "base of Q1 to minus", LW_NUMBER},
    [OUT_R1] = {"r1_ohm", "ohm", "plus to collector of Q1 and base of Q2", LW_NUMBER},
    [OUT_R2] = {"r2_ohm", "ohm", "both emitters to minus", LW_NUMBER},
    [OUT_R3] = {"r3_ohm", "ohm", "collector of Q2 to base of Q3", LW_NUMBER},
    [ON] = {"lux_on", "lx", "goes on below, pack half full, 25 degC, parts in the middle of their bands", LW_NUMBER},
    [OFF] = {"lux_off", "lx", "goes off above", LW_NUMBER},
    [RATIO] = {"ratio", "", "off over on", LW_NUMBER},
    [ON_V] = {"on_v", "V", "base of Q1 when it goes on", LW_NUMBER},
    [OFF_V] = {"off_v", "V", "base of Q1 when it goes off", LW_NUMBER},
    [ON_EMPTY] = {"lux_on_empty", "lx", "goes on, empty pack", LW_NUMBER},
    [OFF_EMPTY] = {"lux_off_empty", "lx", "goes off, empty pack", LW_NUMBER},
    [ON_FULL] = {"lux_on_full", "lx", "goes on, full pack", LW_NUMBER},
    [OFF_FULL] = {"lux_off_full", "lx", "goes off, full pack", LW_NUMBER},
    [ON_COLD] = {"lux_on_cold", "lx", "goes on, coldest dusk", LW_NUMBER},
    [ON_WARM] = {"lux_on_warm", "lx", "goes on, warmest dusk", LW_NUMBER},
    [ON_WORST_LOW] = {"lux_on_worst_low", "lx", "goes on, worst case of parts, warmth and supply, darkest", LW_NUMBER},
    [ON_WORST_HIGH] = {"lux_on_worst_high", "lx", "goes on, worst case, brightest", LW_NUMBER},
    [OFF_WORST_LOW] = {"lux_off_worst_low", "lx", "goes off, worst case, darkest", LW_NUMBER},
    [OFF_WORST_HIGH] = {"lux_off_worst_high", "lx", "goes off, worst case, brightest", LW_NUMBER},
    [ON_P05] = {"lux_on_p05", "lx", "goes on, 5 % of lamps darker, empty pack", LW_NUMBER},
    [ON_P50] = {"lux_on_p50", "lx", "goes on, half of the lamps darker, empty pack", LW_NUMBER},
    [ON_P95] = {"lux_on_p95", "lx", "goes on, 95 % of lamps darker, empty pack", LW_NUMBER},
    [OFF_P05] = {"lux_off_p05", "lx", "goes off, 5 % of lamps darker, empty pack", LW_NUMBER},
    [OFF_P50] = {"lux_off_p50", "lx", "goes off, half of the lamps darker, empty pack", LW_NUMBER},
    [OFF_P95] = {"lux_off_p95", "lx", "goes off, 95 % of lamps darker, empty pack", LW_NUMBER},
    [DAY] = {"day_ma", "mA", "what it takes in bright light, pack half full", LW_NUMBER},
    [NIGHT] = {"night_ma", "mA", "what it takes in the dark", LW_NUMBER},
    [MONTH] = {"standby_wh_month", "Wh", "its own use in a month, half of it day", LW_NUMBER},
};

static bool in_order(const lw_value *in, int low, int high, lw_error *err)
{
    return in[low].number <= in[high].number ||
           lw_fail(err, LW_WRONG_INPUT, inputs[low].name, "%s is %g; it must not pass %s, %g.", inputs[low].name,
                   in[low].number, inputs[high].name, in[high].number);
}

/* The four resistors: given, or chosen for the wanted light. */
static bool resistors(const lw_value *in, lw_trigger *t, lw_error *err)
{
    const int given = in[RB].given + in[R1].given + in[R2].given + in[R3].given;
    if (in[LUX].given ? given > 0 : given < 4)
        return lw_fail(err, LW_WRONG_INPUT, "lux_on",
                       "Give either lux_on, and the resistors are chosen, or all of resistor_ohm, r1_ohm, r2_ohm and "
                       "r3_ohm.");
    if (in[LUX].given) {
        const lw_resistors at_hand = {.series = (lw_eseries)in[SERIES].number};
        return lw_trigger_choose(&at_hand, in[LUX].number, in[EMPTY].number, t, err);
    }
    t->resistor_ohm = in[RB].number;
    t->r1_ohm = in[R1].number;
    t->r2_ohm = in[R2].number;
    t->r3_ohm = in[R3].number;
    return true;
}

static bool parts_from(const lw_value *in, lw_trigger_parts *p, lw_error *err)
{
    if (!in_order(in, R10_LOW, R10_HIGH, err) || !in_order(in, GAMMA_LOW, GAMMA_HIGH, err) ||
        !in_order(in, VBE_LOW, VBE_HIGH, err) || !in_order(in, GAIN_LOW, GAIN_HIGH, err) ||
        !in_order(in, COLD, WARM, err) || !in_order(in, EMPTY, FULL, err))
        return false;
    *p = (lw_trigger_parts){.r10_low_ohm = in[R10_LOW].number,
                            .r10_high_ohm = in[R10_HIGH].number,
                            .gamma_low = in[GAMMA_LOW].number,
                            .gamma_high = in[GAMMA_HIGH].number,
                            .tolerance = in[TOLERANCE].number / 100.0,
                            .vbe_low_v = in[VBE_LOW].number,
                            .vbe_high_v = in[VBE_HIGH].number,
                            .mismatch_v = in[MISMATCH].number / 1000.0,
                            .gain_low = in[GAIN_LOW].number,
                            .gain_high = in[GAIN_HIGH].number,
                            .celsius_low = in[COLD].number,
                            .celsius_high = in[WARM].number};
    p->middle = (lw_trigger){.r10_ohm = sqrt(p->r10_low_ohm * p->r10_high_ohm),
                             .gamma = 0.5 * (p->gamma_low + p->gamma_high),
                             .vbe_v = 0.5 * (p->vbe_low_v + p->vbe_high_v),
                             .gain = sqrt(p->gain_low * p->gain_high),
                             .celsius = 25.0,
                             .supply_v = 0.5 * (in[EMPTY].number + in[FULL].number)};
    return resistors(in, &p->middle, err);
}

/* The middle parts at another supply or temperature. */
static bool elsewhere(const lw_trigger *middle, double supply_v, double celsius, double *on, double *off, lw_error *err)
{
    lw_trigger t = *middle;
    lw_trigger_levels levels;
    t.supply_v = supply_v;
    t.celsius = celsius;
    if (!lw_trigger_at(&t, &levels, err))
        return false;
    *on = levels.lux_on;
    *off = levels.lux_off;
    return true;
}

static bool spreads(const lw_value *in, lw_trigger_parts p, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_dusk_spread on, off, on_full, off_full;
    const size_t samples = (size_t)in[SAMPLES].number;
    const uint64_t seed = (uint64_t)in[SEED].number;
    p.middle.supply_v = in[FULL].number;
    if (!lw_trigger_tolerance(&p, 1, seed, arena, &on_full, &off_full, err))
        return false;
    p.middle.supply_v = in[EMPTY].number;
    if (!lw_trigger_tolerance(&p, samples, seed, arena, &on, &off, err))
        return false;
    out[ON_WORST_LOW] = lw_value_number(fmin(on.worst_low, on_full.worst_low));
    out[ON_WORST_HIGH] = lw_value_number(fmax(on.worst_high, on_full.worst_high));
    out[OFF_WORST_LOW] = lw_value_number(fmin(off.worst_low, off_full.worst_low));
    out[OFF_WORST_HIGH] = lw_value_number(fmax(off.worst_high, off_full.worst_high));
    const double percentiles[] = {on.p05, on.p50, on.p95, off.p05, off.p50, off.p95};
    for (int i = 0; i < 6; i++)
        out[ON_P05 + i] = lw_value_number(percentiles[i]);
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_trigger_parts p;
    lw_trigger_levels l;
    double x[8];
    if (!parts_from(in, &p, err) || !lw_trigger_at(&p.middle, &l, err) ||
        !elsewhere(&p.middle, in[EMPTY].number, 25.0, &x[0], &x[1], err) ||
        !elsewhere(&p.middle, in[FULL].number, 25.0, &x[2], &x[3], err) ||
        !elsewhere(&p.middle, p.middle.supply_v, in[COLD].number, &x[4], &x[5], err) ||
        !elsewhere(&p.middle, p.middle.supply_v, in[WARM].number, &x[6], &x[7], err) ||
        !spreads(in, p, out, arena, err))
        return false;
    const double middle[] = {p.middle.resistor_ohm,
                             p.middle.r1_ohm,
                             p.middle.r2_ohm,
                             p.middle.r3_ohm,
                             l.lux_on,
                             l.lux_off,
                             l.lux_off / l.lux_on,
                             l.on_v,
                             l.off_v,
                             x[0],
                             x[1],
                             x[2],
                             x[3],
                             x[4],
                             x[6]};
    for (size_t i = 0; i < sizeof middle / sizeof middle[0]; i++)
        out[OUT_RB + (int)i] = lw_value_number(middle[i]);
    out[DAY] = lw_value_number(1e3 * l.day_a);
    out[NIGHT] = lw_value_number(1e3 * l.night_a);
    out[MONTH] = lw_value_number(0.5 * (l.day_a + l.night_a) * p.middle.supply_v * 730.5);
    return true;
}

const lw_figure lw_fig_dusk_transistors = {
    .name = "dusk_transistors",
    .room = "circuit",
    .summary = "Dusk switch of photoresistor and transistors: resistors, switching light, its spread, its own use.",
    .source = "closed form of the emitter-coupled trigger of two transistors; base to emitter -2 mV/K and the "
              "logarithm of its current; checked against a general circuit solver",
    .limits = "Warmth acts on the transistors; put the photoresistor's own (about 10 % of its ohms, 5 to 45 degC) and "
              "its ageing (30 %) into its band",
    .caution = "A photoresistor contains cadmium: do not burn it; it is hazardous waste.",
    .example = "lux_on=3 empty_v=9 full_v=12.6",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
