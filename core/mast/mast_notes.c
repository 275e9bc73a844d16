/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The verdict on a mast: what makes it fall, what hands it to a licensed engineer (common practice), what to mind when
 * it is raised.
 */
#include "mast_notes.h"

#include <stdio.h>

static void note(lw_mast_result *out, const char *text, double a, double b, double c)
{
    if (out->note_count < LW_MAST_NOTES)
        out->notes[out->note_count++] = (lw_mast_note){text, {a, b, c}};
}

/* NOTE and SAYING mark a reason that the mast sheet gives in the person's language (scripts/words looks for them);
 * TELL is for the command line and JSON, which speak English. */
#define TELL(text, a, b, c) note(out, text, a, b, c)
#define NOTE(text, a, b, c) note(out, text, a, b, c)
#define SAYING(text) note(out, text, 0.0, 0.0, 0.0)

void lw_mast_note_say(const lw_mast_note *said, const char *text, char *out, size_t size)
{
    /* more values than a text has places for are not looked at (C17 7.21.6.1) */
    (void)snprintf(out, size, text, said->value[0], said->value[1], said->value[2]);
}

const char *lw_mast_verdict_text(lw_mast_verdict verdict)
{
    static const char *const texts[] = /* words */ {"stands", "stands by these numbers; a licensed engineer decides",
                                                    "not checked: no wind speed was given", "does not stand: refused"};
    return texts[verdict];
}

/* 75 mm of concrete stay under a bolt (common practice). */
static const double cover_m = 0.075;

static void plate_fails(const lw_mast_wish *w, lw_mast_result *out)
{
    const lw_mast_foot *f = &out->foot;
    if (f->bolt_use > 1.0)
        TELL("an anchor bolt is pulled with %.0f N, its strength is used %.2f times: thicker bolts, or further apart",
             f->bolt_n, f->bolt_use, 0.0);
    if (f->plate_mm > 30.0)
        TELL("the steel plate would have to be %.0f mm thick; set the bolts further apart", f->plate_mm, 0.0, 0.0);
    if (w->plate.on_rock)
        return;
    if (f->anchor_m > f->thickness_m - cover_m)
        TELL("the bolts must sit %.2f m deep and the block is %.2f m high with %.3f m to spare below: a higher block, "
             "or "
             "bolts further apart",
             f->anchor_m, f->thickness_m, cover_m);
    if (f->overturning < 1.5)
        TELL("the block of %.1f m is held only %.2f times against overturning, 1.5 is wanted", f->block_m,
             f->overturning, 0.0);
    else if (f->pressure_pa > f->allowed_pa)
        TELL("the block's edge presses with %.0f kPa on soil that bears %.0f kPa", 0.001 * f->pressure_pa,
             0.001 * f->allowed_pa, 0.0);
    else
        return;
    if (f->block_that_holds_m > 0.0)
        TELL("what would hold: a block of %.1f m, %.2f m high", f->block_that_holds_m, f->thickness_m, 0.0);
    else
        TELL("no block up to 2 m holds at this height: a higher block, a lower mast, or a buried base", 0.0, 0.0, 0.0);
}

/* alpha_cr of 3 with the weights' factor 1.35: a quarter of what makes it buckle */
static void buckles(const lw_mast_bending *b, lw_mast_result *out)
{
    if (b->buckles >= 1.0)
        return;
    TELL(
        "the pole would buckle under the weights on it: %.0f kg on its top make it give way, %.1f kg are there, and at "
        "most a quarter is allowed; lighter things, a lower mast or a thicker pole",
        b->column.critical_kg, b->column.on_top_kg, 0.0);
}

static void joint_fails(const lw_mast_wish *w, lw_mast_result *out)
{
    const lw_mast_joint *j = &out->joint;
    if (j->mouth_m <= 0.0)
        return;
    if (j->bending.bends < 1.0)
        TELL(
            "the upper pipe would bend over where it leaves the lower one: factored stress %.3g MPa, allowed %.3g MPa, "
            "reserve %.2f",
            j->bending.factored_mpa, j->bending.allowed_mpa, j->bending.bends);
    buckles(&j->bending, out);
    if (j->wall_use > 1.0)
        TELL("the joint's walls would dent: %.0f N/mm at the mouth, their strength is used %.2f times; a lap longer "
             "than "
             "%.2f m, or thicker walls",
             j->contact_n_mm, j->wall_use, w->upper.lap_m);
    if (j->bolt_use > 1.0)
        TELL("the bolt through the joint fails: %.0f N, its strength is used %.2f times", j->bolt_n, j->bolt_use, 0.0);
}

