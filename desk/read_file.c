/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A named file as bytes: see read_file.h.
 */
#include "read_file.h"

#include <stdio.h>
#include <stdlib.h>

void lw_file_beside(const char *folder, const char *name, char *path, size_t size)
{
    const bool whole = name[0] == '/' || !folder;
    (void)snprintf(path, size, "%s%s%s", whole ? "" : folder, whole ? "" : "/", name);
}

bool lw_read_file(const lw_file_ask *ask, char **bytes, size_t *length, lw_error *err)
{
    FILE *file = fopen(ask->path, "rb");
    if (!file)
        return lw_fail(err, LW_WRONG_INPUT, ask->field, "%s: %.200s could not be opened.%s", ask->field, ask->path,
                       ask->advice);
    *bytes = malloc(ask->most + 1);
    *length = *bytes ? fread(*bytes, 1, ask->most + 1, file) : 0;
    const bool well = *bytes && ferror(file) == 0;
    (void)fclose(file);
    return well || lw_fail(err, LW_STORAGE, ask->field, "%s: %.200s could not be read.", ask->field, ask->path);
}
