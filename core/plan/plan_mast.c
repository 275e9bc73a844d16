/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Finds the pole of a lamp on the shelf: see lanewick/plan_mast.h.
 */
#include "lanewick/plan_mast.h"

#include <math.h>
#include <stdio.h>

enum { POLES = 16 };

bool lw_plan_mast_wish(const lw_brief *brief, double panel_w, double pack_wh, double tilt_deg, double light_m,
                       lw_mast_wish *out, lw_error *err)
{
    const lw_build_mast *build = &brief->build.mast;
    const double area_m2 = panel_w / lw_panel_w_m2,
                 height_m = light_m > 0.0 ? light_m + lw_light_below_top_m : build->height_m;
    *out = lw_mast_wish_default();
    out->wind_given = brief->place.wind_given;
    out->wind = brief->place.wind;
    out->return_years = brief->place.return_years;
    out->height_m = height_m;
    out->panel = (lw_mast_part){area_m2, height_m + build->panel_above_m, 12.0 * area_m2, 1.8};
    out->panel_width_m = sqrt(area_m2);
    out->panel_tilt_deg = tilt_deg;
    out->box = (lw_mast_part){0.105, 0.65 * height_m, 2.0 + pack_wh / 150.0, 1.4};
    out->head = (lw_mast_part){0.04, fmax(0.5, height_m - lw_light_below_top_m), 0.8, 0.8};
    out->head_arm_m = build->head_arm_m;
    out->wall_temp_c = build->wall_temp_c;
    out->hole_mm = build->hole_mm;
    out->doubled = build->doubled;
    out->paved = build->paved;
    out->flooded = build->flooded;
    out->loose_m = build->loose_m;
    out->base = build->base;
    out->plate = build->plate;
    out->depth_m = build->depth_m;
    out->hill = build->hill;
    out->on_building = build->on_building;
    out->people_below = build->people_below;
    out->power_line_near = build->power_line_near;
    out->guyed = build->guyed;
    out->soil_pa_per_m = build->soil_pa_per_m;
    return build->soil > (int)LW_SOIL_SOFT || lw_soil_lateral_pa_per_m((lw_soil)build->soil, &out->soil_pa_per_m, err);
}

/* One pole of the search. */
typedef struct pole {
    lw_shelf_mast it;
    int place; /* in shelf.mast; -1: bought */
} pole;

static bool thinner(const pole *a, const pole *b)
{
    if (a->it.pipe.diameter_mm != b->it.pipe.diameter_mm)
        return a->it.pipe.diameter_mm < b->it.pipe.diameter_mm;
    return a->it.pipe.wall_mm < b->it.pipe.wall_mm;
}

/* The shelf's poles, or the common steel tubes where it has none; thin ones first. */
static int poles_of(const lw_shelf *shelf, pole out[POLES])
{
    int n = 0;
    for (size_t i = 0; i < shelf->mast_count; i++) {
        const pole one = {shelf->mast[i], (int)i};
        int at = n++;
        for (; at > 0 && thinner(&one, &out[at - 1]); at--)
            out[at] = out[at - 1];
        out[at] = one;
    }
    for (size_t i = 0; shelf->mast_count == 0 && i < lw_mast_common_tube_count; i++) {
        out[n] = (pole){{.pipe = lw_mast_common_tubes[i], .length_m = 12.0, .count = 1000000}, -1};
        (void)snprintf(out[n].it.name, sizeof out[n].it.name, "steel tube %g x %g mm, S235",
                       lw_mast_common_tubes[i].diameter_mm, lw_mast_common_tubes[i].wall_mm);
        n++;
    }
    return n;
}

void lw_plan_mast_take(lw_mast_wish *wish, const lw_brief *brief, const lw_shelf_mast *mast)
{
    const double asked = brief->build.mast.collar_m;
    const bool as_measured = mast->wall_measured && mast->material <= 2;
    wish->pipe = mast->pipe;
    wish->upper = mast->upper;
    wish->material = mast->material;
    wish->wall_measured = mast->wall_measured;
    wish->welded = mast->welded;
    wish->age_years = fmin(50.0, brief->want.planned_years + (as_measured ? 0.0 : mast->age_years));
    const double pipe_m = 0.001 * mast->pipe.diameter_mm;
    wish->collar_m = pipe_m;
    if (wish->base == LW_BASE_COLLAR)
        wish->collar_m = fmax(pipe_m, isnan(asked) ? fmax(0.3, 0.2 + pipe_m) : asked);
    wish->hole_mm = fmin(wish->hole_mm, 0.25 * mast->pipe.diameter_mm);
}

static void first_reason(const lw_mast_result *result, char *out, size_t size)
{
    lw_mast_note_say(&result->notes[0], result->notes[0].text, out, size);
}

/* Hole, length of the pole and concrete. */
static void dig(lw_plan_mast *out)
{
    const lw_mast_foot *foot = &out->result.foot;
    const double d = 0.001 * out->wish.pipe.diameter_mm, collar = out->wish.collar_m;
    if (out->wish.base == LW_BASE_PLATE) {
        out->depth_m = foot->thickness_m; /* 0 on rock */
        out->length_m = out->wish.height_m;
        out->concrete_m3 = foot->block_m * foot->block_m * foot->thickness_m;
        return;
    }
    out->depth_m = fmax(out->wish.depth_m, out->result.depth_m);
    out->length_m = out->wish.height_m + out->depth_m;
    out->concrete_m3 = 0.785398163397448 * (collar * collar - d * d) * out->depth_m;
}

