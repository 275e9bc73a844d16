/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reader of briefs: any bytes give a brief in range or an error with a message.
 */
#include "lanewick/brief.h"

#include <stdlib.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    static lw_brief brief;
    lw_error err = {0};
    const bool done = lw_brief_from_json((const char *)data, size, &brief, &err);
    if (done != (err.family == LW_OK) || (!done && err.message[0] == '\0'))
        abort();
    if (done && (brief.want.lamp_count == 0 || brief.shelf.panel_count == 0 || lw_brief_lamps(&brief) < 1))
        abort();
    return 0;
}
