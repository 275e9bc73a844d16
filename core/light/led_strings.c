/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strings side by side: the one that needs least voltage takes most current, warms, needs still less. Currents at a
 * common voltage are straight lines; temperatures follow from them; both are repeated until they stand still.
 */
#include "lanewick/led_strings.h"

#include <math.h>

static const double runaway_c = 400.0;

/* Volts of a string without its resistor when no current flows (straight line), and ohms of all of it. */
static double start_v(const lw_led_group *g, size_t i)
{
    const double above = g->junction_c[i] - 25.0;
    return g->series *
           (g->led.rated_vf_v + g->offset_v[i] - g->led.slope_ohm * g->led.rated_a + g->led.vf_per_k_v * above);
}

static double total_a(lw_led_group *g, double volt)
{
    const double ohm = g->ballast_ohm + g->series * g->led.slope_ohm;
    double sum = 0.0;
    for (size_t i = 0; i < g->count; i++) {
        g->current_a[i] = fmax(0.0, (volt - start_v(g, i)) / ohm);
        sum += g->current_a[i];
    }
    return sum;
}

/* Common voltage at which the strings together take total_a: halving, the sum rises with the voltage. */
static double common_v(lw_led_group *g)
{
    double low = INFINITY, high = 0.0;
    for (size_t i = 0; i < g->count; i++) {
        low = fmin(low, start_v(g, i));
        high = fmax(high, start_v(g, i));
    }
    high += g->total_a * (g->ballast_ohm + g->series * g->led.slope_ohm);
    for (int i = 0; i < 80; i++) {
        const double middle = 0.5 * (low + high);
        if (total_a(g, middle) < g->total_a)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

/* Heat of one LED of string i; its voltage in *vf_v. */
static double led_heat_w(const lw_led_group *g, size_t i, double *lumens)
{
    lw_led_point at;
    lw_led led = g->led;
    led.rated_vf_v += g->offset_v[i];
    *lumens = 0.0;
    if (g->current_a[i] < 1e-5)
        return 0.0;
    lw_led_at(&led, g->current_a[i], g->junction_c[i], &at);
    *lumens = at.lumens;
    return at.heat_w;
}

/* One round of temperatures; the largest change. */
static double warm(lw_led_group *g)
{
    double heat_w[LW_LED_STRINGS], all_w = 0.0, change = 0.0;
    g->lumens = 0.0;
    for (size_t i = 0; i < g->count; i++) {
        double lumens = 0.0;
        heat_w[i] = led_heat_w(g, i, &lumens);
        all_w += heat_w[i] * g->series;
        g->lumens += lumens * g->series;
    }
    for (size_t i = 0; i < g->count; i++) {
        const double next = g->air_c + all_w * g->board_to_air_k_w + heat_w[i] * g->own_k_w;
        change = fmax(change, fabs(next - g->junction_c[i]));
        g->junction_c[i] += 0.5 * (next - g->junction_c[i]);
    }
    return change;
}

static void extremes(lw_led_group *g)
{
    g->strongest = g->weakest = 0;
    for (size_t i = 1; i < g->count; i++) {
        if (g->current_a[i] > g->current_a[g->strongest])
            g->strongest = i;
        if (g->current_a[i] < g->current_a[g->weakest])
            g->weakest = i;
    }
}

bool lw_led_strings_solve(lw_led_group *g, lw_error *err)
{
    for (size_t i = 0; i < g->count; i++)
        g->junction_c[i] = g->air_c;
    for (int round = 0; round < 4000; round++) {
        g->supply_v = common_v(g);
        (void)total_a(g, g->supply_v);
        const double change = warm(g);
        extremes(g);
        if (!(g->junction_c[g->strongest] < runaway_c))
            break;
        if (change < 1e-7)
            return true;
    }
    return lw_fail(err, LW_REFUSED, "ballast_ohm",
                   "One string takes more and more of the current and burns: its junction would pass %g degC. Give "
                   "every string its own resistor, use less current or more metal.",
                   runaway_c);
}

static bool shared(const lw_led_group *group, double ballast_ohm, double most_over_mean)
{
    lw_led_group g = *group;
    g.ballast_ohm = ballast_ohm;
    return lw_led_strings_solve(&g, NULL) && g.current_a[g.strongest] <= most_over_mean * g.total_a / (double)g.count;
}

double lw_led_strings_ballast_ohm(const lw_led_group *group, double most_over_mean)
{
    double low = 0.0, high = 1.0;
    if (shared(group, 0.0, most_over_mean))
        return 0.0;
    while (!shared(group, high, most_over_mean)) {
        low = high;
        high *= 2.0;
        if (high > 5e5)
            return NAN;
    }
    for (int i = 0; i < 30; i++) {
        const double middle = 0.5 * (low + high);
        if (shared(group, middle, most_over_mean))
            high = middle;
        else
            low = middle;
    }
    return high;
}
