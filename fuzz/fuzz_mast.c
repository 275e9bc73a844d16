/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the mast document, and the check of every mast that it accepts.
 */
#include "lanewick/mast_json.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_mast_result result;
    lw_error err = {0};
    lw_mast_wish wish;
    if (lw_mast_from_json((const char *)data, size, &wish, &err))
        (void)!lw_mast_check(&wish, &result, &err);
    return 0;
}
