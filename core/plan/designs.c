/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The ways of building a lamp that the shelf allows and no hard limit refuses: every panel kind and number with
 * every charger, cell kind, number of groups in series and driver that go together. See lanewick/plan.h.
 */
#include "lanewick/lamp_build.h"

#include <math.h>

/* The board that fits a pack of so many groups best: one that watches and balances every group first, then the
 * cheapest; -1: none on the shelf. */
static int board_for(const lw_shelf *shelf, const lw_shelf_cell *cell, int series)
{
    const lw_cell_class *class = lw_shelf_cell_class(cell);
    int best = -1;
    for (size_t i = 0; i < shelf->board_count; i++) {
        const lw_shelf_board *board = &shelf->board[i];
        const bool lfp_board = board->high_v < 4.0;
        if (board->series != series || board->count < 1 || (class && lfp_board != (class->limit_v < 4.0)))
            continue;
        if (best < 0) {
            best = (int)i;
            continue;
        }
        const lw_shelf_board *old = &shelf->board[best];
        const bool good = board->every_group && board->balances, old_good = old->every_group && old->balances;
        if ((good && !old_good) || (good == old_good && board->price_minor < old->price_minor))
            best = (int)i;
    }
    return best;
}

/* The cheapest driver for the pack and the head, of those that can light it; -1: none. */
static int driver_for(const lw_brief *brief, const lw_lamp_kind *lamp, int series, bool lfp, bool must_dim)
{
    const lw_shelf *shelf = &brief->shelf;
    const bool fades = brief->want.hand_switch && brief->want.switch_kind == LW_SWITCH_PACK_DIMMING;
    int best = -1;
    for (size_t i = 0; i < shelf->driver_count; i++) {
        const lw_shelf_driver *driver = &shelf->driver[i];
        if (series < driver->series_min || series > driver->series_max || driver->most_w < lamp->head_w ||
            driver->count < 1 || (must_dim && !driver->dims) || (fades && driver->kind != LW_SHELF_RESISTOR) ||
            !lw_driver_lights(shelf, (int)i, series, lfp, NULL))
            continue;
        if (best < 0 || driver->price_minor < shelf->driver[best].price_minor)
            best = (int)i;
    }
    return best;
}

/* Whether other levels than full and off are asked for, so that the driver must dim. */
static bool has_levels(const lw_brief *brief, const lw_lamp_kind *lamp)
{
    if (brief->want.dims)
        return true;
    for (size_t i = 0; i < lamp->span_count; i++)
        if (lamp->span[i].level > 0.0 && lamp->span[i].level < 1.0)
            return true;
    return false;
}

/* A charger that could never work with this panel and pack: the panel's voltage is too low to fill the pack. */
static bool goes_together(const lw_shelf_panel *panel, const lw_shelf_charger *charger, const lw_cell_class *class,
                          int series)
{
    const double end_v = series * (isnan(charger->end_v_per_cell) ? class->ceiling_v : charger->end_v_per_cell);
    if (charger->kind == LW_SHELF_TRACKING)
        return panel->vmp_v > 3.0;
    /* A hot panel gives about 0.85 of its label voltage. */
    return 0.85 * panel->voc_v > end_v + charger->drop_v;
}

typedef struct enumeration {
    const lw_brief *brief;
    const lw_lamp_kind *lamp;
    double coldest_c;
    const lw_box_life *life;
    lw_design *out;
    size_t room, count;
    lw_refusals *refused;
} enumeration;

static void add_panels(enumeration *e, lw_design design)
{
    const lw_shelf *shelf = &e->brief->shelf;
    const lw_shelf_charger *charger = &shelf->charger[design.charger];
    const lw_cell_class *class = lw_shelf_cell_class(&shelf->cell[design.cell]);
    for (size_t p = 0; p < shelf->panel_count; p++) {
        const lw_shelf_panel *panel = &shelf->panel[p];
        design.panel = (int)p;
        design.panels = 1;
        if (panel->count < 1 || !goes_together(panel, charger, class, design.series) ||
            !lw_limits_design(e->brief, &design, e->coldest_c, e->refused))
            continue;
        for (int n = 1; n <= shelf->most_panels && n <= panel->count; n++) {
            design.panels = n;
            if (n * panel->watts > charger->most_input_w)
                break;
            if (e->count < e->room)
                e->out[e->count++] = design;
        }
    }
}

static void add_packs(enumeration *e, int charger_index)
{
    const lw_shelf *shelf = &e->brief->shelf;
    const lw_shelf_charger *charger = &shelf->charger[charger_index];
    if (charger->count < 1 || !lw_limits_box(charger, e->life, e->refused))
        return;
    for (size_t c = 0; c < shelf->cell_count; c++) {
        if (!lw_limits_cell(&shelf->cell[c], e->refused))
            continue;
        /* A charger is made for one class: where it ends the charge tells which. */
        const bool lfp = shelf->cell[c].voltage_class == LW_SHELF_LFP;
        if (!isnan(charger->end_v_per_cell) && (charger->end_v_per_cell < 3.8) != lfp)
            continue;
        for (int series = charger->series_min; series <= charger->series_max; series++) {
            if (e->brief->want.hand_switch && isnan(e->lamp->switch_standby_a[lfp][series]))
                continue;
            lw_design design = {.charger = charger_index, .cell = (int)c, .series = series, .head = e->lamp->head};
            design.driver = driver_for(e->brief, e->lamp, series, lfp, has_levels(e->brief, e->lamp));
            design.board = board_for(shelf, &shelf->cell[c], series);
            if (design.driver >= 0 && lw_design_most_parallel(shelf, &design) >= 1)
                add_panels(e, design);
        }
    }
}

size_t lw_plan_designs(const lw_brief *brief, const lw_lamp_kind *lamp, double coldest_c, const lw_box_life *life,
                       lw_design *out, size_t room, lw_refusals *refused)
{
    enumeration e = {brief, lamp, coldest_c, life, out, room, 0, refused};
    for (size_t i = 0; i < brief->shelf.charger_count; i++) {
        lw_refusals why = {0};
        const size_t before = e.count;
        e.refused = &why;
        add_packs(&e, (int)i);
        if (e.count == before && why.count > 0)
            lw_refuse(refused, &why.item[0]);
    }
    for (size_t i = 0; i < brief->shelf.cell_count; i++)
        (void)lw_limits_cell(&brief->shelf.cell[i], refused);
    return e.count;
}
