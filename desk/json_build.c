/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Mast and wiring, from document to document. A mast that falls and a circuit that hurts are answers: their verdict
 * says so.
 */
#include "lanewick/desk_json.h"

#include "lanewick/circuit_json.h"
#include "lanewick/mast_json.h"

static bool give(char *text, char **json, lw_error *err)
{
    *json = text;
    return text || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}

bool lw_desk_mast(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_mast_wish wish;
    lw_mast_result *result = lw_arena_take(arena, 1, sizeof *result, err);
    return result && lw_mast_from_json(text, length, &wish, err) && lw_mast_check(&wish, result, err) &&
           give(lw_mast_to_json(&wish, result), json, err);
}

bool lw_desk_lamp_mast(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_mast_wish wish;
    lw_mast_request *ask = lw_arena_take(arena, 1, sizeof *ask, err);
    if (!ask || !lw_mast_request_from_json(text, length, ask, err))
        return false;
    lw_lamp_mast_wish(&ask->brief, &ask->lamp, &wish);
    return give(lw_mast_document(&wish, ask->brief.build.mast.soil), json, err);
}

bool lw_desk_circuit(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    enum { DRAWS = 400, SEED = 1 }; /* as lanewick circuit */
    lw_lamp_circuit lamp;
    lw_lamp_readings *readings = lw_arena_take(arena, 1, sizeof *readings, err);
    return readings && lw_lamp_circuit_from_json(text, length, &lamp, err) &&
           lw_lamp_read(&lamp, DRAWS, SEED, arena, readings, err) &&
           give(lw_lamp_readings_to_json(readings), json, err);
}
