/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure overhead_line: how far a mast stays from an overhead line.
 */
#include "lanewick/figure.h"
#include "lanewick/mast_parts.h"

enum { KV, HEIGHT, DISTANCE };
static const lw_input inputs[] = {
    [KV] = {"line_kv", "kV", "voltage of the line; unknown: ask its owner, never guess", LW_NUMBER, 0, 1000, NULL, NULL,
            0, 0},
    [HEIGHT] = {"height_m", "m", "mast with what stands on top of it", LW_NUMBER, 0.5, 14, NULL, NULL, 0, 0},
    [DISTANCE] = {"distance_m", "m", "from the foot to the ground below the nearest wire", LW_NUMBER, 0, 1000, NULL, "",
                  0, 0},
};

enum { CLEARANCE, FOOT };
static const lw_output outputs[] = {
    [CLEARANCE] = {"clearance_m", "m", "between anything raised and the wire", LW_NUMBER},
    [FOOT] = {"foot_m", "m", "least distance of the foot: it may fall towards the wire", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    double clear_m;
    if (!lw_line_clearance_m(in[KV].number, &clear_m, err))
        return false;
    const double foot_m = in[HEIGHT].number + clear_m;
    if (in[DISTANCE].given && in[DISTANCE].number < foot_m)
        return lw_fail(
            err, LW_REFUSED, "distance_m",
            "distance_m is %g m; a mast of %g m that falls towards the wire needs %.4g m. Choose another place; "
            "only the line's owner can decide otherwise.",
            in[DISTANCE].number, in[HEIGHT].number, foot_m);
    out[CLEARANCE] = lw_value_number(clear_m);
    out[FOOT] = lw_value_number(foot_m);
    return true;
}

const lw_figure lw_fig_overhead_line = {
    .name = "overhead_line",
    .room = "mast",
    .summary = "Least distance between a mast and an overhead line.",
    .source = "29 CFR 1926.1408 Table A (10 ft up to 50 kV, 15 ft up to 200 kV, 20 ft up to 350 kV and on; from "
              "memory), plus the height of the mast",
    .limits = "Local rules and the owner of the line come first; many ask for more",
    .caution = "Touching or coming near a live line kills. Nobody works there without its owner.",
    .example = "line_kv=33 height_m=4.3 distance_m=12",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