double lw_plan_mast_hole_m(const lw_plan_mast *mast)
{
    const lw_mast_wish *w = &mast->wish;
    return w->base == LW_BASE_PLATE    ? mast->result.foot.block_m
           : w->base == LW_BASE_COLLAR ? w->collar_m
                                       : w->collar_m + 0.25;
}

/* Whether this pole stands; `why` says why not. */
static bool stands(const lw_brief *brief, const lw_mast_wish *wish, const pole *p, lw_plan_mast *out,
                   char why[LW_REASON])
{
    char said[LW_MAST_NOTE_BYTES];
    lw_error err = {0};
    *out = (lw_plan_mast){.pole = p->place, .wish = *wish};
    (void)snprintf(out->pole_name, sizeof out->pole_name, "%s", p->it.name);
    lw_plan_mast_take(&out->wish, brief, &p->it);
    if (!lw_mast_check(&out->wish, &out->result, &err)) {
        (void)snprintf(why, LW_REASON, "Pole %.63s: %.380s", p->it.name, err.message);
        return false;
    }
    if (out->result.verdict == LW_MAST_FALLS) {
        first_reason(&out->result, said, sizeof said);
        (void)snprintf(why, LW_REASON, "Pole %.63s: %.380s.", p->it.name, said);
        return false;
    }
    dig(out);
    const lw_mast_upper *upper = &p->it.upper;
    const double there_m = p->it.length_m + (upper->pipe.diameter_mm > 0.0 ? p->it.upper_length_m - upper->lap_m : 0.0);
    if (out->length_m <= there_m + 1e-9)
        return true;
    (void)snprintf(why, LW_REASON, "%.63s: it is %.3g m long; %.3g m above ground and %.3g m in it need %.3g m.",
                   p->it.name, there_m, out->wish.height_m, out->length_m - out->wish.height_m, out->length_m);
    return false;
}

/* Lower with the same pole, in steps of 0.1 m. */
static double height_that_stands(const lw_brief *brief, const lw_mast_wish *wish, const pole *p)
{
    char why[LW_REASON];
    lw_plan_mast tried;
    for (int tenths = (int)(10.0 * wish->height_m - 0.5); tenths >= 20; tenths--) {
        lw_mast_wish lower = *wish;
        const double less = wish->height_m - 0.1 * tenths;
        lower.height_m -= less;
        lower.panel.height_m -= less;
        lower.box.height_m *= lower.height_m / wish->height_m;
        lower.head.height_m = fmax(0.5, lower.head.height_m - less);
        if (stands(brief, &lower, p, &tried, why))
            return 0.1 * tenths;
    }
    return 0.0;
}

static void what_would(const lw_brief *brief, const lw_mast_wish *wish, const pole *strongest, char remedy[LW_REASON])
{
    char why[LW_REASON];
    lw_shelf none = {0};
    pole poles[POLES];
    lw_plan_mast tried;
    int n = 0;
    const int count = poles_of(&none, poles);
    for (int i = 0; i < count; i++)
        if (stands(brief, wish, &poles[i], &tried, why)) {
            n += snprintf(remedy, LW_REASON, "A %s, would stand (%.3g m long). ", poles[i].it.name, tried.length_m);
            break;
        }
    const double height_m = height_that_stands(brief, wish, strongest);
    if (height_m > 0.0)
        n += snprintf(remedy + n, (size_t)(LW_REASON - n), "So would the %.63s at %.1f m (build.mast.height_m). ",
                      strongest->it.name, height_m);
    const char *else_try = wish->base == LW_BASE_PLATE
                               ? "A higher block (build.mast.block_height_m), bolts further apart "
                                 "(bolt_spacing_m) or a collar (base) may stand. "
                           : wish->depth_m > 0.0 ? "Dig as deep as the reason says (build.mast.depth_m). "
                                                 : "A lower mast, a smaller panel or firmer ground may stand. ";
    (void)snprintf(remedy + n, (size_t)(LW_REASON - n), "%sA licensed engineer decides.", n == 0 ? else_try : "");
}

bool lw_plan_mast_choose(const lw_brief *brief, const lw_mast_wish *wish, const int *left, int count, lw_plan_mast *out,
                         char why[LW_REASON], char remedy[LW_REASON])
{
    pole poles[POLES];
    lw_plan_mast tried;
    const int n = poles_of(&brief->shelf, poles);
    bool found = false;
    for (int i = 0; i < n; i++) {
        if (!stands(brief, wish, &poles[i], &tried, why))
            continue;
        const int there = poles[i].place < 0 ? count : left[poles[i].place];
        tried.checked = true;
        tried.missing = there >= count ? 0 : count - there;
        tried.cost_minor = poles[i].it.price_minor;
        if (!found || tried.missing == 0)
            *out = tried;
        found = true;
        if (tried.missing == 0)
            return true;
    }
    if (!found)
        what_would(brief, wish, &poles[n - 1], remedy);
    return found;
}
