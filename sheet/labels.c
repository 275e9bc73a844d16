/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Label grids: see lanewick/labels.h. Sizes as printed on the wrappers of many makers (common practice).
 */
#include "lanewick/labels.h"

#include <string.h>

const lw_label_grid lw_label_grids[] = {
    {"3x8", 3, 8, 70.0, 37.0, 0.0, 0.0, 70.0, 37.0, true, true},
    {"4x10", 4, 10, 52.5, 29.7, 0.0, 0.0, 52.5, 29.7, true, true},
    {"2x7", 2, 7, 99.1, 38.1, 4.65, 15.15, 101.6, 38.1, false, false},
    {"3x7", 3, 7, 63.5, 38.1, 7.25, 15.15, 66.0, 38.1, false, false},
};

const size_t lw_label_grid_count = sizeof lw_label_grids / sizeof lw_label_grids[0];

const lw_label_grid *lw_label_grid_find(const char *name)
{
    for (size_t i = 0; i < lw_label_grid_count; i++)
        if (strcmp(lw_label_grids[i].name, name) == 0)
            return &lw_label_grids[i];
    return NULL;
}

size_t lw_label_places(const lw_label_grid *grid)
{
    return (size_t)grid->across * (size_t)grid->down - (grid->tells_itself ? 1 : 0);
}

static size_t pages(const lw_label_grid *grid, size_t labels)
{
    return (labels + lw_label_places(grid) - 1) / lw_label_places(grid);
}

/* A page of a document of several that is nearly empty. */
static bool ends_empty(const lw_label_grid *grid, size_t labels)
{
    const size_t last = labels % lw_label_places(grid);
    return labels > lw_label_places(grid) && last > 0 && 4 * last < lw_label_places(grid);
}

const lw_label_grid *lw_label_grid_for(size_t labels)
{
    const lw_label_grid *usual = &lw_label_grids[0], *dense = &lw_label_grids[1];
    const bool better =
        ends_empty(usual, labels) && !ends_empty(dense, labels) && pages(dense, labels) < pages(usual, labels);
    return better ? dense : usual;
}
