/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan computed anew from the brief and the seed that it carries.
 */
#include "plan_load.h"

#include "cli.h"

#include "lanewick/desk.h"
#include "lanewick/plan_code.h"

#include <stdlib.h>
#include <string.h>

static const size_t plan_limit = 4 * 1024 * 1024;

/* Another version of the program, or another kind of processor, may come to other parts. */
static void tell_another(const char *path, const char *bytes, size_t length, const lw_plan *plan)
{
    char told[16], now[16];
    lw_plan_code_told(bytes, length, told);
    lw_plan_code(plan, now);
    if (told[0] && strcmp(told, now) != 0)
        lw_cli_tell(
            "CAUTION: %s holds the plan %s; computed anew it is %s, of other parts. What is made now belongs to "
            "%s: do not mix the two on one lamp.\n",
            path, told, now, now);
}

bool lw_cli_load_plan(const char *path, lw_plan *plan, lw_error *err)
{
    char *bytes = NULL, *brief = NULL, folder[1024];
    size_t length = 0;
    uint64_t seed = 1;
    lw_cli_folder_of(path, folder, sizeof folder);
    bool done =
        lw_cli_read_file(path, plan_limit, &bytes, &length, err) && lw_plan_source(bytes, length, &brief, &seed, err);
    if (done) {
        char *with_cells; /* of a brief; a plan holds its cells */
        done = lw_desk_brief_crates(getenv("LANEWICK_STORE"), brief, strlen(brief), &with_cells, err);
        if (done && with_cells) {
            free(brief);
            brief = with_cells;
        }
        const lw_plan_request request = {.brief = brief, .brief_length = strlen(brief), .folder = folder, .seed = seed};
        done = done && lw_desk_plan(&request, plan, err);
        if (done)
            tell_another(path, bytes, length, plan);
    }
    free(brief);
    free(bytes);
    return done;
}
