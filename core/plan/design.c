/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A design - the parts of one lamp - in words, sizes and money: see lanewick/plan.h.
 */
#include "lanewick/plan.h"

#include "lanewick/lamp_build.h"

#include <math.h>
#include <stdio.h>

const lw_cell_class *lw_shelf_cell_class(const lw_shelf_cell *cell)
{
    return lw_cell_class_find(lw_shelf_class_text(cell->voltage_class));
}

bool lw_design_same(const lw_design *a, const lw_design *b)
{
    return a->panel == b->panel && a->panels == b->panels && a->cell == b->cell && a->series == b->series &&
           a->parallel == b->parallel && a->charger == b->charger && a->driver == b->driver && a->board == b->board &&
           a->trimmed == b->trimmed && a->head == b->head;
}

double lw_design_panel_w(const lw_shelf *shelf, const lw_design *design)
{
    return design->panels * shelf->panel[design->panel].watts;
}

double lw_design_cutoff_v(const lw_shelf *shelf, const lw_design *design)
{
    const lw_cell_class *class = lw_shelf_cell_class(&shelf->cell[design->cell]);
    const double driver_v = shelf->driver[design->driver].low_stop_v_per_cell;
    const double board_v = design->board >= 0 ? shelf->board[design->board].low_v : class ? class->cutoff_v : 3.0;
    return fmax(board_v, isnan(driver_v) ? 0.0 : driver_v);
}

double lw_design_pack_wh(const lw_shelf *shelf, const lw_design *design)
{
    const lw_shelf_cell *cell = &shelf->cell[design->cell];
    const lw_cell_class *class = lw_shelf_cell_class(cell);
    return design->series * design->parallel * cell->capacity_ah * (class ? class->nominal_v : 0.0);
}

void lw_design_text(const lw_shelf *shelf, const lw_design *design, char *out, size_t size)
{
    char panel[LW_NAME + 8];
    if (design->panels > 1)
        (void)snprintf(panel, sizeof panel, "%d x %s", design->panels, shelf->panel[design->panel].name);
    else
        (void)snprintf(panel, sizeof panel, "%s", shelf->panel[design->panel].name);
    (void)snprintf(out, size, "%s, %d x %d cells", panel, design->series, design->parallel);
}

int64_t lw_design_cost_minor(const lw_shelf *shelf, const lw_design *design)
{
    int64_t cost = design->panels * shelf->panel[design->panel].price_minor;
    cost += (int64_t)design->series * design->parallel * shelf->cell[design->cell].price_minor;
    cost += shelf->charger[design->charger].price_minor + shelf->driver[design->driver].price_minor;
    if (design->board >= 0)
        cost += shelf->board[design->board].price_minor;
    cost += shelf->switch_price_minor;
    if (design->head > 0)
        cost += shelf->head[design->head - 1].price_minor;
    for (size_t i = 0; i < shelf->part_count; i++)
        cost += shelf->part[i].per_lamp * shelf->part[i].price_minor;
    return cost;
}

int lw_design_most_parallel(const lw_shelf *shelf, const lw_design *design)
{
    const int there = shelf->cell[design->cell].count / design->series;
    return there < shelf->most_parallel ? there : shelf->most_parallel;
}
