/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reads and writes the list of printed files: see lanewick/sheets_written.h.
 */
#include "lanewick/sheets_written.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MARK = 16, LINE = MARK + 1 + LW_WRITTEN_NAME };
const char lw_written_name[] = "lanewick-sheets.txt";
static const char about[] = /* no words */
    "# Sheets that lanewick wrote into this folder. When it prints another plan here it removes these, unchanged ones "
    "only.\n";
static const char hex[] = "0123456789abcdef";

/* As sheets are called: letters, digits, "-", "_" and a dot that is not the first; never another folder. */
static bool plain_name(const char *name)
{
    const size_t length = strlen(name);
    return length > 0 && length < LW_WRITTEN_NAME && name[0] != '.' &&
           strspn(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.") == length &&
           strcmp(name, lw_written_name) != 0;
}

bool lw_written_has(const lw_written *list, const char *name)
{
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->file[i].name, name) == 0)
            return true;
    return false;
}

bool lw_written_add(lw_written *list, const char *name, uint64_t mark)
{
    if (list->count == LW_WRITTEN_MOST || !plain_name(name))
        return false;
    list->file[list->count].mark = mark;
    (void)snprintf(list->file[list->count++].name, LW_WRITTEN_NAME, "%s", name);
    return true;
}

/* 16 digits of the base 16. */
static bool read_mark(const char *text, uint64_t *out)
{
    *out = 0;
    for (int i = 0; i < MARK; i++) {
        const char *digit = text[i] ? strchr(hex, text[i]) : NULL;
        if (!digit)
            return false;
        *out = *out << 4 | (uint64_t)(digit - hex);
    }
    return true;
}

static bool read_line(const char *line, lw_written *out, bool *planned)
{
    uint64_t mark;
    if (line[0] == '#' || line[0] == '\0')
        return true;
    if (strncmp(line, "plan ", 5) == 0) {
        *planned = true;
        return read_mark(line + 5, &out->plan) && line[5 + MARK] == '\0';
    }
    return *planned && read_mark(line, &mark) && line[MARK] == ' ' && lw_written_add(out, line + MARK + 1, mark);
}

bool lw_written_read(const char *text, size_t length, lw_written *out)
{
    bool planned = false, well = true;
    out->plan = 0;
    out->count = 0;
    for (size_t at = 0; well && at < length;) {
        const char *end = memchr(text + at, '\n', length - at);
        const size_t size = end ? (size_t)(end - text) - at : length - at;
        char line[LINE + 1] = "";
        if (text[at] != '#') { /* what a comment says does not matter, however long it is */
            well = size < sizeof line && !memchr(text + at, '\0', size);
            (void)snprintf(line, sizeof line, "%.*s", well ? (int)size : 0, text + at);
        }
        well = well && read_line(line, out, &planned);
        at += size + 1;
    }
    if (!well || !planned)
        out->count = 0;
    return well && planned;
}

char *lw_written_text(const lw_written *list)
{
    const size_t size = sizeof about + 32 + list->count * (LINE + 1);
    char *text = malloc(size);
    if (!text)
        return NULL;
    size_t n = (size_t)snprintf(text, size, "%splan %016" PRIx64 "\n", about, list->plan);
    for (size_t i = 0; i < list->count; i++)
        n += (size_t)snprintf(text + n, size - n, "%016" PRIx64 " %s\n", list->file[i].mark, list->file[i].name);
    return text;
}
