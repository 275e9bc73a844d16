/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure wire_size: the thinnest standard wire by drop and by heating.
 */
#include "lanewick/figure.h"
#include "lanewick/wire.h"

enum { LENGTH, CURRENT, SUPPLY, DROP, AMBIENT };
static const lw_input inputs[] = {
    [LENGTH] = {"length_m", "m", "length one way", LW_NUMBER, 0.01, 2000, NULL, NULL, 0, 0},
    [CURRENT] = {"current_a", "A", "greatest current, of night or charging", LW_NUMBER, 0.001, 60, NULL, NULL, 0, 0},
    [SUPPLY] = {"supply_v", "V", "voltage where the wire begins", LW_NUMBER, 0.5, 60, NULL, NULL, 0, 0},
    [DROP] = {"drop_pct", "%", "greatest drop: 3 to panel and head, 1 between charger and pack", LW_NUMBER, 0.1, 20,
              NULL, "3", 0, 0},
    [AMBIENT] = {"ambient_c", "degC", "air around the wire; inside a sunlit mast 60", LW_NUMBER, -40, 65, NULL, "40", 0,
                 0},
};

enum { AREA, IDEAL, DROP_IS, CARRIES, LIMITED };
static const lw_output outputs[] = {
    [AREA] = {"area_mm2", "mm2", "standard section to take", LW_NUMBER},
    [IDEAL] = {"least_area_mm2", "mm2", "ideal copper at 20 degC for the drop alone", LW_NUMBER},
    [DROP_IS] = {"drop_pct", "%", "drop with the section taken, class 5, at this temperature", LW_NUMBER},
    [CARRIES] = {"carries_a", "A", "current that section may carry", LW_NUMBER},
    [LIMITED] = {"limited_by", "", "what asks for it: drop or heating", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double amps = in[CURRENT].number, supply = in[SUPPLY].number, ambient = in[AMBIENT].number;
    const double length = in[LENGTH].number, most_v = in[DROP].number / 100.0 * supply, km = 2.0 * length / 1000.0;
    const double area = lw_wire_section_mm2(length, amps, most_v, ambient);
    if (area == 0.0)
        return lw_fail(err, LW_NOT_COMPUTABLE, "current_a",
                       "No section up to 25 mm2 keeps %g A over %g m within %g %%: put pack and load nearer together, "
                       "or take a higher pack voltage.",
                       amps, length, in[DROP].number);
    const double ohm = lw_wire_ohm_per_km(area, 5, LW_COPPER) * km * lw_wire_temperature_factor(LW_COPPER, ambient);
    out[AREA] = lw_value_number(area);
    out[IDEAL] = lw_value_number(lw_wire_ohm_per_km(1.0, 0, LW_COPPER) * km * amps / most_v);
    out[DROP_IS] = lw_value_number(100.0 * ohm * amps / supply);
    out[CARRIES] = lw_value_number(lw_wire_ampacity_a(area, ambient));
    out[LIMITED] = lw_value_text(lw_wire_section_mm2(length, amps, supply, ambient) == area ? "heating" : "drop");
    return true;
}

const lw_figure lw_fig_wire_size = {
    .name = "wire_size",
    .room = "circuit",
    .summary = "Thinnest standard wire that keeps the voltage drop and does not heat.",
    .source = "IEC 60228 class 5 with the temperature factor of copper; ampacity as in figure ampacity",
    .limits = "Wires of 0.22 and 0.34 mm2 are not in IEC 60228: their values are common practice",
    .caution = "The fuse goes by this section: see figure fuse.",
    .example = "length_m=5 current_a=1.5 supply_v=3.7",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
