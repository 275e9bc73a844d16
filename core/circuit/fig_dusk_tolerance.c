/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure dusk_tolerance: how far the switching light and the switching minute scatter.
 */
#include "lanewick/dusk.h"
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum {
    R10_LOW,
    R10_HIGH,
    GAMMA_LOW,
    GAMMA_HIGH,
    RB,
    R1,
    R2,
    R3,
    TOLERANCE,
    OFFSET,
    SUPPLY,
    LATITUDE,
    LAMP,
    SAMPLES,
    SEED
};
static const lw_input inputs[] = {
    [R10_LOW] = {"r10_low_ohm", "ohm", "photoresistor at 10 lux, least", LW_NUMBER, 100, 1e7, NULL, NULL, 0, 0},
    [R10_HIGH] = {"r10_high_ohm", "ohm", "the same, greatest", LW_NUMBER, 100, 1e7, NULL, NULL, 0, 0},
    [GAMMA_LOW] = {"gamma_low", "", "slope, least", LW_NUMBER, 0.2, 1.5, NULL, "0.5", 0, 0},
    [GAMMA_HIGH] = {"gamma_high", "", "slope, greatest", LW_NUMBER, 0.2, 1.5, NULL, "0.7", 0, 0},
    [RB] = {"resistor_ohm", "ohm", "resistor from the divider's middle to ground", LW_NUMBER, 10, 1e8, NULL, NULL, 0,
            0},
    [R1] = {"r1_ohm", "ohm", "reference to the supply", LW_NUMBER, 100, 1e8, NULL, "100000", 0, 0},
    [R2] = {"r2_ohm", "ohm", "reference to ground", LW_NUMBER, 100, 1e8, NULL, "100000", 0, 0},
    [R3] = {"r3_ohm", "ohm", "reference to the output", LW_NUMBER, 100, 1e8, NULL, "220000", 0, 0},
    [TOLERANCE] = {"tolerance_pct", "%", "of the four resistors", LW_NUMBER, 0, 30, NULL, "5", 0, 0},
    [OFFSET] = {"offset_mv", "mV", "input offset of the comparator, either sign", LW_NUMBER, 0, 100, NULL, "0", 0, 0},
    [SUPPLY] = {"supply_min_v", "V", "empty pack", LW_NUMBER, 1, 60, NULL, "3", 0, 0},
    [LATITUDE] = {"latitude_deg", "degree", "of the place; the sun sinks slower far from the equator", LW_NUMBER, -60,
                  60, NULL, "0", 0, 0},
    [LAMP] = {"lamp_w", "W", "power of the lamp, to tell what the scatter costs", LW_NUMBER, 0, 500, NULL, "", 0, 0},
    [SAMPLES] = {"samples", "", "draws", LW_INTEGER, 1000, 400000, NULL, "100000", 0, 0},
    [SEED] = {"seed", "", "of the draws", LW_INTEGER, 0, 4294967295.0, NULL, "1", 0, 0},
};

enum {
    ON,
    ON_WORST_LOW,
    ON_WORST_HIGH,
    ON_P0135,
    ON_P05,
    ON_P50,
    ON_P95,
    ON_P99865,
    OFF,
    OFF_WORST_LOW,
    OFF_WORST_HIGH,
    OFF_P0135,
    OFF_P05,
    OFF_P50,
    OFF_P95,
    OFF_P99865,
    EARLY,
    LATE,
    COST
};
static const lw_output outputs[] = {
    [ON] = {"lux_on", "lx", "goes on, all parts in the middle of their bands", LW_NUMBER},
    [ON_WORST_LOW] = {"lux_on_worst_low", "lx", "goes on, worst case, darkest", LW_NUMBER},
    [ON_WORST_HIGH] = {"lux_on_worst_high", "lx", "goes on, worst case, brightest", LW_NUMBER},
    [ON_P0135] = {"lux_on_p0135", "lx", "goes on, 0.135 % of lamps darker", LW_NUMBER},
    [ON_P05] = {"lux_on_p05", "lx", "goes on, 5 % of lamps darker", LW_NUMBER},
    [ON_P50] = {"lux_on_p50", "lx", "goes on, half of the lamps darker", LW_NUMBER},
    [ON_P95] = {"lux_on_p95", "lx", "goes on, 95 % of lamps darker", LW_NUMBER},
    [ON_P99865] = {"lux_on_p99865", "lx", "goes on, 99.865 % of lamps darker", LW_NUMBER},
    [OFF] = {"lux_off", "lx", "goes off, all parts in the middle", LW_NUMBER},
    [OFF_WORST_LOW] = {"lux_off_worst_low", "lx", "goes off, worst case, darkest", LW_NUMBER},
    [OFF_WORST_HIGH] = {"lux_off_worst_high", "lx", "goes off, worst case, brightest", LW_NUMBER},
    [OFF_P0135] = {"lux_off_p0135", "lx", "goes off, 0.135 %", LW_NUMBER},
    [OFF_P05] = {"lux_off_p05", "lx", "goes off, 5 %", LW_NUMBER},
    [OFF_P50] = {"lux_off_p50", "lx", "goes off, half of the lamps", LW_NUMBER},
    [OFF_P95] = {"lux_off_p95", "lx", "goes off, 95 %", LW_NUMBER},
    [OFF_P99865] = {"lux_off_p99865", "lx", "goes off, 99.865 %", LW_NUMBER},
    [EARLY] = {"on_early_min", "min", "worst case before the middle, clear sky, day of the equinox", LW_NUMBER},
    [LATE] = {"on_late_min", "min", "worst case after it", LW_NUMBER},
    [COST] = {"cost_wh_night", "Wh", "energy of a night more, worst case on and off", LW_NUMBER},
};