static void what_falls(const lw_mast_wish *w, lw_mast_result *out)
{
    const lw_mast_bending *b = &out->bending;
    buckles(b, out);
    if (b->buckles >= 1.0 && b->bends < 1.0)
        TELL("the pipe would bend over: factored stress %.3g MPa, allowed %.3g MPa, reserve %.2f", b->factored_mpa,
             b->allowed_mpa, b->bends);
    if (b->sway_mm > 100.0 * w->height_m)
        TELL("the top would sway %.0f mm, over a tenth of its height", b->sway_mm, 0.0, 0.0);
    if (w->base == LW_BASE_PLATE)
        plate_fails(w, out);
    else if (w->depth_m > 0.0 && w->depth_m < out->depth_m)
        TELL("the base is %.2f m deep and must be %.2f m, %.2f m of it for loosened ground", w->depth_m, out->depth_m,
             w->loose_m);
    joint_fails(w, out);
    if (out->note_count == 0)
        return;
    out->verdict = LW_MAST_FALLS;
    if (b->reserve >= 1.0 && b->sway_mm <= 100.0 * w->height_m)
        return;
    if (out->steel_that_stands.diameter_mm > 0.0)
        TELL("what would stand: a steel tube of %g x %g mm", out->steel_that_stands.diameter_mm,
             out->steel_that_stands.wall_mm, 0.0);
    if (out->panel_that_stands_m2 > 0.02 && out->panel_that_stands_m2 < w->panel.area_m2)
        TELL("or a panel of at most %.2f m2 on this pipe", out->panel_that_stands_m2, 0.0, 0.0);
}

/* Stress range that the weakest weld bears for ever: 0.404 x 36 MPa over 1.35 (EN 1993-1-9, from memory). */
static const double fatigue_mpa = 10.8;

static void size_reasons(const lw_mast_wish *w, lw_mast_result *out)
{
    const double fast = w->wind.label == LW_WIND_MEAN_10MIN ? 40.0 : 60.0;
    if (w->height_m > 6.0)
        NOTE("it is %.3g m high, over 6 m", w->height_m, 0.0, 0.0);
    if (w->panel.area_m2 > 0.7)
        NOTE("the panel has %.2g m2, over 0.7 m2", w->panel.area_m2, 0.0, 0.0);
    if (w->wind.speed_m_s > fast)
        NOTE("the wind speed of %.3g m/s passes %g m/s", w->wind.speed_m_s, fast, 0.0);
    if (w->wind.label == LW_WIND_GUST_OBSERVED)
        SAYING("an observed gust is not a 50-year value: ask where local codes give the design wind");
    if (out->bending.column.alpha_cr < 10.0)
        NOTE("its weights are heavy for this pole: %.2g times as much would buckle it, under 10",
             out->bending.column.alpha_cr, 0.0, 0.0);
    if (out->vibration.frequency_hz < 1.0)
        NOTE("it swings at %.2g Hz; below 1 Hz gusts swing it up", out->vibration.frequency_hz, 0.0, 0.0);
    if (w->material <= 2 && 2.0 * out->shedding.stress_mpa > fatigue_mpa)
        NOTE("vortices swing it in wind of %.1f m/s: %.2g MPa, up and down, every day; over %.2g MPa metal tires",
             out->shedding.critical_m_s, 2.0 * out->shedding.stress_mpa, fatigue_mpa);
    if (out->bending.reserve < 1.0 / 0.95 && !w->wall_measured)
        NOTE("the reserve of %.2f is small and the wall was not measured", out->bending.reserve, 0.0, 0.0);
    if (w->base != LW_BASE_PLATE && out->base_margin < 2.5)
        NOTE("the base overturns at %.2g times the wind force, 2.5 is wanted", out->base_margin, 0.0, 0.0);
}

