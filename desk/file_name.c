/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Names of files that the desk writes.
 */
#include "file_name.h"

#include <ctype.h>

void lw_file_name_part(char *out, size_t size, const char *name)
{
    size_t n = 0;
    for (; *name && n + 1 < size && n < 24; name++)
        out[n++] = isalnum((unsigned char)*name) ? *name : '-';
    out[n] = '\0';
}
