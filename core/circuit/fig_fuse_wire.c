/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure fuse_wire: when a thin wire melts, in the long run and at a given current.
 */
#include "lanewick/figure.h"
#include "lanewick/units.h"
#include "lanewick/wire.h"

#include <math.h>
#include <string.h>

/* preece: constant of a d^1.5 with d in inch (W. H. Preece 1888, Proc. Roy. Soc. 44, 109; from memory).
 * k, beta: I^2 t = k^2 S^2 ln((melting + beta) / (start + beta)), S in mm2, the adiabatic form of IEC 60949 (constants
 * of its table, from memory; tin computed from 1.66e-3 J/K mm3, 0.115 ohm mm2/m and 0.0045 1/K). Copper goes by
 * Onderdonk. */
static const struct metal {
    const char *name;
    double preece, k, beta, melting_c;
} metals[] = {
    {"copper", 10244.0, 0.0, 0.0, 1083.0}, {"aluminium", 7585.0, 148.0, 228.0, 660.0},
    {"iron", 3148.0, 78.0, 202.0, 1538.0}, {"tin", 1642.0, 56.6, 202.0, 232.0},
    {"lead", 1379.0, 41.0, 230.0, 327.0},
};

enum { DIAMETER, MATERIAL, CURRENT, START };
static const lw_input inputs[] = {
    [DIAMETER] = {"diameter_mm", "mm", "diameter of the bare wire", LW_NUMBER, 0.02, 5.0, NULL, NULL, 0, 0},
    [MATERIAL] = {"material", "", "metal", LW_CHOICE, 0, 0, "copper|aluminium|iron|tin|lead", "copper", 0, 0},
    [CURRENT] = {"current_a", "A", "current for which the time is wanted", LW_NUMBER, 0.01, 1e5, NULL, "", 0, 0},
    [START] = {"ambient_c", "degC", "temperature before", LW_NUMBER, -40.0, 70.0, NULL, "25", 0, 0},
};

enum { FUSING, TIME, MELTS, LET_THROUGH };
static const lw_output outputs[] = {
    [FUSING] = {"fusing_a", "A", "current that melts it in the long run, in free air (Preece)", LW_NUMBER},
    [TIME] = {"time_s", "s", "time to melt at current_a when no heat gets away (Onderdonk)", LW_NUMBER},
    [MELTS] = {"melts", "", "current_a is above fusing_a; below it the wire stays whole in free air", LW_FLAG},
    [LET_THROUGH] = {"a2s", "A2s", "I2 t to melting when no heat gets away", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const struct metal *m = &metals[(size_t)in[MATERIAL].number];
    const double d = in[DIAMETER].number, area = 0.25 * lw_pi * d * d, start = in[START].number;
    const bool copper = strcmp(m->name, "copper") == 0;
    const double fusing = copper ? lw_fuse_wire_long_a(d) : m->preece * pow(d / 25.4, 1.5);
    const double a2s = copper ? lw_fuse_wire_a2s(area, start)
                              : m->k * m->k * area * area * log((m->melting_c + m->beta) / (start + m->beta));
    out[FUSING] = lw_value_number(fusing);
    out[LET_THROUGH] = lw_value_number(a2s);
    if (in[CURRENT].given) {
        const double a = in[CURRENT].number;
        out[TIME] = lw_value_number(a2s / (a * a));
        out[MELTS] = lw_value_flag(a > fusing);
    }
    return true;
}

const lw_figure lw_fig_fuse_wire = {
    .name = "fuse_wire",
    .room = "circuit",
    .summary = "Current that melts a thin wire in the long run, and the time to melt at a given current.",
    .source = "Preece's rule a d^1.5; Onderdonk's equation for copper; adiabatic form of IEC 60949 for other metals "
              "(constants from memory)",
    .limits = "Free air and a long wire; a short wire between thick ends needs more. The time holds below about 10 s.",
    .caution = "Molten wire spits: keep it away from cells, wraps and anything that burns, and cover it with a sleeve "
               "that does "
               "not burn.",
    .example = "diameter_mm=0.2 material=copper current_a=20",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
