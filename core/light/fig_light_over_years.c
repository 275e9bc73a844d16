/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure light_over_years: light of a head year by year, from LEDs, failures, dirt and the bottle.
 */
#include "lanewick/diffuser.h"
#include "lanewick/figure.h"
#include "lanewick/led.h"
#include "lanewick/led_strings.h"

#include <math.h>

enum { YEARS, LUMENS, HOURS, CASE, ALPHA, SERIES, RATE, OPEN, SEALING, AIR, MONTHS, MATERIAL, CHANGE };
static const lw_input inputs[] = {
    [YEARS] = {"years", "year", "planned, whole", LW_INTEGER, 1, 30, NULL, "5", 0, 0},
    [LUMENS] = {"lumens", "lm", "of the head when new", LW_NUMBER, 0.1, 1e6, NULL, "500", 0, 0},
    [HOURS] = {"hours_a_night", "h", "alight", LW_NUMBER, 0.1, 24, NULL, "11", 0, 0},
    [CASE] = {"case_c", "degC", "temperature of the LEDs' case while alight (head_heat tells the board)", LW_NUMBER, 0,
              130, NULL, "55", 0, 0},
    [ALPHA] = {"alpha_per_h", "1/h", "fall of the LEDs' light, instead of case_c (lumen_maintenance)", LW_NUMBER, 0,
               1e-3, NULL, "", 0, 0},
    [SERIES] = {"leds_in_series", "", "in each string", LW_INTEGER, 1, 40, NULL, "3", 0, 0},
    [RATE] = {"failures_per_million_h", "1/(10^6 h)", "of one LED with its joints (led_spares)", LW_NUMBER, 0, 1000,
              NULL, "1", 0, 0},
    [OPEN] = {"open_share", "", "share of failures that darken the string", LW_NUMBER, 0, 1, NULL, "0.7", 0, 0},
    [SEALING] = {"sealing", "", "how the head keeps dust out", LW_CHOICE, 0, 0, "open|dust_protected|dust_tight",
                 "dust_protected", 0, 0},
    [AIR] = {"air", "", "dust in the air", LW_CHOICE, 0, 0, "clean|medium|dirty", "dirty", 0, 0},
    [MONTHS] = {"months_between_wipes", "month", "from one wiping to the next", LW_NUMBER, 0, 120, NULL, "12", 0, 0},
    [MATERIAL] = {"material", "", "of the bottle", LW_CHOICE, 0, 0, LW_DIFFUSER_MATERIAL_WORDS, "pet", 0, 0},
    [CHANGE] = {"bottle_years", "year", "age at which the bottle is changed; 0: no bottle", LW_NUMBER, 0, 30, NULL, "2",
                0, 0},
};

enum { YEAR, LED, ALIVE, BOTTLE, ALL, LM, DIRT, LOW, NOTE };
static const lw_output outputs[] = {
    [YEAR] = {"year", "year", "end of each", LW_NUMBERS},
    [LED] = {"led_share", "", "left of the LEDs' light", LW_NUMBERS},
    [ALIVE] = {"alive_share", "", "left by failed LEDs", LW_NUMBERS},
    [BOTTLE] = {"bottle_share", "", "left by the bottle of that age", LW_NUMBERS},
    [ALL] = {"maintenance", "", "all together, just before wiping", LW_NUMBERS},
    [LM] = {"lumens", "lm", "then", LW_NUMBERS},
    [DIRT] = {"dirt_share", "", "left by dirt just before wiping", LW_NUMBER},
    [LOW] = {"lowest", "", "lowest maintenance of the planned years (maintenance of a lane)", LW_NUMBER},
    [NOTE] = {"note", "", "what the answer is worth", LW_TEXT},
};
enum { LISTS = 6 };

/* Age of the bottle at the end of a year: it is changed when it is bottle_years old. */
static double bottle_age(double year, double change_y)
{
    const double age = fmod(year, change_y);
    return age < 1e-9 ? change_y : age;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const size_t years = (size_t)in[YEARS].number;
    double *list = lw_arena_take(arena, LISTS * years, sizeof *list, err), lowest = INFINITY;
    if (!list)
        return false;
    const lw_decay decay = {1.0, in[ALPHA].given ? in[ALPHA].number : lw_decay_typical_per_h(in[CASE].number),
                            INFINITY};
    const double loss = lw_diffuser_material_at((size_t)in[MATERIAL].number)->loss_per_year.usual;
    const double dirt = lw_dirt_share((lw_sealing)in[SEALING].number, (lw_air)in[AIR].number, in[MONTHS].number);
    for (size_t i = 0; i < years; i++) {
        const double year = (double)i + 1.0, hours_h = year * 365.25 * in[HOURS].number;
        const double alive =
            lw_led_survive((int)in[SERIES].number, 1, 1e-6 * in[RATE].number, hours_h, in[OPEN].number, 0.5)
                .light_share;
        const double bottle = in[CHANGE].number > 0.0 ? pow(1.0 - loss, bottle_age(year, in[CHANGE].number)) : 1.0;
        const double led = lw_decay_share(&decay, hours_h), share = led * alive * bottle * dirt;
        const double row[LISTS] = {year, led, alive, bottle, share, share * in[LUMENS].number};
        for (size_t k = 0; k < LISTS; k++)
            list[k * years + i] = row[k];
        lowest = fmin(lowest, share);
    }
    for (size_t k = 0; k < LISTS; k++)
        out[YEAR + k] = lw_value_list(list + k * years, years);
    out[DIRT] = lw_value_number(dirt);
    out[LOW] = lw_value_number(lowest);
    out[NOTE] =
        lw_value_text(in[ALPHA].given ? "LEDs by the alpha given: no claim beyond six times the hours of its test."
                                      : "LEDs without test data: the fall of their light is a wide guess. Dirt, "
                                        "water and solder joints usually decide.");
    return true;
}

const lw_figure lw_fig_light_over_years = {
    .name = "light_over_years",
    .room = "light",
    .summary = "Light of a head now and year by year: LEDs that fade and fail, dirt, a bottle that yellows.",
    .source = "TM-21 decay, exponential failures, CIE 154:2003 dirt table, yellowing by material (docs/models/led.md, "
              "docs/models/diffuser.md; from memory where said)",
    .limits = "Dirt as just before wiping; yellowing as the usual value of a wide band.",
    .example = "years=5 lumens=500 sealing=open months_between_wipes=3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
