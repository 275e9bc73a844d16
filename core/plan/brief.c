/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small questions about a brief: see lanewick/brief.h.
 */
#include "lanewick/brief.h"

#include <stdarg.h>
#include <stdio.h>

void lw_assume(lw_assumptions *list, const char *key, const char *why, const char *format, ...)
{
    if (list->count >= LW_ASSUMPTIONS)
        return;
    lw_assumption *item = &list->item[list->count++];
    (void)snprintf(item->key, sizeof item->key, "%s", key);
    (void)snprintf(item->why, sizeof item->why, "%s", why);
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(item->value, sizeof item->value, format, arguments);
    va_end(arguments);
}

const char *lw_shelf_class_text(lw_shelf_class voltage_class)
{
    static const char *const text[] = {"4v2", "4v35", "lfp", "unknown"};
    return text[voltage_class];
}

const char *lw_shelf_charging_text(lw_shelf_charging kind)
{
    static const char *const text[] = {"direct", "linear", "tracking"};
    return text[kind];
}

int lw_brief_lamps(const lw_brief *brief)
{
    int all = 0;
    for (size_t i = 0; i < brief->want.lamp_count; i++)
        all += brief->want.lamp[i].count;
    return all;
}