static bool parts_from(const lw_value *in, lw_dusk_parts *parts, lw_error *err)
{
    *parts = (lw_dusk_parts){
        .r10_low_ohm = in[R10_LOW].number,
        .r10_high_ohm = in[R10_HIGH].number,
        .gamma_low = in[GAMMA_LOW].number,
        .gamma_high = in[GAMMA_HIGH].number,
        .resistor_ohm = in[RB].number,
        .r1_ohm = in[R1].number,
        .r2_ohm = in[R2].number,
        .r3_ohm = in[R3].number,
        .tolerance = in[TOLERANCE].number / 100.0,
        .offset = in[OFFSET].number / 1000.0 / in[SUPPLY].number,
    };
    if (parts->r10_low_ohm > parts->r10_high_ohm)
        return lw_fail(err, LW_WRONG_INPUT, "r10_low_ohm", "r10_low_ohm is %g; it must not pass r10_high_ohm, %g.",
                       parts->r10_low_ohm, parts->r10_high_ohm);
    if (parts->gamma_low > parts->gamma_high)
        return lw_fail(err, LW_WRONG_INPUT, "gamma_low", "gamma_low is %g; it must not pass gamma_high, %g.",
                       parts->gamma_low, parts->gamma_high);
    return true;
}

static void write_spread(lw_value *out, const lw_dusk_spread *s)
{
    const double values[] = {s->nominal, s->worst_low, s->worst_high, s->p0135, s->p05, s->p50, s->p95, s->p99865};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++)
        out[i] = lw_value_number(values[i]);
}

/* Minutes from the sun's passing the height of one illuminance to the other: 15 degree an hour times cos latitude. */
static bool minutes_between(double from_lux, double to_lux, double latitude_deg, double *minutes, lw_error *err)
{
    double from = 0.0, to = 0.0;
    if (!lw_sun_altitude_for_lux(from_lux, 1.0, &from, err) || !lw_sun_altitude_for_lux(to_lux, 1.0, &to, err))
        return false;
    *minutes = (from - to) / (0.25 * cos(latitude_deg * lw_radian_per_degree));
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_dusk_parts parts;
    lw_dusk_spread on, off;
    if (!parts_from(in, &parts, err) ||
        !lw_dusk_tolerance(&parts, (size_t)in[SAMPLES].number, (uint64_t)in[SEED].number, arena, &on, &off, err))
        return false;
    write_spread(&out[ON], &on);
    write_spread(&out[OFF], &off);
    double early = 0.0, late = 0.0, morning = 0.0;
    const double latitude = in[LATITUDE].number;
    if (!minutes_between(on.worst_high, on.nominal, latitude, &early, err) ||
        !minutes_between(on.nominal, on.worst_low, latitude, &late, err) ||
        !minutes_between(off.worst_high, off.nominal, latitude, &morning, err))
        return false;
    out[EARLY] = lw_value_number(early);
    out[LATE] = lw_value_number(late);
    if (in[LAMP].given)
        out[COST] = lw_value_number(in[LAMP].number * (early + morning) / 60.0);
    return true;
}

const lw_figure lw_fig_dusk_tolerance = {
    .name = "dusk_tolerance",
    .room = "circuit",
    .summary = "Spread of the switching light and minute of a photoresistor switch: worst case and percentiles.",
    .source = "corners of all parts; Monte Carlo with every part uniform in its band; daylight by Janiczek & DeYoung "
              "(1987)",
    .limits = "Photoresistor to the supply, comparator output from 0 to supply; ageing of the photoresistor (30 %) "
              "belongs into the band given",
    .example = "r10_low_ohm=10000 r10_high_ohm=20000 resistor_ohm=22000 lamp_w=3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
