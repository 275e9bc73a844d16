/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The text door of figures: one key=value as a person types it.
 */
#include "lanewick/figure.h"

#include <ctype.h>
#include <stdlib.h>
#include <string.h>

/* A whole number or decimal number, nothing after it. "3,5" gets its own word of help. */
static bool read_number(const char *name, const char *text, double *number, lw_error *err)
{
    char *end = NULL;
    const double value = strtod(text, &end);
    const bool looks_plain = text[0] && strspn(text, "+-.0123456789eE") == strlen(text);
    if (looks_plain && end && *end == '\0') {
        *number = value;
        return true;
    }
    if (strspn(text, "+-,0123456789") == strlen(text) && strchr(text, ','))
        return lw_fail(err, LW_WRONG_INPUT, name, "%s is \"%.40s\"; write the decimals with a point, as in 3.5.", name,
                       text);
    return lw_fail(err, LW_WRONG_INPUT, name, "%s is \"%.40s\"; it must be a number without its unit.", name, text);
}

static bool read_list(const char *name, const char *text, lw_value *value, lw_arena *arena, lw_error *err)
{
    size_t count = text[0] ? 1 : 0;
    for (const char *c = text; *c; c++)
        count += *c == ',';
    if (count > LW_FIGURE_MAX_LIST)
        return lw_fail(err, LW_WRONG_INPUT, name, "%s has %zu values; the most is %d.", name, count,
                       LW_FIGURE_MAX_LIST);
    double *list = lw_arena_take(arena, count ? count : 1, sizeof *list, err);
    if (!list)
        return false;
    const char *start = text;
    for (size_t i = 0; i < count; i++) {
        char item[48];
        const size_t length = strcspn(start, ",");
        if (length >= sizeof item)
            return lw_fail(err, LW_WRONG_INPUT, name, "Value %zu of %s is not a number.", i + 1, name);
        memcpy(item, start, length);
        item[length] = '\0';
        const char *first = item;
        while (isspace((unsigned char)*first))
            first++;
        if (!read_number(name, first, &list[i], err))
            return false;
        start += length + 1;
    }
    value->list = list;
    value->count = count;
    return true;
}

static bool read_flag(const char *name, const char *text, double *number, lw_error *err)
{
    const bool yes = strcmp(text, "yes") == 0 || strcmp(text, "true") == 0 || strcmp(text, "1") == 0;
    const bool no = strcmp(text, "no") == 0 || strcmp(text, "false") == 0 || strcmp(text, "0") == 0;
    if (!yes && !no)
        return lw_fail(err, LW_WRONG_INPUT, name, "%s is \"%.40s\"; it must be yes or no.", name, text);
    *number = yes ? 1.0 : 0.0;
    return true;
}

bool lw_figure_set_text(lw_figure_call *call, const char *key, const char *text, lw_arena *arena, lw_error *err)
{
    lw_value *value = lw_figure_input(call, key, err);
    if (!value)
        return false;
    if (value->given)
        return lw_fail(err, LW_WRONG_INPUT, key, "%s is given twice.", key);
    value->given = true;
    switch (value->kind) {
    case LW_NUMBER:
    case LW_INTEGER:
        return read_number(key, text, &value->number, err);
    case LW_FLAG:
        return read_flag(key, text, &value->number, err);
    case LW_NUMBERS:
        return read_list(key, text, value, arena, err);
    case LW_TEXT:
    case LW_CHOICE:
        value->text = lw_arena_text(arena, text, err);
        return value->text != NULL;
    }
    return lw_fail(err, LW_BUG, key, "%s has no known kind.", key);
}
