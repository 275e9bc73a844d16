/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells into packs, from document to document.
 */
#include "lanewick/desk_json.h"

#include "lanewick/match_json.h"
#include "lanewick/match_request_json.h"

bool lw_desk_pack(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_match_request *request = lw_arena_take(arena, 1, sizeof *request, err);
    if (!request || !lw_match_request_from_json(text, length, arena, request, err))
        return false;
    lw_match match;
    lw_count count;
    if (request->need_ah > 0.0) {
        if (!lw_count_packs(&request->ask, request->need_ah, arena, &count, err))
            return false;
        *json = lw_count_to_json(&request->list, &request->ask, request->need_ah, &count);
    } else {
        if (!lw_match_cells(&request->ask, arena, &match, err))
            return false;
        *json = lw_match_to_json(&request->list, &request->ask, &match);
    }
    return *json || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}
