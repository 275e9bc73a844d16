/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuses: see lanewick/fuse.h.
 */
#include "lanewick/fuse.h"

#include "lanewick/wire.h"

#include <math.h>
#include <stddef.h>

double lw_fuse_rating_at_least_a(double amps)
{
    static const double ratings_a[] = {0.032, 0.040, 0.050, 0.063, 0.080, 0.100, 0.125, 0.160, 0.200, 0.250,
                                       0.315, 0.400, 0.500, 0.630, 0.800, 1.0,   1.25,  1.6,   2.0,   2.5,
                                       3.15,  4.0,   5.0,   6.3,   8.0,   10.0,  12.5,  16.0,  20.0};
    for (size_t i = 0; i < sizeof ratings_a / sizeof ratings_a[0]; i++)
        if (ratings_a[i] >= amps * (1.0 - 1e-9))
            return ratings_a[i];
    return 0.0;
}

double lw_fuse_derating(double ambient_c)
{
    return ambient_c <= 25.0 ? 1.0 : 1.0 - 0.005 * (ambient_c - 25.0);
}

bool lw_fuse_choose(double normal_a, double ambient_c, double wire_area_mm2, lw_fuse_choice *out, lw_error *err)
{
    out->least_a = 1.25 * normal_a / lw_fuse_derating(ambient_c);
    out->wire_a = lw_wire_ampacity_a(wire_area_mm2, ambient_c);
    out->rating_a = lw_fuse_rating_at_least_a(out->least_a);
    if (out->rating_a > 0.0 && out->rating_a <= out->wire_a)
        return true;
    if (out->rating_a == 0.0)
        return lw_fail(err, LW_REFUSED, "normal_a",
                       "%g A needs a fuse of at least %.3g A; the small fuses counted here end at 20 A: split the "
                       "load over several fused branches.",
                       normal_a, out->least_a);
    return lw_fail(err, LW_REFUSED, "wire_area_mm2",
                   "%g A needs a fuse of %g A, but wire of %g mm2 carries only %.3g A at %g degC: the wire would burn "
                   "before the fuse blows. Take a thicker wire or less current.",
                   normal_a, out->rating_a, wire_area_mm2, out->wire_a, ambient_c);
}

double lw_fuse_breaks_a(lw_fuse_kind kind, double rating_a)
{
    switch (kind) {
    case LW_FUSE_GLASS:
        return fmax(35.0, 10.0 * rating_a);
    case LW_FUSE_CERAMIC:
        return 300.0;
    case LW_FUSE_BLADE:
    case LW_FUSE_KIND_COUNT:
        break;
    }
    return 1000.0;
}

double lw_fuse_conventional(lw_fuse_kind kind)
{
    return kind == LW_FUSE_BLADE ? 1.35 : 2.1;
}

double lw_fuse_guards_a(lw_fuse_kind kind, double wire_a)
{
    return wire_a * fmin(1.0, 1.45 / lw_fuse_conventional(kind));
}

double lw_fuse_highest_v(lw_fuse_kind kind)
{
    return kind == LW_FUSE_BLADE ? 32.0 : 60.0;
}
