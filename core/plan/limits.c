/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The hard limits of safety, in one place. Each function asks about one part of a plan and adds a refusal with its
 * numbers, what would make it acceptable and its source. Nothing in a brief or a data file can move them; they are
 * judged again for every design that the search meets. Limits of pack building, of joints and of the mast are
 * judged where those are planned.
 */
#include "lanewick/plan.h"

#include "lanewick/lamp_build.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Cells may not be charged outside this [degC]; IEC 62133-2:2017 Annex A ties charging to temperature, 0 and 45 degC
 * are the values of 18650 datasheets. */
static const double charge_low_c = 0.0, charge_high_c = 45.0;
/* Extra-low voltage: d.c. not above 60 V in dry places (IEC 61140, IEC 60364-4-41 clause 414; from memory). */
static const double extra_low_v = 60.0;
/* A board that trips above this protects nothing (protection boards trip at 4.25 to 4.35 V, LFP at 3.65 to 3.9). */
static const double board_highest_v = 4.35, board_highest_lfp_v = 3.90;
/* Open voltage in the cold: Voc rises by about 0.34 % for each kelvin below 25 degC (crystalline silicon, typical). */
static const double voc_per_k = 0.0034;

static const char from_datasheets[] = "18650 datasheets; IEC 62133-2:2017 Annex A";
static const char from_practice[] = "common practice";
static const char from_memory_copper[] = "common practice: below 2.0 V copper may have dissolved";
static const char from_extra_low[] = "IEC 61140, extra-low voltage (from memory)";

void lw_refuse(lw_refusals *out, const lw_refusal *refusal)
{
    for (size_t i = 0; i < out->count; i++)
        if (strcmp(out->item[i].id, refusal->id) == 0 && strcmp(out->item[i].reason, refusal->reason) == 0)
            return;
    if (out->count < LW_PLAN_REFUSALS)
        out->item[out->count++] = *refusal;
}

/* Begins a refusal; the caller writes the reason. */
static lw_refusal begin(const char *id, const char *source, const char *remedy)
{
    lw_refusal r = {0};
    (void)snprintf(r.id, sizeof r.id, "%s", id);
    (void)snprintf(r.source, sizeof r.source, "%s", source);
    (void)snprintf(r.remedy, sizeof r.remedy, "%s", remedy);
    return r;
}

static bool refuse_words(lw_refusals *out, const char *id, const char *source, const char *reason, const char *remedy)
{
    lw_refusal r = begin(id, source, remedy);
    (void)snprintf(r.reason, sizeof r.reason, "%s", reason);
    lw_refuse(out, &r);
    return false;
}

static bool limits_build(const lw_build *build, lw_refusals *out)
{
    bool well = true;
    if (build->pack_in == LW_SEAT_HEAD)
        well = refuse_words(out, "pack_in_head", from_practice,
                            "The pack would sit in the head, where the LEDs heat it and where it would burn overhead.",
                            "Put the pack in its own vented box on the mast or on the ground (build.pack_in \"box\").");
    if (build->pack_in == LW_SEAT_ROOM)
        well = refuse_words(out, "pack_where_people_sleep", from_practice,
                            "The pack would sit in a room where people sleep; a failing cell gives off burning gas.",
                            "Put the pack in a vented box outside (build.pack_in \"box\").");
    if (!build->vent)
        well = refuse_words(out, "sealed_box", from_practice,
                            "The box has no vent; gas from a failing cell would burst it.",
                            "Give the box two screened openings, one low and one high (build.vent true).");
    if (!build->fuse)
        well = refuse_words(out, "no_fuse", from_practice,
                            "The pack has no fuse; a short in the wires would let the cells burn.",
                            "Put a fuse at the positive lead of the pack (build.fuse true).");
    if (!build->protection)
        well = refuse_words(out, "no_protection", "IEC 62133-2:2017 (scope); common practice",
                            "The lithium pack has no protection circuit.",
                            "Add a protection board that fits the pack (build.protection true, shelf.boards).");
    return well;
}

