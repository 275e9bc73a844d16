/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the question for the mast of one lamp; what comes of it is a mast document that is read again.
 */
#include "lanewick/mast_json.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_mast_request request;
    lw_mast_wish wish;
    lw_error err = {0};
    if (!lw_mast_request_from_json((const char *)data, size, &request, &err))
        return 0;
    lw_lamp_mast_wish(&request.brief, &request.lamp, &wish);
    char *text = lw_mast_document(&wish, request.brief.build.mast.soil);
    if (!text)
        return 0;
    err = (lw_error){0};
    if (!lw_mast_from_json(text, strlen(text), &wish, &err) && err.family == LW_BUG)
        __builtin_trap();
    free(text);
    return 0;
}
