/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The short code of a plan and of the things built from it: see lanewick/plan_code.h.
 */
#include "lanewick/plan_code.h"

#include "lanewick/hash.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>

void lw_plan_code(const lw_plan *plan, char out[16])
{
    /* letters and digits that are not mistaken for one another when read aloud or copied by hand */
    static const char signs[] = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ";
    uint64_t hash = lw_hash(lw_hash_begin, plan->brief.name, sizeof plan->brief.name);
    hash = lw_hash(hash, &plan->seed, sizeof plan->seed);
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_design *d = &plan->kind[i].design;
        const int parts[] = {d->panel,    d->panels,  d->cell,   d->series,
                             d->parallel, d->charger, d->driver, plan->kind[i].count};
        hash = lw_hash(hash, parts, sizeof parts);
    }
    /* which cells sit where is part of what is built: packs of other cells get other codes */
    for (size_t i = 0; i < plan->pack_count; i++) {
        const lw_plan_pack *pack = &plan->pack[i];
        const lw_design *d = &plan->kind[pack->kind].design;
        for (int c = 0; c < d->series * d->parallel; c++) {
            const char *id = plan->cell_id[pack->first + (size_t)c];
            hash = lw_hash(hash, id, strlen(id) + 1);
        }
    }
    char code[6];
    for (int i = 0; i < 6; i++, hash >>= 5)
        code[i] = signs[hash & 31];
    (void)snprintf(out, 16, "%.3s-%.3s", code, code + 3);
}

const char *lw_thing_code(char *out, size_t size, char letter, const char *plan_code, size_t kind_number, int n)
{
    (void)snprintf(out, size, "%c-%.15s-%zu%02d", letter, plan_code, kind_number, n);
    return out;
}
