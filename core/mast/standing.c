/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A block on the ground, a sleeve joint, raising a mast: statics; see lanewick/mast_parts.h.
 */
#include "lanewick/mast_parts.h"

#include <math.h>

/* sum of r^2 of four bolts about the diagonal is spacing^2, the outer one stands spacing/sqrt(2) away */
double lw_plate_bolt_n(double moment_nm, double spacing_m)
{
    return moment_nm / (sqrt(2.0) * spacing_m);
}

bool lw_plate_check(const lw_plate *p, lw_plate_result *out, lw_error *err)
{
    const double b = p->width_m;
    out->moment_nm = p->force_n * (p->arm_m + p->thickness_m);
    out->eccentricity_m = out->moment_nm / p->weight_n;
    out->overturning = out->moment_nm > 0.0 ? 0.5 * b * p->weight_n / out->moment_nm : 1e6;
    if (out->eccentricity_m >= 0.5 * b)
        return lw_fail(err, LW_REFUSED, "width_m",
                       "This base tips over: the wind's moment of %.4g N m is more than %.4g N on half of %.3g m hold. "
                       "It must be wider than %.3g m at this weight, or heavier. A licensed engineer decides.",
                       out->moment_nm, p->weight_n, b, 2.0 * out->eccentricity_m);
    const double even_pa = p->weight_n / (b * b);
    out->pressure_pa = out->eccentricity_m <= b / 6.0 ? even_pa * (1.0 + 6.0 * out->eccentricity_m / b)
                                                      : 4.0 * p->weight_n / (3.0 * b * (b - 2.0 * out->eccentricity_m));
    out->bolt_tension_n = p->bolt_spacing_m > 0.0 ? lw_plate_bolt_n(p->force_n * p->arm_m, p->bolt_spacing_m) : 0.0;
    return true;
}

double lw_sleeve_least_lap(double inner_m)
{
    return 1.5 * inner_m;
}

lw_sleeve lw_sleeve_contact(double moment_nm, double shear_n, double lap_m)
{
    const double even = shear_n / lap_m, bend = 6.0 * (moment_nm + 0.5 * shear_n * lap_m) / (lap_m * lap_m);
    if (bend <= 0.0)
        return (lw_sleeve){0.0, 0.0, 0.0};
    const double zero_at = lap_m * (even + bend) / (2.0 * bend); /* from the mouth, where the contact changes side */
    return (lw_sleeve){even + bend, bend - even, 0.5 * (even + bend) * zero_at};
}

lw_raising lw_raise(double length_m, double weight_n, double moment_nm, double hands_m)
{
    static const double of_one_n = 115.0; /* half of the 23 kg that one person lifts well placed (common practice) */
    const double centre_m = moment_nm / weight_n, steepest = hands_m / length_m;
    lw_raising out = {.first_n = moment_nm / length_m, .at_deg = 45.0};
    /* hands at a height: force W c cos(a) sin(a) / h, greatest at 45 degrees, or where the pole's end passes the hands
     */
    const double angle = steepest > sqrt(0.5) ? asin(fmin(1.0, steepest)) : 0.785398163397448;
    out.at_deg = angle * 57.29577951308232;
    out.most_n = fmax(out.first_n, weight_n * centre_m * sin(angle) * cos(angle) / hands_m);
    out.people = (int)fmax(2.0, ceil(out.most_n / of_one_n));
    out.clear_m = 1.5 * length_m;
    return out;
}

bool lw_line_clearance_m(double line_kv, double *clear_m, lw_error *err)
{
    static const struct {
        double to_kv, clear_m;
    } rows[] = {{50, 3.05}, {200, 4.60}, {350, 6.10}, {500, 7.62}, {750, 10.67}, {1000, 13.72}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (line_kv <= rows[i].to_kv) {
            *clear_m = rows[i].clear_m;
            return true;
        }
    return lw_fail(err, LW_WRONG_INPUT, "line_kv", "line_kv is %g; the table ends at 1000 kV. Ask the line's owner.",
                   line_kv);
}
