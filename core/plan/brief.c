/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small questions about a brief: see lanewick/brief.h.
 */
#include "lanewick/brief.h"

#include <stdarg.h>
#include <stdio.h>

const char lw_lamp_unnamed[] = "lamp";

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

void lw_shelf_common_label(lw_shelf_panel *panel)
{
    panel->voc_v = 21.6 / 36.0 * panel->cells;
    panel->vmp_v = 17.6 / 36.0 * panel->cells;
    panel->imp_a = panel->watts / panel->vmp_v;
    panel->isc_a = panel->imp_a * 1.24 / 1.14;
    panel->label_assumed = true;
}

const lw_common_charger *lw_shelf_common_charger(lw_shelf_charging kind)
{
    static const lw_common_charger kinds[] = {
        [LW_SHELF_DIRECT] = {0.40, 0.0005, 1.0, "blocking diode and a simple end-of-charge switch"},
        [LW_SHELF_LINEAR] = {0.30, 0.0005, 1.0, "small linear cell charger"},
        [LW_SHELF_TRACKING] = {0.50, 0.0100, 0.92, "small tracking charger"},
    };
    return &kinds[kind];
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