bool lw_limits_cell(const lw_shelf_cell *cell, lw_refusals *out)
{
    static const char *const verdicts[] = /* words */ {"sound", "tired", "unsure", "scrap", "untested"};
    if (cell->voltage_class == LW_SHELF_UNKNOWN) {
        lw_refusal r = begin("unknown_class", from_datasheets,
                             "Find the class from the marking, or leave these cells out; they may not go into a pack.");
        (void)snprintf(r.reason, sizeof r.reason, "%s: the voltage class is not known, so no charge limit is safe.",
                       cell->name);
        lw_refuse(out, &r);
        return false;
    }
    if (cell->verdict > LW_SHELF_TIRED) {
        lw_refusal r = begin("cell_verdict", "UL 1974 in spirit; common practice",
                             "Test them: capacity, resistance, a month's rest. Use only cells found sound or tired.");
        (void)snprintf(r.reason, sizeof r.reason, "%s: the verdict is \"%s\".", cell->name, verdicts[cell->verdict]);
        lw_refuse(out, &r);
        return false;
    }
    if (cell->lowest_found_v < 2.0 || (cell->lowest_found_v < 2.5 && !cell->recovered)) {
        lw_refusal r =
            begin("found_too_low", from_memory_copper,
                  cell->lowest_found_v < 2.0
                      ? "Hand cells found below 2.0 V to recycling; they cannot be saved."
                      : "Bring them back slowly (C/20 at most, under watch) and test them fully; then say recovered.");
        (void)snprintf(r.reason, sizeof r.reason, "%s: a cell was found at %.2f V.", cell->name, cell->lowest_found_v);
        lw_refuse(out, &r);
        return false;
    }
    return true;
}

bool lw_limits_brief(const lw_brief *brief, lw_refusals *out)
{
    const bool well = limits_build(&brief->build, out);
    lw_refusals cells = {0};
    size_t usable = 0;
    for (size_t i = 0; i < brief->shelf.cell_count; i++)
        usable += lw_limits_cell(&brief->shelf.cell[i], &cells) ? 1 : 0;
    if (usable > 0)
        return well;
    for (size_t i = 0; i < cells.count; i++)
        lw_refuse(out, &cells.item[i]);
    return false;
}

static bool charge_end(const lw_shelf_charger *charger, const lw_cell_class *class, lw_refusals *out)
{
    if (isnan(charger->end_v_per_cell)) {
        lw_refusal r = begin("no_charge_limit", from_datasheets,
                             "Use a charger or switch that ends the charge, and state end_v_per_cell.");
        (void)snprintf(r.reason, sizeof r.reason, "%s: a bare panel on a lithium pack without a charge limit.",
                       charger->name);
        lw_refuse(out, &r);
        return false;
    }
    if (charger->end_v_per_cell <= class->limit_v)
        return true;
    lw_refusal r = begin("charge_voltage", from_datasheets, "");
    (void)snprintf(r.reason, sizeof r.reason, "%s: ends the charge at %.2f V a cell; %s cells may not pass %.2f V.",
                   charger->name, charger->end_v_per_cell, class->name, class->limit_v);
    (void)snprintf(r.remedy, sizeof r.remedy, "Set it to %.2f V a cell, or take a charger made for %s cells.",
                   class->ceiling_v, class->name);
    lw_refuse(out, &r);
    return false;
}

/* A driver that stops the light leaves the other users of the pack on: then the board alone ends the discharge. */
static bool only_the_light(const lw_brief *brief)
{
    for (size_t i = 0; i < brief->want.lamp_count; i++)
        if (brief->want.lamp[i].load_count > 0)
            return false;
    return true;
}

static bool discharge_end(const lw_brief *brief, const lw_shelf_board *board, const lw_shelf_driver *driver,
                          const lw_cell_class *class, lw_refusals *out)
{
    const bool stops = only_the_light(brief) && !isnan(driver->low_stop_v_per_cell);
    const double by_driver = stops ? driver->low_stop_v_per_cell : 0.0;
    const double lowest = fmax(board ? board->low_v : class->cutoff_v, by_driver);
    if (lowest >= class->floor_v)
        return true;
    lw_refusal r = begin("discharge_voltage", from_datasheets, "");
    (void)snprintf(r.reason, sizeof r.reason, "%s: cuts off at %.2f V; %s cells may not fall below %.2f V.",
                   board ? board->name : driver->name, lowest, class->name, class->floor_v);
    (void)snprintf(r.remedy, sizeof r.remedy,
                   "Take a board that opens at %.2f V or above, or a driver that stops there.", class->floor_v);
    lw_refuse(out, &r);
    return false;
}

