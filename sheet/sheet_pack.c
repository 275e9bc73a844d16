/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pack: which cell in which place, which way round, in what order it is joined, what to measure before each joint.
 */
#include "sheet_list.h"

#include "lanewick/cell_test.h"

#include <math.h>
#include <stdio.h>

static const lw_sheet_table places_table = {.columns = 5, .width_mm = {18, 54, 34, 34, 34}};

static void places_head(lw_sheet *sheet)
{
    const char *head[] = {SAY("place"), SAY("cell code"), SAY("volts before"), SAY("ampere-hours"), SAY("checked")};
    lw_sheet_row(sheet, &places_table, true, head);
}

/* Cells that are not chosen yet: their codes are written in. */
static void open_places(lw_sheet *sheet, int series, int parallel)
{
    lw_sheet_heading(sheet, SAY("Cells and their places"));
    places_head(sheet);
    for (int g = 0; g < series; g++)
        for (int k = 0; k < parallel; k++) {
            char place[16];
            const char *row[] = {lw_cell_place(place, sizeof place, g, k), NULL, "______ V", "______ Ah", NULL};
            lw_sheet_row(sheet, &places_table, false, row);
        }
}

/* The very cells of one pack, group by group with what the group holds. */
static void known_places(lw_sheet *sheet, const lw_plan *plan, const lw_plan_pack *pack, const lw_design *design)
{
    char text[200], code[48];
    lw_sheet_heading(
        sheet, lw_sheet_format(text, sizeof text, SAY("Cells of pack %s"),
                               lw_thing_code(code, sizeof code, 'P', sheet->code, pack->kind + 1, pack->number + 1)));
    places_head(sheet);
    for (int g = 0; g < design->series; g++)
        for (int k = 0; k < design->parallel; k++) {
            char place[16], holds[24];
            const size_t cell = pack->first + (size_t)g * (size_t)design->parallel + (size_t)k;
            const char *row[] = {
                lw_cell_place(place, sizeof place, g, k), plan->cell_id[cell], "______ V",
                k == 0 ? lw_sheet_format(holds, sizeof holds, SAY("group: %.2f Ah"), pack->group_ah[g]) : "", "□"};
            lw_sheet_row(sheet, &places_table, false, row);
        }
}

static void places(lw_sheet *sheet, const lw_sheet_input *input)
{
    const lw_plan *plan = input->plan;
    const lw_design *design = &input->kind->design;
    bool known = false;
    for (size_t i = 0; i < plan->pack_count; i++) {
        if (&plan->kind[plan->pack[i].kind] != input->kind)
            continue;
        known_places(sheet, plan, &plan->pack[i], design);
        known = true;
    }
    if (!known)
        open_places(sheet, design->series, design->parallel);
}

/* Open volts of one cell at about half charge. */
typedef struct half_charge {
    double expect_v, low_v, high_v;
} half_charge;

/* Between 0.4 and 0.6 of the charge by every curve that is known of the class, and 0.02 V for the meter: a cell of
 * another maker lies elsewhere. */
static half_charge half_of(const lw_cell_class *class)
{
    static const double meter_v = 0.02;
    const lw_test_class *test = lw_test_class_find(class->name);
    half_charge h = {lw_ocv_at(&class->ocv, 0.5), lw_ocv_at(&class->ocv, 0.4), lw_ocv_at(&class->ocv, 0.6)};
    for (size_t i = 0; test && i < test->curve_count; i++) {
        h.low_v = fmin(h.low_v, lw_curve_v(test->curves[i], 0.4));
        h.high_v = fmax(h.high_v, lw_curve_v(test->curves[i], 0.6));
    }
    return (half_charge){h.expect_v, h.low_v - meter_v, h.high_v + meter_v};
}

/* A pack is joined half full, so that a slip of the tool does less harm (common practice). */
static void prepare(lw_sheet *sheet, const lw_shelf_cell *cells, half_charge h, int *n)
{
    char text[300];
    lw_sheet_step(
        sheet, ++*n,
        lw_sheet_format(text, sizeof text,
                        SAY("Charge every cell full on its jig, then take half out on the discharge jig: about %.1f "
                            "hours each. Half full, a slip of the tool does less harm. Let them rest a day."),
                        0.5 * cells->capacity_ah * lw_jig_ohm / h.expect_v));
    lw_sheet_step(
        sheet, ++*n,
        lw_sheet_format(text, sizeof text,
                        SAY("Write down each cell's volts: %.2f V (%.2f–%.2f). Cells of one group differ by 0.02 V at "
                            "most, groups too; one that strays goes back to the jig."),
                        h.expect_v, h.low_v, h.high_v));
}

static void join(lw_sheet *sheet, int series, half_charge h, int *n)
{
    char text[400];
    lw_sheet_caution(sheet,
                     SAY("Do not solder on a cell. Use factory tabs, spot welding or holders. Eyes and gloves on; "
                         "work on a surface that does not burn, with sand at hand, never alone."));
    lw_sheet_caution(sheet, SAY("A swollen or hot cell goes out of the house at once. Local rules on transport and on "
                                "battery waste come first."));
    lw_sheet_step(sheet, ++*n,
                  SAY("Set the cells as in the picture. Join the upper ends of a group with the pale strip, then the "
                      "lower ends. Cover every strip at once. Do this group after group."));
    for (int g = 1; g < series; g++)
        lw_sheet_step(sheet, ++*n,
                      lw_sheet_format(text, sizeof text,
                                      g % 2
                                          ? SAY("Measure groups %d and %d: they differ by less than 0.02 V. Then join "
                                                "minus of group %d to plus of group %d below, with the black strips. "
                                                "All that is joined reads %.2f V (%.2f–%.2f).")
                                          : SAY("Measure groups %d and %d: they differ by less than 0.02 V. Then join "
                                                "minus of group %d to plus of group %d above, with the black strips. "
                                                "All that is joined reads %.2f V (%.2f–%.2f)."),
                                      g, g + 1, g, g + 1, (g + 1) * h.expect_v, (g + 1) * h.low_v, (g + 1) * h.high_v));
}

