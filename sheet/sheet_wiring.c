/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wiring sheet: the picture (picture_wiring.c), wire sections, fuse, guard, the order of joining.
 */
#include "sheet_list.h"

#include <stdio.h>

static void wires(lw_sheet *sheet, const lw_sheet_input *input)
{
    static const lw_sheet_table table = {
        .columns = 4, .width_mm = {86, 30, 30, 28}, .right = {false, true, true, true}};
    const lw_wiring *w = &input->build->wiring;
    const lw_shelf *shelf = &input->plan->brief.shelf;
    const lw_design *design = &input->kind->design;
    const char *head[] = {SAY("copper wire, plus and minus"), SAY("section"), SAY("length"), SAY("current")};
    const struct {
        const char *name;
        double mm2, length_m, amps;
    } rows[] = {
        {SAY("panel to charger"), w->panel_mm2, 5.0, design->panels * shelf->panel[design->panel].isc_a},
        {SAY("pack to fuse, charger and driver"), w->pack_mm2, 0.5,
         w->night_a > w->charge_a ? w->night_a : w->charge_a},
        {SAY("driver to head"), w->head_mm2, 5.0, w->head_a},
    };
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char section[24], length[24], amps[24];
        (void)snprintf(section, sizeof section, "%g mm²", rows[i].mm2);
        (void)snprintf(length, sizeof length, "%.1f m", rows[i].length_m);
        (void)snprintf(amps, sizeof amps, "%.2f A", rows[i].amps);
        const char *cells[] = {rows[i].name, section, length, amps};
        lw_sheet_row(sheet, &table, false, cells);
    }
}

/* What stands a pack that is joined the wrong way round. */
static void reversed(lw_sheet *sheet, const lw_sheet_input *input)
{
    const lw_reverse_guard guard = input->plan->brief.build.reverse;
    if (guard == LW_REVERSE_NONE)
        lw_sheet_caution(sheet, SAY("Joined the wrong way round the pack destroys charger and switch. Give it a keyed "
                                    "plug that fits one way only, and measure plus and minus before the first time."));
    else
        lw_sheet_value(sheet, SAY("Guard against a reversed pack"),
                       guard == LW_REVERSE_DIODE ? SAY("shunt diode behind the fuse: it blows the fuse")
                                                 : SAY("transistor behind the fuse: it blocks"));
}

/* How the guard is joined; nothing without one. */
static void join_guard(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    char text[300];
    const lw_reverse_guard guard = input->plan->brief.build.reverse;
    if (guard == LW_REVERSE_DIODE)
        lw_sheet_step(sheet, ++*n, SAY("Shunt diode behind the fuse: its ring to plus, its other end to minus."));
    if (guard == LW_REVERSE_TRANSISTOR)
        lw_sheet_step(sheet, ++*n,
                      lw_sheet_format(text, sizeof text,
                                      SAY("Guard transistor, P-channel, its gate good for %.0f V: D to the fuse, S to "
                                          "the plus rail, G through 100 kΩ to the minus rail."),
                                      input->kind->design.series * input->build->charge.cell.hard_v));
}

/* Head, driver and what switches them. */
static void join_light(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    if (!input->kind->dusk.there) {
        lw_sheet_step(sheet, ++*n,
                      SAY("Head to driver, then driver to the rails: check plus and minus with the meter."));
        return;
    }
    lw_sheet_step(sheet, ++*n,
                  SAY("Head to driver, driver to the lamp side of the dusk switch, its pack side to the rails: check "
                      "plus and minus with the meter."));
    if (input->kind->dusk.values.sensor == LW_SENSE_PANEL)
        lw_sheet_step(sheet, ++*n, SAY("P of the dusk switch to the panel's plus, before the blocking diode."));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_wiring *w = &input->build->wiring;
    char text[300];
    int n = 0;
    lw_sheet_wiring_picture(sheet, input);
    wires(sheet, input);
    lw_sheet_gap(sheet, 3.0);
    if (!input->kind->dusk.there)
        lw_sheet_text(sheet, SAY("The driver has its own dusk switch: none is made by hand."));
    lw_sheet_value(sheet, SAY("Fuse at the pack's plus (blade type)"),
                   lw_sheet_format(text, sizeof text, "%g A", w->fuse_a));
    lw_sheet_caution(sheet,
                     lw_sheet_format(text, sizeof text,
                                     SAY("A short circuit at the pack drives about %.0f A: it melts tools and starts "
                                         "fires. No rings, no bare ends; a glass fuse may not break it."),
                                     w->short_a));
    reversed(sheet, input);
    lw_sheet_load_cautions(sheet, input);
    lw_sheet_heading(sheet, SAY("Join in this order"));
    lw_sheet_step(sheet, ++n, SAY("Pull the fuse and leave it out until the last step at the bench."));
    join_light(sheet, input, &n);
    join_guard(sheet, input, &n);
    lw_sheet_step(sheet, ++n, SAY("Pack with its protection board and empty fuse holder to the rails."));
    lw_sheet_step(sheet, ++n,
                  SAY("Charger to the rails. Every joint soldered or screwed, covered, and pulled by hand."));
    lw_sheet_step(sheet, ++n, SAY("Put the fuse in. Connect the panel last, and take it off first."));
}

static bool wanted(const lw_sheet_input *input)
{
    return input->build->has_wiring;
}

const lw_sheet_kind lw_sheet_wiring = {
    .name = "wiring",
    .group = "bench",
    .title = "Wiring",
    .each_kind = true,
    .wanted = wanted,
    .draw = draw,
};