static bool board_fits(const lw_brief *brief, const lw_design *design, const lw_cell_class *class, lw_refusals *out)
{
    if (design->board < 0)
        return brief->shelf.board_count == 0 ||
               refuse_words(out, design->series == 1 ? "no_protection_1" : "no_protection_groups",
                            "IEC 62133-2:2017 (scope); common practice",
                            "No protection board on the shelf fits a pack with this number of groups in series.",
                            "Add a board with the same number of groups to shelf.boards.");
    const lw_shelf_board *board = &brief->shelf.board[design->board];
    const double highest = class->limit_v < 4.0 ? board_highest_lfp_v : board_highest_v;
    if (board->high_v > highest) {
        lw_refusal r = begin("board_voltage", from_datasheets, "Take a board made for this class of cells.");
        (void)snprintf(r.reason, sizeof r.reason, "%s: opens at %.2f V; for %s cells it must open at %.2f V or below.",
                       board->name, board->high_v, class->name, highest);
        lw_refuse(out, &r);
        return false;
    }
    if (design->series == 1 || (board->every_group && board->balances))
        return true;
    lw_refusal r =
        begin("groups_not_watched", "common practice: a charger of the whole pack cannot see its weakest group",
              "Take a board that watches and balances every group, or build the pack as one group.");
    (void)snprintf(r.reason, sizeof r.reason, "%s: %d groups in series, but it does not watch and balance every group.",
                   board->name, design->series);
    lw_refuse(out, &r);
    return false;
}

static bool panel_voltage(const lw_shelf_panel *panel, const lw_shelf_charger *charger, double coldest_c,
                          lw_refusals *out)
{
    const double open_v = panel->voc_v * (1.0 + voc_per_k * (25.0 - fmin(coldest_c, 25.0)));
    if (open_v > extra_low_v) {
        lw_refusal r = begin("above_60_v", from_extra_low, "Use panels of fewer cells, side by side.");
        (void)snprintf(r.reason, sizeof r.reason, "%s: %.1f V open on the coldest morning (%.1f degC), above 60 V.",
                       panel->name, open_v, coldest_c);
        lw_refuse(out, &r);
        return false;
    }
    if (open_v <= charger->most_input_v)
        return true;
    lw_refusal r = begin("input_voltage", "IEC 60364-7-712 (coldest open voltage; from memory)", "");
    (void)snprintf(r.reason, sizeof r.reason,
                   "%s on %s: %.1f V open on the coldest morning (%.1f degC); the charger bears %.1f V.", panel->name,
                   charger->name, open_v, coldest_c, charger->most_input_v);
    (void)snprintf(r.remedy, sizeof r.remedy,
                   "Use a panel of at most %.1f V open voltage on the label, or a charger for %.0f V.",
                   charger->most_input_v * panel->voc_v / open_v, ceil(open_v));
    lw_refuse(out, &r);
    return false;
}

bool lw_limits_design(const lw_brief *brief, const lw_design *design, double coldest_c, lw_refusals *out)
{
    const lw_shelf *shelf = &brief->shelf;
    const lw_shelf_cell *cell = &shelf->cell[design->cell];
    if (!lw_limits_cell(cell, out))
        return false;
    const lw_cell_class *class = lw_shelf_cell_class(cell);
    const lw_shelf_charger *charger = &shelf->charger[design->charger];
    const lw_shelf_board *board = design->board >= 0 ? &shelf->board[design->board] : NULL;
    bool well = charge_end(charger, class, out);
    well = discharge_end(brief, board, &shelf->driver[design->driver], class, out) && well;
    well = board_fits(brief, design, class, out) && well;
    well = panel_voltage(&shelf->panel[design->panel], charger, coldest_c, out) && well;
    if (design->series * class->limit_v > extra_low_v)
        well = refuse_words(out, "pack_above_60_v", from_extra_low, "The full pack would pass 60 V.",
                            "Use fewer groups in series.");
    return well;
}

bool lw_limits_box(const lw_shelf_charger *charger, const lw_box_life *life, lw_refusals *out)
{
    const bool cold = life->cold_h > 0.0 && !(charger->cold_stop_c >= charge_low_c);
    const bool hot = life->hot_h > 0.0 && !(charger->hot_stop_c <= charge_high_c);
    if (cold) {
        lw_refusal r =
            begin("charging_below_0", from_datasheets,
                  "Add a cut-off: a charger with a thermometer on the cells (cold_stop_c 0 or above), or keep "
                  "the box above 0 degC.");
        (void)snprintf(r.reason, sizeof r.reason,
                       "%s: would charge below 0 degC in %.0f hours a year (cells down to %.1f degC), with no cut-off.",
                       charger->name, life->cold_h, life->coldest_c);
        lw_refuse(out, &r);
    }
    if (hot) {
        lw_refusal r =
            begin("charging_above_45", from_datasheets,
                  "Add a cut-off: a charger with a thermometer on the cells (hot_stop_c 45 or below), or shade "
                  "and vent the box and paint it white.");
        (void)snprintf(r.reason, sizeof r.reason,
                       "%s: would charge above 45 degC in %.0f hours a year (cells up to %.1f degC), with no cut-off.",
                       charger->name, life->hot_h, life->hottest_c);
        lw_refuse(out, &r);
    }
    return !cold && !hot;
}
