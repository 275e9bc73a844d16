/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure maintenance_factor: light left of a head from LED age, failed LEDs, dirt and a yellowing bottle.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"

#include <math.h>

enum { SEALING, AIR, MONTHS, LED_LEFT, ALIVE, YELLOWING, YEARS };
static const lw_input inputs[] = {
    [SEALING] = {"sealing", "", "how the head keeps dust out", LW_CHOICE, 0, 0, "open|dust_protected|dust_tight",
                 "dust_protected", 0, 0},
    [AIR] = {"air", "", "dust in the air", LW_CHOICE, 0, 0, "clean|medium|dirty", "dirty", 0, 0},
    [MONTHS] = {"months_between_wipes", "month", "months from one wiping to the next", LW_NUMBER, 0, 120, NULL, "12", 0,
                0},
    [LED_LEFT] = {"led_share", "", "share of the LEDs' light left (lumen_maintenance)", LW_NUMBER, 0, 1.2, NULL, "0.9",
                  0, 0},
    [ALIVE] = {"alive_share", "", "share of the LEDs that still work", LW_NUMBER, 0, 1, NULL, "0.95", 0, 0},
    [YELLOWING] = {"bottle_loss_per_year", "1/year", "light lost a year by a yellowing bottle", LW_NUMBER, 0, 1, NULL,
                   "0.05", 0, 0},
    [YEARS] = {"bottle_years", "year", "age at which the bottle is changed", LW_NUMBER, 0, 20, NULL, "2", 0, 0},
};

enum { OUT_FACTOR, OUT_DIRT, OUT_BOTTLE };
static const lw_output outputs[] = {
    [OUT_FACTOR] = {"maintenance", "", "share of the first light left just before wiping", LW_NUMBER},
    [OUT_DIRT] = {"dirt_share", "", "of which by dirt", LW_NUMBER},
    [OUT_BOTTLE] = {"bottle_share", "", "of which by the bottle", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double dirt = lw_dirt_share((lw_sealing)in[SEALING].number, (lw_air)in[AIR].number, in[MONTHS].number);
    const double bottle = pow(1.0 - in[YELLOWING].number, in[YEARS].number);
    out[OUT_FACTOR] = lw_value_number(dirt * bottle * in[LED_LEFT].number * in[ALIVE].number);
    out[OUT_DIRT] = lw_value_number(dirt);
    out[OUT_BOTTLE] = lw_value_number(bottle);
    return true;
}

const lw_figure lw_fig_maintenance_factor = {
    .name = "maintenance_factor",
    .room = "light",
    .summary = "Share of a head's first light that is left when it is dirtiest and oldest.",
    .source =
        "CIE 154:2003 and BS 5489 dirt table (from memory), times LED and bottle shares; ISO/CIE TS 22012:2019 gives "
        "the way of working",
    .limits = "Hand-made heads are not sealed like the table's lamps: wipe often, look inside for insects.",
    .example = "sealing=open air=dirty months_between_wipes=3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
