/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the list of printed files. No name leads out of its folder, and what is read is written and read alike.
 */
#include "lanewick/sheets_written.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_written list, again;
    if (!lw_written_read((const char *)data, size, &list)) {
        if (list.count > 0)
            abort();
        return 0;
    }
    for (size_t i = 0; i < list.count; i++)
        if (strchr(list.file[i].name, '/') || list.file[i].name[0] == '.' || !list.file[i].name[0])
            abort();
    char *text = lw_written_text(&list);
    if (!text || !lw_written_read(text, strlen(text), &again) || again.count != list.count || again.plan != list.plan)
        abort();
    free(text);
    return 0;
}
