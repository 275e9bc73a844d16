/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast of two pipes: the upper one bends at the mouth of the lower one, whose wall it presses on. Wind counts on the
 * width of the lower pipe all the way up. A wall is a ring with a load on one side, held by shear all round: greatest
 * moment 3 q r/(4 pi) (formula tables for rings, from memory), against its full plastic strength f t^2/4.
 */
#include "mast_joint.h"
#include "mast_weights.h"

#include "lanewick/units.h"

#include <math.h>

static bool fits(const lw_mast_wish *w, lw_error *err)
{
    const lw_mast_upper *u = &w->upper;
    const double inside_mm = w->pipe.diameter_mm - 2.0 * w->pipe.wall_mm, play_mm = inside_mm - u->pipe.diameter_mm;
    if (w->material > 2)
        return lw_fail(err, LW_REFUSED, "pipe.upper",
                       "Two pieces of timber, bamboo or plastic are not joined into one mast here: take metal pipes.");
    if (play_mm < 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "pipe.upper.diameter_mm",
                       "An upper pipe of %g mm does not go into a lower one that is %g mm wide inside.",
                       u->pipe.diameter_mm, inside_mm);
    if (play_mm > 0.1 * u->pipe.diameter_mm)
        return lw_fail(err, LW_REFUSED, "pipe.upper.diameter_mm",
                       "An upper pipe of %g mm is loose by %.3g mm in the lower one; up to a tenth of it can be filled "
                       "with a rolled sheet. Take pipes that fit.",
                       u->pipe.diameter_mm, play_mm);
    if (u->lap_m < lw_sleeve_least_lap(0.001 * u->pipe.diameter_mm))
        return lw_fail(
            err, LW_REFUSED, "pipe.upper.lap_m",
            "The pipes overlap by %g m; one and a half diameters, %.3f m, are the least. A licensed engineer "
            "decides.",
            u->lap_m, lw_sleeve_least_lap(0.001 * u->pipe.diameter_mm));
    return true;
}

/* What acts above the mouth, seen from there. */
static lw_mast_load above(const lw_mast_wish *w, const lw_mast_load *load, const lw_mast_result *r, double mouth_m)
{
    const double force[] = {r->panel_n, r->box_n, r->head_n};
    const double at_m[] = {w->panel.height_m, w->box.height_m, w->head.height_m};
    double sum = 0.0, moment = 0.0;
    for (int i = 0; i < 3; i++)
        if (at_m[i] > mouth_m) {
            sum += force[i];
            moment += force[i] * (at_m[i] - mouth_m);
        }
    lw_mast_load out = *load;
    out.height_m = w->height_m - mouth_m;
    out.head_force_n = sum;
    out.head_height_m = sum > 0.0 ? moment / sum : out.height_m;
    lw_mast_weigh(w, mouth_m, &out);
    return out;
}

/* The upper pipe in place of a longer lower one: more sway, a slower swing, a softer column. A column of two
 * stiffnesses with Euler's line: the upper part counts by the moments there, cos^2 (Timoshenko and Gere 1961, energy
 * method). */
static void soften(const lw_mast_wish *w, const lw_mast_load *load, double more_mm, double inertia_ratio,
                   lw_mast_result *out)
{
    lw_mast_bending *b = &out->bending;
    const double up = out->joint.mouth_m / w->height_m, share = pow(1.0 - up, 3.0);
    const double slower = 1.0 / sqrt(1.0 + share * (inertia_ratio - 1.0));
    const double bent = 1.0 - up - sin(lw_pi * up) / lw_pi, softer = 1.0 + bent * (inertia_ratio - 1.0);
    lw_tube_section lower;
    lw_mast_strength strength;
    lw_wall_buckling thin;
    out->vibration.frequency_hz *= slower;
    out->vibration.critical_m_s *= slower;
    out->shedding.critical_m_s *= slower;
    if (!lw_tube_section_of(&w->pipe, &lower, NULL) ||
        !lw_mast_wish_strength(w, &w->pipe, &thin, &strength, NULL)) /* both done before */
        return;
    const lw_mast_column was = b->column;
    b->column = lw_mast_column_of(&lower, &strength, load, softer);
    const double grows = b->column.off_centre_grows / was.off_centre_grows; /* the most that any moment grows */
    b->sway_mm = (b->sway_mm + more_mm) * grows;
    b->moment_nm *= grows;
    b->stress_mpa *= grows;
    b->factored_mpa *= grows;
    b->bends /= grows;
    b->buckles *= b->column.alpha_cr / was.alpha_cr;
    b->reserve = fmin(b->bends, b->buckles);
}