static void sense_wires(lw_sheet *sheet, int series, half_charge h)
{
    static const lw_sheet_table table = {.columns = 4, .width_mm = {24, 62, 58, 30}};
    const char *head[] = {SAY("wire"), SAY("where"), SAY("expect"), SAY("read")};
    lw_sheet_row(sheet, &table, true, head);
    for (int k = 0; k <= series; k++) {
        char number[16], where[60], volts[60];
        const char *row[] = {
            lw_sheet_format(number, sizeof number, "%d", k),
            lw_sheet_format(where, sizeof where, k ? SAY("plus of group %d") : SAY("minus of group %d"),
                            k ? series + 1 - k : series),
            k ? lw_sheet_format(volts, sizeof volts, "%.2f V (%.2f–%.2f)", k * h.expect_v, k * h.low_v, k * h.high_v)
              : "0 V",
            "______ V"};
        lw_sheet_row(sheet, &table, false, row);
    }
    lw_sheet_gap(sheet, 2.0);
}

/* Fuse, then sense wires, then board: nothing hangs on the pack that a fuse does not guard, but the thin wires. */
static void protect(lw_sheet *sheet, int series, half_charge h, double full, int *n)
{
    char text[300];
    lw_sheet_step(sheet, ++*n,
                  SAY("Put the fuse holder at the pack's plus, as close as it goes, before any other wire. The fuse "
                      "itself stays out."));
    lw_sheet_need(sheet, 22.0 + 8.0 * series); /* the readings stay with their step */
    lw_sheet_step(sheet, ++*n,
                  SAY("Solder the sense wires of the protection board in the order of their numbers, 0 first. Measure "
                      "each against wire 0 before it goes to the board."));
    sense_wires(sheet, series, h);
    lw_sheet_step(sheet, ++*n,
                  series > 1
                      ? SAY("Join the board: pack's minus to its battery side, then the plug of the sense wires. "
                            "The lamp's minus comes from its output side.")
                      : SAY("Join the board: wire 0 to minus of its battery side, wire 1 to plus. The lamp's minus "
                            "comes from its output side."));
    lw_sheet_step(
        sheet, ++*n,
        lw_sheet_format(text, sizeof text,
                        SAY("Put the fuse in and test the board: from the fuse to its output minus the meter reads "
                            "%.2f V (%.2f–%.2f). Nothing: join the charger for a second, some boards wake up so."),
                        series * h.expect_v, series * h.low_v, series * h.high_v));
    lw_sheet_step(sheet, ++*n,
                  lw_sheet_format(text, sizeof text,
                                  SAY("Charge once, watched, with the charger that was proven (sheet Charging unit). "
                                      "Stop when the pack reads %.2f V, or any group %.2f V."),
                                  series * full, full));
    lw_sheet_step(sheet, ++*n, SAY("Pull the fuse. It stays out until the lamp is joined (sheet Wiring)."));
}

static void steps(lw_sheet *sheet, const lw_plan_kind *kind, const lw_shelf_cell *cells, double full)
{
    const half_charge h = half_of(lw_shelf_cell_class(cells));
    int n = 0;
    lw_sheet_heading(sheet, SAY("Join the pack, in this order"));
    prepare(sheet, cells, h, &n);
    join(sheet, kind->design.series, h, &n);
    protect(sheet, kind->design.series, h, full, &n);
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_plan_kind *kind = input->kind;
    const lw_shelf_cell *cells = &input->plan->brief.shelf.cell[kind->design.cell];
    char text[300];
    lw_sheet_caution(
        sheet, SAY("This pack is not certified. Packs of reclaimed cells without a traceable life are outside the "
                   "reuse standard (IEC 63338:2024). Where local rules forbid them, do not build one."));
    lw_sheet_value(sheet, SAY("Cells"), cells->name);
    lw_sheet_value(sheet, SAY("Groups in series x cells in each"),
                   lw_sheet_format(text, sizeof text, "%d x %d = %d", kind->design.series, kind->design.parallel,
                                   kind->design.series * kind->design.parallel));
    lw_sheet_value(sheet, SAY("A cell holds at least"),
                   lw_sheet_format(text, sizeof text, "%.2f Ah",
                                   cells->capacity_ah * (1.0 - 1.28 * cells->capacity_sd_pct / 100.0)));
    lw_sheet_value(
        sheet, SAY("The pack holds"),
        lw_sheet_format(text, sizeof text, "%.0f Wh", lw_design_pack_wh(&input->plan->brief.shelf, &kind->design)));
    lw_sheet_gap(sheet, 4.0);
    lw_sheet_text(sheet, SAY("Double ring and + : the positive end. Pale strips join the cells of a group, black ones "
                             "two groups. A number in a ring: sense wire."));
    lw_sheet_pack_picture(sheet, kind->design.series, kind->design.parallel);
    steps(sheet, kind, cells, input->build->charge.cell.full_v);
    places(sheet, input);
}

const lw_sheet_kind lw_sheet_pack = {
    .name = "pack",
    .group = "bench",
    .title = "The pack",
    .each_kind = true,
    .draw = draw,
};
