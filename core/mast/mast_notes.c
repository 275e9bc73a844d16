/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The verdict on a mast: what makes it fall, what hands it to a licensed engineer (common practice), what to mind when
 * it is raised.
 */
#include "mast_notes.h"

#include <stdarg.h>
#include <stdio.h>

static void note(lw_mast_result *out, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void note(lw_mast_result *out, const char *format, ...)
{
    if (out->note_count >= LW_MAST_NOTES)
        return;
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(out->notes[out->note_count++], sizeof out->notes[0], format, arguments);
    va_end(arguments);
}

const char *lw_mast_verdict_text(lw_mast_verdict verdict)
{
    static const char *const texts[] = {"stands", "stands by these numbers; a licensed engineer decides",
                                        "not checked: no wind speed was given", "does not stand: refused"};
    return texts[verdict];
}

static void what_falls(const lw_mast_wish *w, lw_mast_result *out)
{
    const lw_mast_bending *b = &out->bending;
    if (b->reserve < 1.0)
        note(out, "the pipe would bend over: factored stress %.3g MPa, allowed %.3g MPa, reserve %.2f", b->factored_mpa,
             b->allowed_mpa, b->reserve);
    if (b->sway_mm > 100.0 * w->height_m)
        note(out, "the top would sway %.0f mm, over a tenth of its height", b->sway_mm);
    if (w->depth_m > 0.0 && w->depth_m < out->depth_m)
        note(out, "the base is %.2f m deep and must be %.2f m, %.2f m of it for loosened ground", w->depth_m,
             out->depth_m, w->loose_m);
    if (out->note_count == 0)
        return;
    out->verdict = LW_MAST_FALLS;
    if (b->reserve >= 1.0 && b->sway_mm <= 100.0 * w->height_m)
        return;
    if (out->steel_that_stands.diameter_mm > 0.0)
        note(out, "what would stand: a steel tube of %g x %g mm", out->steel_that_stands.diameter_mm,
             out->steel_that_stands.wall_mm);
    if (out->panel_that_stands_m2 > 0.02 && out->panel_that_stands_m2 < w->panel.area_m2)
        note(out, "or a panel of at most %.2f m2 on this pipe", out->panel_that_stands_m2);
}

static void size_reasons(const lw_mast_wish *w, lw_mast_result *out)
{
    const double fast = w->wind.label == LW_WIND_MEAN_10MIN ? 40.0 : 60.0;
    if (w->height_m > 6.0)
        note(out, "it is %.3g m high, over 6 m", w->height_m);
    if (w->panel.area_m2 > 0.7)
        note(out, "the panel has %.2g m2, over 0.7 m2", w->panel.area_m2);
    if (w->wind.speed_m_s > fast)
        note(out, "the wind speed of %.3g m/s passes %g m/s", w->wind.speed_m_s, fast);
    if (w->wind.label == LW_WIND_GUST_OBSERVED)
        note(out, "an observed gust is not a 50-year value: ask where local codes give the design wind");
    if (out->vibration.frequency_hz < 1.0)
        note(out, "it swings at %.2g Hz; below 1 Hz gusts swing it up", out->vibration.frequency_hz);
    if (out->bending.reserve < 1.0 / 0.95 && !w->wall_measured)
        note(out, "the reserve of %.2f is small and the wall was not measured", out->bending.reserve);
    if (out->base_margin < 2.5)
        note(out, "the base overturns at %.2g times the wind force, 2.5 is wanted", out->base_margin);
}

static void place_reasons(const lw_mast_wish *w, lw_mast_result *out)
{
    if (w->hill || w->wind.topography > 1.0)
        note(out, "it stands on a crest or slope, where the wind is 20 to 50 %% faster");
    if (w->on_building)
        note(out, "it stands on a building or bridge");
    if (w->people_below)
        note(out, "people gather within one and a half heights");
    if (w->power_line_near)
        note(out, "a power line is near: nothing may come within 3 m of it, and more at high voltage");
    if (w->flooded)
        note(out, "the ground is flooded part of the year");
    if (w->guyed)
        note(out, "it is guyed");
    if (w->welded)
        note(out, "the tube is welded, spliced, reused or dented");
}

static void cautions(const lw_mast_wish *w, lw_mast_result *out)
{
    const lw_mast_material *material = lw_mast_material_at(w->material);
    note(out, "%s: %s", material->name, material->caution);
    note(out, "raising: two people and a rope over 4 m, no wind above 5 m/s, nobody within the mast's height, nothing "
              "overhead within 3 m of a power line");
    note(out, "it weighs %.0f kg; tilting it up takes %.0f N at 1.5 m from the foot", out->total_kg,
         out->tilting_nm / 1.5);
    if (w->wind_given)
        note(out, "the panel is lifted with %.0f N: bolts carry it, never gravity, hot glue or a bottle's neck",
             out->lift_n);
    note(out, "fit the head the day the mast is raised; lock nuts, and shear nuts or a weld drop against theft");
    if (w->pipe.diameter_mm / 1000.0 < w->collar_m)
        note(out,
             "concrete collar over the full depth, against undisturbed soil, top sloped; seven days before the head "
             "goes up");
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
        note(out, "give the basic wind speed of the place: local codes have it; it is never invented here");
    }
    out->reasons = out->note_count;
    cautions(wish, out);
}