static bool sleeve(const lw_mast_wish *w, const lw_mast_strength *strength, lw_mast_result *out, lw_error *err)
{
    lw_mast_joint *j = &out->joint;
    const lw_tube *up = &w->upper.pipe;
    const lw_sleeve contact = lw_sleeve_contact(j->bending.moment_nm, j->bending.shear_n, w->upper.lap_m);
    const double thin_mm = fmin(up->wall_mm, w->pipe.wall_mm), r_mm = 0.5 * (w->pipe.diameter_mm - w->pipe.wall_mm);
    const double bears_n_mm = 0.25 * strength->allowed_mpa * thin_mm * thin_mm * 4.0 * lw_pi / (3.0 * r_mm);
    j->contact_n_mm = 0.001 * contact.mouth_n_m;
    j->wall_use = strength->load_factor * j->contact_n_mm / bears_n_mm;
    lw_bolt bolt; /* M10 of grade 4.6 through both, at half of the lap */
    if (!lw_bolt_of(10.0, LW_BOLT_4_6, &bolt, err))
        return false;
    j->bolt_n =
        hypot(1000.0 * out->twist_nm / up->diameter_mm, 0.5 * fmax(out->lift_n, lw_gravity_m_s2 * out->total_kg));
    j->bolt_use = 1.5 * lw_bolt_use(&bolt, 0.0, j->bolt_n);
    return true;
}

bool lw_mast_join(const lw_mast_wish *w, const lw_mast_load *load, lw_mast_result *out, lw_error *err)
{
    const double foot_m = w->base == LW_BASE_PLATE ? 0.0 : fmax(w->depth_m, out->depth_m);
    const double mouth_m = w->upper.lower_length_m - foot_m;
    if (!fits(w, err))
        return false;
    if (mouth_m < w->upper.lap_m || mouth_m > w->height_m - 0.3)
        return lw_fail(
            err, LW_WRONG_INPUT, "pipe.upper",
            "The lower pipe ends %.2f m above ground; it must end above its lap of %.2f m and 0.3 m below the "
            "top of %.3g m.",
            mouth_m, w->upper.lap_m, w->height_m);
    out->joint.mouth_m = mouth_m;
    out->joint.upper_length_m = w->height_m - mouth_m + w->upper.lap_m;
    const lw_mast_load top = above(w, load, out, mouth_m);
    lw_wall_buckling thin = {0};
    lw_mast_strength strength = {0}, lower = {0};
    lw_mast_bending as_lower = {0};
    lw_tube_section is = {0}, was = {0};
    if (!lw_mast_wish_strength(w, &w->upper.pipe, &thin, &strength, err) ||
        !lw_mast_wish_strength(w, &w->pipe, &thin, &lower, err) ||
        !lw_mast_bend(&w->upper.pipe, &strength, &top, &out->joint.bending, err) ||
        !lw_mast_bend(&w->pipe, &lower, &top, &as_lower, err) || !lw_tube_section_of(&w->upper.pipe, &is, err) ||
        !lw_tube_section_of(&w->pipe, &was, err))
        return false;
    soften(w, load, fmax(0.0, out->joint.bending.sway_mm - as_lower.sway_mm), was.inertia_mm4 / is.inertia_mm4, out);
    strength.allowed_mpa = fmin(strength.allowed_mpa, lower.allowed_mpa);
    return sleeve(w, &strength, out, err);
}
