/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure ampacity: the current a wire may carry, and how long it stands a fault.
 */
#include "lanewick/figure.h"
#include "lanewick/wire.h"

enum { AREA, AMBIENT, FAULT };
static const lw_input inputs[] = {
    [AREA] = {"area_mm2", "mm2", "copper area of one wire", LW_NUMBER, 0.05, 50, NULL, NULL, 0, 0},
    [AMBIENT] = {"ambient_c", "degC", "air around the wire; inside a sunlit mast take 60", LW_NUMBER, -40, 69, NULL,
                 "30", 0, 0},
    [FAULT] = {"fault_a", "A", "current of a short circuit", LW_NUMBER, 0.1, 20000, NULL, "", 0, 0},
};

enum { AMPS, FACTOR, A2S, SECONDS };
static const lw_output outputs[] = {
    [AMPS] = {"current_a", "A", "current that two loaded PVC wires in pipe may carry", LW_NUMBER},
    [FACTOR] = {"ambient_factor", "", "the part of it that this ambient temperature leaves", LW_NUMBER},
    [A2S] = {"fault_a2s", "A2s", "energy the wire stands in a short circuit, (115 S)^2", LW_NUMBER},
    [SECONDS] = {"fault_s", "s", "time after which the fault current has ruined the wire", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double area = in[AREA].number;
    const double amps = lw_wire_ampacity_a(area, in[AMBIENT].number);
    const double a2s = lw_wire_fault_a2s(area);
    out[AMPS] = lw_value_number(amps);
    out[FACTOR] = lw_value_number(amps / lw_wire_ampacity_a(area, 30.0));
    out[A2S] = lw_value_number(a2s);
    if (in[FAULT].given)
        out[SECONDS] = lw_value_number(a2s / (in[FAULT].number * in[FAULT].number));
    return true;
}

const lw_figure lw_fig_ampacity = {
    .name = "ampacity",
    .room = "circuit",
    .summary = "Current that a copper wire may carry, and how long it stands a short circuit.",
    .source = "IEC 60364-5-52 method B2, two loaded wires; IEC 60335-1 for flexible cord; 434.5.2 with k = 115 (all "
              "from memory); ambient factor sqrt((70 - T)/40)",
    .limits = "PVC insulation, 70 degC; below 0.5 mm2 the values are common practice; sizes between two rows count as "
              "the smaller",
    .caution = "A wire that is too thin for its fuse burns first. Every wire at the pack needs a fuse at the pack.",
    .example = "area_mm2=1.5 ambient_c=60 fault_a=157",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
