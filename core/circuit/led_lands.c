/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lands of common LEDs and the width of tracks: see lanewick/led_board.h. Lands as recommended in data sheets of parts
 * of this size (from memory; makers differ by a few tenths of a millimetre, so the LED at hand is laid on a print
 * first).
 */
#include "lanewick/led_board.h"

#include <math.h>
#include <string.h>

const lw_led_lands lw_led_lands_known[] = {
    {"2835", 3.5, 2.8, 1.05, 1.85, 2.1, 0.6, 0.0},
    {"5730", 5.7, 3.0, 1.6, 1.6, 2.4, 2.5, 0.0},
    {"5mm", 5.8, 5.8, 1.7, 1.7, 1.7, 0.84, 0.9}, /* wires 2.54 mm apart (IEC 60191) */
};
const size_t lw_led_lands_count = sizeof lw_led_lands_known / sizeof lw_led_lands_known[0];

const lw_led_lands *lw_led_lands_find(const char *name)
{
    for (size_t i = 0; i < lw_led_lands_count; i++)
        if (strcmp(lw_led_lands_known[i].name, name) == 0)
            return &lw_led_lands_known[i];
    return NULL;
}

bool lw_led_lands_check(const lw_led_lands *l, lw_error *err)
{
    return lw_in_range(err, "pads.plus_mm", l->plus_mm, 0.3, 10.0, "mm") &&
           lw_in_range(err, "pads.minus_mm", l->minus_mm, 0.3, 10.0, "mm") &&
           lw_in_range(err, "pads.height_mm", l->height_mm, 0.3, 10.0, "mm") &&
           lw_in_range(err, "pads.gap_mm", l->gap_mm, 0.3, 10.0, "mm") &&
           lw_in_range(err, "pads.drill_mm", l->drill_mm, 0.0, fmin(l->height_mm, fmin(l->plus_mm, l->minus_mm)) - 0.5,
                       "mm");
}

double lw_track_width_mm(double amps, double rise_k, double copper_um)
{
    const double mil_mm = 0.0254, mils2 = pow(amps / (0.048 * pow(rise_k, 0.44)), 1.0 / 0.725);
    return mils2 * mil_mm * mil_mm / (copper_um / 1000.0);
}