static void place_reasons(const lw_mast_wish *w, lw_mast_result *out)
{
    if (w->hill || w->wind.topography > 1.0)
        SAYING("it stands on a crest or slope, where the wind is 20 to 50 percent faster");
    if (w->on_building)
        SAYING("it stands on a building or bridge");
    if (w->people_below)
        SAYING("people gather within one and a half heights");
    if (w->power_line_near)
        SAYING("a power line is near: nothing may come within 3 m of it, and more at high voltage");
    if (w->flooded)
        SAYING("the ground is flooded part of the year");
    if (w->guyed)
        SAYING("it is guyed");
    if (out->thin_wall.design_mpa > 0.0)
        NOTE("its wall is thin: it buckles at %.3g MPa, and a dent makes that less", out->thin_wall.design_mpa, 0.0,
             0.0);
    if (out->joint.mouth_m > 0.0)
        SAYING("it is made of two pipes: their joint carries the moment of the upper one");
    if (w->base == LW_BASE_PLATE)
        SAYING("it is welded to a plate: the weld and the bolts carry the whole moment at the ground");
    if (w->base == LW_BASE_PLATE && w->plate.on_rock)
        SAYING(
            "it is bolted to rock: how the bolts hold in it is not computed; pull each with one and a half times its "
            "load first");
    if (w->welded)
        SAYING("the tube is welded, spliced, reused or dented");
}

static void raising(lw_mast_result *out)
{
    TELL("raise it with all parts on it, in no wind above 5 m/s, two people at ropes to both sides", 0.0, 0.0, 0.0);
    TELL("it weighs %.0f kg; walking it up takes up to %.0f N with the hands at 2 m: %.0f people at the pole",
         out->total_kg, out->raising.most_n, (double)out->raising.people);
    TELL("nobody else within %.1f m while it is raised, and a barrier round it until the base has set",
         out->raising.clear_m, 0.0, 0.0);
    TELL("its foot at least %.1f m from an overhead line up to 50 kV, more above; the line's owner and local rules "
         "decide, and nobody works there without them",
         out->line_clear_m, 0.0, 0.0);
}

static void cautions(const lw_mast_wish *w, lw_mast_result *out)
{
    note(out, lw_mast_material_at(w->material)->caution, 0.0, 0.0, 0.0);
    raising(out);
    if (w->wind_given) {
        TELL("the panel is lifted with %.0f N: bolts carry it, never gravity, hot glue or a bottle's neck", out->lift_n,
             0.0, 0.0);
        if (2.0 * out->twist_nm > out->clamp_nm)
            TELL("the wind twists the panel with %.0f N m; one hose clamp slips at about %.0f N m and is trusted "
                 "with half, %.0f N m: drill a bolt through, or take two U-bolts",
                 out->twist_nm, out->clamp_nm, 0.5 * out->clamp_nm);
    }
    TELL("fix panel, box and head before it is raised; lock nuts, and shear nuts or a weld drop against theft", 0.0,
         0.0, 0.0);
    if (w->upper.pipe.diameter_mm > 0.0)
        TELL("join the pipes before the mast is raised: rolled sheet where they are loose, a bolt M10 with a lock nut "
             "through both at half of the lap of %.2f m, a drain hole under the upper pipe",
             w->upper.lap_m, 0.0, 0.0);
    if (w->base == LW_BASE_PLATE)
        TELL("raise it when the block is seven days old; plate on an even bed of mortar, two nuts on every bolt; look "
             "at "
             "bolts and weld every year",
             0.0, 0.0, 0.0);
    else if (w->base == LW_BASE_BURIED)
        TELL("stones rammed in layers of 150 mm around the foot over the full depth; it gives more than concrete, so "
             "look "
             "at it after the first storm",
             0.0, 0.0, 0.0);
    else if (w->pipe.diameter_mm / 1000.0 < w->collar_m)
        TELL("concrete collar over the full depth, against undisturbed soil, top sloped; ropes to three sides hold the "
             "mast for seven days",
             0.0, 0.0, 0.0);
}

void lw_mast_write_notes(const lw_mast_wish *wish, lw_mast_result *out)
{
    if (wish->wind_given) {
        what_falls(wish, out);
        if (out->verdict != LW_MAST_FALLS) {
            size_reasons(wish, out);
            place_reasons(wish, out);
            out->verdict = out->note_count ? LW_MAST_ENGINEER : LW_MAST_STANDS;
        }
    } else {
        TELL("give the basic wind speed of the place: local codes have it; it is never invented here", 0.0, 0.0, 0.0);
    }
    out->reasons = out->note_count;
    cautions(wish, out);
}
