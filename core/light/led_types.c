/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * White LEDs by type, as they are found in strips, boards and dead lamps. "Data sheet": values that a data sheet of a
 * part of that kind prints; "from memory": the common range, middle taken. Droop and heat loss: from memory for all.
 */
#include "lanewick/led.h"

/* clang-format off */
static const lw_led_type types[] = {
    {"2835_02w", 2.8, 3.3, "2835, 0.2 W class, 60 mA: 20 to 30 lm, 2.8 to 3.3 V (from memory); heat path from data sheets of that size",
     {0.06, 3.05, 25.0, 4.0, -0.0025, 0.12, 0.002, 15.0, 115.0}},
    {"2835_05w", 3.0, 3.4, "low-cost 2835, 0.5 W class: 3.2 V, 65 to 70 lm +-10 % at 150 mA (data sheet)",
     {0.15, 3.2, 68.0, 1.6, -0.0025, 0.12, 0.002, 15.0, 115.0}},
    {"2835_3v", 2.9, 3.3, "branded 2835, 3 V die: 2.9 / 3.1 / 3.3 V, 11 to 21 K/W, junction 125 to 135 degC (data sheet); 65 mA, 35 lm from memory",
     {0.065, 3.1, 35.0, 2.5, -0.0025, 0.10, 0.002, 15.0, 125.0}},
    {"5050", 3.0, 3.4, "5050, three dies of 20 mA side by side: 16 to 24 lm, 3.0 to 3.4 V (from memory)",
     {0.06, 3.2, 20.0, 4.0, -0.0025, 0.12, 0.002, 30.0, 100.0}},
    {"5730", 3.0, 3.4, "5730, 0.5 W class: 45 to 65 lm, 3.0 to 3.4 V at 150 mA (from memory)",
     {0.15, 3.2, 55.0, 1.6, -0.0025, 0.12, 0.002, 18.0, 115.0}},
    {"bead_1w", 3.0, 3.6, "1 W bead on its own slug: 90 to 130 lm, 3.0 to 3.6 V at 300 to 350 mA (from memory)",
     {0.35, 3.3, 110.0, 0.8, -0.003, 0.15, 0.002, 12.0, 115.0}},
    {"emitter", 3.4, 3.8, "older 3 to 5 W emitter: 190 lm, 3.6 V at 1 A, 5.5 K/W, -2.8 mV/K (data sheet); its points give a droop power of 0.4 below 1 A",
     {1.0, 3.6, 190.0, 0.4, -0.0028, 0.40, 0.002, 5.5, 135.0}},
};
/* clang-format on */

const lw_led_type *lw_led_type_at(size_t place)
{
    return place < sizeof types / sizeof types[0] ? &types[place] : NULL;
}
