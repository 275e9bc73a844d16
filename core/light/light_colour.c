/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which white for a lane: see lanewick/light_colour.h. The sentences stay as careful as the studies are.
 */
#include "lanewick/light_colour.h"

#include <stddef.h>

static double blue(double colour_k)
{
    static const double kelvin[] = {2700.0, 4000.0, 6500.0}, content[] = {2.5e-4, 6e-4, 1e-3};
    if (colour_k <= kelvin[0])
        return content[0];
    for (size_t i = 1; i < 3; i++)
        if (colour_k <= kelvin[i])
            return content[i - 1] +
                   (content[i] - content[i - 1]) * (colour_k - kelvin[i - 1]) / (kelvin[i] - kelvin[i - 1]);
    return content[2];
}

static const char *advice(bool warm, bool hooded, bool near_houses, bool near_water)
{
    if (!hooded)
        return "First a hood or paint on the upper half of the bottle: light that goes up helps nobody and draws "
               "insects "
               "from far. Then no more light than asked for, turned down late.";
    if (!warm && near_houses)
        return "Take 2700 to 3000 K near houses: calmer for sleep and softer to the eye; the gain in insects from warm "
               "white alone is uncertain. Keep lamps away from doors and sleeping places: mosquitoes come to them.";
    if (!warm && near_water)
        return "Near water take 2700 to 3000 K or amber: many insects hatch there and short waves draw most. Turn it "
               "down late.";
    if (near_houses)
        return "Good. Keep the lamp away from doors and sleeping places, no more light than asked for, turned down "
               "late.";
    return "Good. No more light than asked for, turned down late.";
}

lw_light_colour lw_light_colour_of(double colour_k, bool hooded, bool near_houses, bool near_water)
{
    const bool warm = colour_k <= 3000.0, cool = colour_k >= 5000.0;
    const double content = blue(colour_k);
    return (lw_light_colour){
        .blue_w_per_lm = content,
        .blue_over_warm = content / blue(2700.0),
        /* radiance = luminance x blue watts of a lumen, both per steradian and square metre */
        .exempt_cd_m2 = 100.0 / content,
        .grade = warm   ? "warm white"
                 : cool ? "cool white"
                        : "neutral white",
        .insects = warm
                       ? "Fewer insects than other lamps; against cool white the difference was not certain in two "
                         "field studies, a spectrum with less blue drew fewer in a third."
                       : "More blue: short waves draw most insects. In the field 4500 K drew more than 3000 K, but the "
                         "difference was not certain.",
        .glare = cool ? "Cool white glares more at the same lumens: use a larger, frosted cover."
                      : "A frosted cover of 100 cm2 for each 1000 lm stays below 50000 cd/m2, far from the limit for "
                        "eyes.",
        .advice = advice(warm, hooded, near_houses, near_water)};
}
