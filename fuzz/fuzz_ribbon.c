/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the question for a night ribbon, a brief and one lamp by the names of its parts.
 */
#include "lanewick/ribbon_json.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_ribbon_request request;
    lw_error err = {0};
    if (!lw_ribbon_request_from_json((const char *)data, size, &request, &err))
        return 0;
    const bool in_range =
        request.kind < request.brief.want.lamp_count && request.design.panel < (int)request.brief.shelf.panel_count;
    if (!in_range)
        __builtin_trap();
    return 0;
}
