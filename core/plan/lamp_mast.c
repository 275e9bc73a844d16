/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The mast of one lamp of a brief, planned or not yet, with what somebody tries instead: see lanewick/plan_mast.h.
 */
#include "lanewick/plan_mast.h"

#include <math.h>
#include <string.h>

static const lw_mast_pipe untold = {{NAN, NAN}, -1};

lw_lamp_mast lw_lamp_mast_untold(void)
{
    return (lw_lamp_mast){
        .panel_w = NAN, .pack_wh = NAN, .tilt_deg = NAN, .pole_pipe = untold, .other = untold, .collar_m = NAN};
}

static double told(double x, double otherwise)
{
    return isfinite(x) ? x : otherwise;
}

static double strongest_panel_w(const lw_shelf *shelf)
{
    double watts = 0.0;
    for (size_t i = 0; i < shelf->panel_count; i++)
        watts = fmax(watts, shelf->panel[i].watts);
    return watts > 0.0 ? watts : 34.0;
}

static bool has_measures(const lw_shelf_mast *mast, const lw_mast_pipe *pipe)
{
    return (int)mast->material == pipe->material && mast->pipe.diameter_mm == pipe->tube.diameter_mm &&
           mast->pipe.wall_mm == pipe->tube.wall_mm;
}

static bool thicker(const lw_tube *a, const lw_tube *b)
{
    return a->diameter_mm != b->diameter_mm ? a->diameter_mm > b->diameter_mm : a->wall_mm > b->wall_mm;
}

static lw_shelf_mast new_pole(const lw_mast_pipe *pipe, const lw_shelf_mast *otherwise)
{
    return (lw_shelf_mast){.pipe = {told(pipe->tube.diameter_mm, otherwise->pipe.diameter_mm),
                                    told(pipe->tube.wall_mm, otherwise->pipe.wall_mm)},
                           .material = pipe->material >= 0 ? (size_t)pipe->material : otherwise->material};
}

static bool any_told(const lw_mast_pipe *pipe)
{
    return pipe->material >= 0 || isfinite(pipe->tube.diameter_mm) || isfinite(pipe->tube.wall_mm);
}

/* The pole of the plan, on the shelf by its name, else by its measures; without one the thickest that is there. */
static lw_shelf_mast pole_of(const lw_shelf *shelf, const lw_lamp_mast *lamp)
{
    const lw_shelf_mast common = {.pipe = {76.1, 3.2}}, *thickest = NULL;
    for (size_t i = 0; i < shelf->mast_count; i++)
        if (lamp->pole[0] && strcmp(shelf->mast[i].name, lamp->pole) == 0)
            return shelf->mast[i];
    for (size_t i = 0; i < shelf->mast_count; i++) {
        const lw_shelf_mast *mast = &shelf->mast[i];
        if (has_measures(mast, &lamp->pole_pipe))
            return *mast;
        if (!thickest || thicker(&mast->pipe, &thickest->pipe))
            thickest = mast;
    }
    if (any_told(&lamp->pole_pipe))
        return new_pole(&lamp->pole_pipe, &common);
    return thickest ? *thickest : common;
}

void lw_lamp_mast_wish(const lw_brief *brief, const lw_lamp_mast *lamp, lw_mast_wish *out)
{
    const lw_shelf *shelf = &brief->shelf;
    const double panel_w = told(lamp->panel_w, strongest_panel_w(shelf)), pack_wh = told(lamp->pack_wh, 80.0),
                 tilt_deg = told(lamp->tilt_deg, told(brief->build.tilt_deg, 15.0));
    lw_error soft = {0};
    if (!lw_plan_mast_wish(brief, panel_w, pack_wh, tilt_deg, 0.0, out, &soft))
        out->soil_pa_per_m = 0.0;
    const lw_shelf_mast planned = pole_of(shelf, lamp),
                        pole = any_told(&lamp->other) ? new_pole(&lamp->other, &planned) : planned;
    lw_plan_mast_take(out, brief, &pole);
    out->collar_m = told(lamp->collar_m, out->collar_m);
}
