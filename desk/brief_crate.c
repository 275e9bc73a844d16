/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A brief that names crates, with their cells written into it. See lanewick/desk.h.
 */
#include "crate_gather.h"
#include "usable.h"

#include "lanewick/desk.h"
#include "lanewick/desk_crate.h"

#include <stdlib.h>
#include <string.h>

typedef struct shelf_keeper {
    const char *path;
    lw_store *store; /* opened when the first crate is asked for */
    lw_arena arena;
} shelf_keeper;

static bool open_store(shelf_keeper *keeper, const char *crate, lw_error *err)
{
    if (keeper->store)
        return true;
    if (!keeper->path || !keeper->path[0])
        return lw_fail(err, LW_WRONG_INPUT, "shelf.cells",
                       "The brief takes its cells from crate %.40s of the workshop's store; say which store with "
                       "--store FILE or $LANEWICK_STORE.",
                       crate);
    if (!lw_store_open(&(lw_store_options){.path = keeper->path}, &keeper->store, err))
        return false;
    const size_t size = LW_SHELF_KINDS * lw_gather_memory(keeper->store);
    keeper->arena = lw_arena_over(malloc(size), size);
    return keeper->arena.base || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the cells of a crate.");
}

static bool give(void *payload, const char *code, const char *voltage_class, lw_crate_stock *out, lw_error *err)
{
    shelf_keeper *keeper = payload;
    lw_crate_record crate;
    lw_gathered all;
    const lw_gather_ask ask = {.crate = code, .voltage_class = voltage_class, .tired = true, .count_left = true};
    if (!open_store(keeper, code, err) || !lw_desk_crate(keeper->store, code, &crate, err) ||
        !lw_gather_cells(keeper->store, &ask, &keeper->arena, &all, err))
        return false;
    if (all.n == 0)
        return lw_fail(err, LW_REFUSED, "shelf.cells",
                       "Crate %.40s has no free cell of class %.10s that a pack may hold: %d scrap, %d unsure or not "
                       "tested, %d of another class, %d in packs. `lanewick crate judge %.40s` says what is missing.",
                       code, voltage_class, all.left[LW_LEFT_SCRAP], all.left[LW_LEFT_UNSURE],
                       all.left[LW_LEFT_OTHER_CLASS], all.left[LW_LEFT_PACKED], code);
    qsort(all.cells, all.n, sizeof all.cells[0], lw_stronger_first);
    const size_t n = all.n < LW_SHELF_CELLS ? all.n : LW_SHELF_CELLS;
    *out = (lw_crate_stock){.cells = all.cells, .n = n, .health = all.health};
    memcpy(out->left, all.left, sizeof out->left);
    out->left[LW_LEFT_WEAKEST] = (int)(all.n - n);
    return true;
}

bool lw_desk_brief_crates(const char *store, const char *brief, size_t length, char **out, lw_error *err)
{
    shelf_keeper keeper = {.path = store};
    const bool done = lw_brief_fill_crates(brief, length, give, &keeper, out, err);
    lw_store_close(keeper.store);
    free(keeper.arena.base);
    return done;
}
