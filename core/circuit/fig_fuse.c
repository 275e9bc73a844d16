/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure fuse: the rating between the normal current and the wire.
 */
#include "lanewick/figure.h"
#include "lanewick/fuse.h"

#include <stdio.h>

enum { NORMAL, AMBIENT, AREA };
static const lw_input inputs[] = {
    [NORMAL] = {"normal_a", "A", "greatest current in normal use", LW_NUMBER, 0.005, 100, NULL, NULL, 0, 0},
    [AMBIENT] = {"ambient_c", "degC", "warmest air around fuse and wire", LW_NUMBER, -40, 65, NULL, NULL, 0, 0},
    [AREA] = {"wire_area_mm2", "mm2", "thinnest wire behind the fuse", LW_NUMBER, 0.05, 50, NULL, NULL, 0, 0},
};

enum { RATING, WHY, LEAST, WIRE };
static const lw_output outputs[] = {
    [RATING] = {"rating_a", "A", "fuse rating to fit", LW_NUMBER},
    [WHY] = {"why", "", "the two limits it lies between", LW_TEXT},
    [LEAST] = {"least_a", "A", "1.25 times the normal current, over the derating", LW_NUMBER},
    [WIRE] = {"wire_a", "A", "what the wire carries at this ambient temperature", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_fuse_choice choice;
    if (!lw_fuse_choose(in[NORMAL].number, in[AMBIENT].number, in[AREA].number, &choice, err))
        return false;
    enum { ROOM = 320 };
    char *why = lw_arena_take(arena, ROOM, 1, err);
    if (!why)
        return false;
    (void)snprintf(why, ROOM,
                   "at least %.3g A (1.25 x %g A, a fuse carries %.0f %% of its rating at %g degC); at most %.3g A, "
                   "which %g mm2 carries; the smallest preferred rating between them is %g A",
                   choice.least_a, in[NORMAL].number, 100.0 * lw_fuse_derating(in[AMBIENT].number), in[AMBIENT].number,
                   choice.wire_a, in[AREA].number, choice.rating_a);
    out[RATING] = lw_value_number(choice.rating_a);
    out[WHY] = lw_value_text(why);
    out[LEAST] = lw_value_number(choice.least_a);
    out[WIRE] = lw_value_number(choice.wire_a);
    return true;
}

const lw_figure lw_fig_fuse = {
    .name = "fuse",
    .room = "circuit",
    .summary = "Fuse rating that carries the load and still saves the wire; refused when there is none.",
    .source = "preferred ratings of IEC 60127; rule Ib <= In <= Iz of IEC 60364-4-43 433.1 (from memory); derating "
              "0.5 % per kelvin above 25 degC (common practice)",
    .limits = "Direct current in extra-low voltage; slow fuses derate like this, quick ones less",
    .caution = "Place the fuse within 100 mm of the pack's plus, before anything else. A 5 x 20 glass fuse cannot "
               "break what a pack delivers into a short: see figure pack_fault.",
    .example = "normal_a=1.5 ambient_c=45 wire_area_mm2=1.5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
