/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An LED on its board: electrical point, light and heat solved together. The junction temperature changes voltage
 * and light, which change the heat, which changes the temperature: repeated until it stands still (the loop gain is
 * small: a few parts in a thousand per kelvin times tens of kelvin per watt).
 */
#include "lanewick/led.h"

#include <math.h>

static const double lumens_per_radiated_watt = 320.0; /* white light, 290 to 340 (from memory) */
/* Share of the rated current below which less current gives no more light a watt: white LEDs peak there (from memory).
 */
static const double droop_ends_at = 0.15;

lw_led lw_led_typical(void)
{
    /* 3.2 V, 68 lm at 150 mA and -35..60 degC: data sheet of a low-cost 2835 part; 15 K/W and -2.5 mV/K: the middle of
     * three data sheets of that size (11 to 21 K/W, -2.0 to -2.5 mV/K); droop and heat loss: from memory. */
    return (lw_led){.rated_a = 0.15,
                    .rated_vf_v = 3.2,
                    .rated_lm = 68.0,
                    .slope_ohm = 1.6,
                    .vf_per_k_v = -0.0025,
                    .droop_power = 0.12,
                    .flux_per_k = 0.002,
                    .junction_to_board_k_w = 15.0,
                    .max_junction_c = 115.0};
}

void lw_led_at(const lw_led *led, double current_a, double junction_c, lw_led_point *out)
{
    const double above = junction_c - 25.0;
    out->vf_v = led->rated_vf_v + led->slope_ohm * (current_a - led->rated_a) + led->vf_per_k_v * above;
    out->power_w = out->vf_v * current_a;
    const double rated_lm_per_w = led->rated_lm / (led->rated_vf_v * led->rated_a);
    const double droop = pow(fmax(current_a / led->rated_a, droop_ends_at), -led->droop_power);
    const double cold_power_w = (led->rated_vf_v + led->slope_ohm * (current_a - led->rated_a)) * current_a;
    out->lumens = rated_lm_per_w * droop * cold_power_w * fmax(0.0, 1.0 - led->flux_per_k * above);
    out->lumens_per_w = out->lumens / out->power_w;
    out->heat_w = fmax(0.0, out->power_w - out->lumens / lumens_per_radiated_watt);
}

bool lw_led_solve(const lw_led *led, double current_a, size_t count, double board_to_air_k_w, double air_c,
                  lw_led_point *out, lw_error *err)
{
    if (!lw_in_range(err, "current_a", current_a, 1e-5, 3.0 * led->rated_a, "A"))
        return false;
    double junction_c = air_c;
    for (int i = 0; i < 100; i++) {
        lw_led_at(led, current_a, junction_c, out);
        if (out->vf_v <= 0.0)
            return lw_fail(err, LW_NOT_COMPUTABLE, "slope_ohm",
                           "The forward voltage falls to %g V; are the readings of this LED right?", out->vf_v);
        out->board_c = air_c + out->heat_w * (double)count * board_to_air_k_w;
        const double next = out->board_c + out->heat_w * led->junction_to_board_k_w;
        const double change = next - junction_c;
        junction_c += 0.7 * change; /* damped: a board with almost no cooling still settles */
        if (fabs(change) < 1e-9)
            break;
        if (junction_c > 400.0)
            return lw_fail(
                err, LW_NOT_COMPUTABLE, "board_to_air_k_w",
                "The board has no way to lose its heat: the junction would pass 400 degC. Use less current or "
                "more metal.");
    }
    out->junction_c = junction_c;
    out->too_hot = junction_c > led->max_junction_c;
    return true;
}
