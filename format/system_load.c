/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The load of a system document.
 */
#include "brief_read.h"
#include "system_read.h"

static void read_driver(lw_doc *load, lw_driver *out)
{
    lw_doc doc = lw_doc_part(load, "driver", false);
    out->kind = (lw_driver_kind)lw_doc_choice(&doc, "kind", "constant_power|buck|boost|constant_current|resistor",
                                              (int)out->kind, NULL);
    if (out->kind != LW_DRIVER_CONSTANT_CURRENT && out->kind != LW_DRIVER_RESISTOR)
        lw_system_number(&doc, "efficiency", 0.2, 1.0, "", &out->efficiency);
    if (out->kind != LW_DRIVER_CONSTANT_POWER) {
        out->head_v = lw_doc_number(&doc, "head_v", 1.0, 60.0, "V");
        lw_system_number(&doc, "dropout_v", 0.0, 10.0, "V", &out->dropout_v);
    }
    if (out->kind == LW_DRIVER_RESISTOR)
        out->reference_v = lw_doc_number(&doc, "reference_v", 1.0, 120.0, "V");
    (void)lw_doc_done(&doc);
}

static void read_schedule(lw_doc *load, lw_load *out)
{
    const json_t *list = lw_doc_list(load, "schedule", 0, LW_MAX_SPANS);
    if (list && json_array_size(list) == 0)
        lw_doc_fail(load, "schedule", "is empty; leave it out for full light from dusk to dawn.");
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc span = lw_doc_element(load, "schedule", list, i);
        lw_span *to = &out->spans[out->span_count++];
        to->from = lw_brief_read_moment(&span, "from");
        to->until = lw_brief_read_moment(&span, "to");
        to->level = lw_doc_number(&span, "level", 0.0, 1.0, "of full light");
        (void)lw_doc_done(&span);
    }
}

static void read_dimming(lw_doc *load, lw_load *out)
{
    const json_t *list = lw_doc_list(load, "dimming", 0, LW_MAX_DIMS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc dim = lw_doc_element(load, "dimming", list, i);
        lw_dim *to = &out->dims[out->dim_count++];
        to->below_share = lw_doc_number(&dim, "below_share", 0.0, 1.0, "");
        to->factor = lw_doc_number(&dim, "factor", 0.0, 1.0, "");
        (void)lw_doc_done(&dim);
    }
    out->dimmed_counts_missing = lw_doc_flag_or(load, "dimmed_counts_missing", false, NULL);
}

static double clock_h(lw_doc *doc, const char *key)
{
    const lw_moment moment = lw_brief_read_moment(doc, key);
    if (moment.kind != LW_AT_CLOCK)
        lw_doc_fail(doc, key, "must be a time of the clock, such as \"18:30\".");
    return moment.value;
}

static void read_others(lw_doc *load, lw_load *out)
{
    const json_t *list = lw_doc_list(load, "others", 0, LW_MAX_OTHER);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc other = lw_doc_element(load, "others", list, i);
        lw_other_load *to = &out->others[out->other_count++];
        lw_doc_text(&other, "name", "other load", to->name, sizeof to->name);
        to->power_w = lw_doc_number(&other, "power_w", 0.0, 10000.0, "W");
        to->always = lw_doc_flag_or(&other, "always", false, NULL);
        if (!to->always) {
            to->from_h = clock_h(&other, "from");
            to->until_h = clock_h(&other, "to");
        }
        (void)lw_doc_done(&other);
    }
}

static void read_dusk(lw_doc *load, lw_load *out)
{
    lw_doc doc = lw_doc_part(load, "dusk", false);
    lw_system_number(&doc, "altitude_deg", -18.0, 10.0, "degree", &out->dusk_altitude_deg);
    out->dusk_midpoints = lw_doc_integer_or(&doc, "midpoints", 0, 3600, (lw_doc_or){0.0, "", NULL});
    lw_system_number(&doc, "offset_min", -180.0, 180.0, "min", &out->dusk_offset_min);
    lw_system_number(&doc, "scatter_min", 0.0, 120.0, "min", &out->dusk_scatter_min);
    (void)lw_doc_done(&doc);
}

void lw_system_read_load(lw_doc *system, lw_load *out)
{
    lw_doc doc = lw_doc_part(system, "load", true);
    out->head_w = lw_doc_number(&doc, "head_w", 0.0, 10000.0, "W");
    read_driver(&doc, &out->driver);
    read_schedule(&doc, out);
    read_dimming(&doc, out);
    lw_system_number(&doc, "standby_w", 0.0, 1000.0, "W", &out->standby_w);
    lw_system_number(&doc, "standby_a", 0.0, 100.0, "A", &out->standby_a);
    read_others(&doc, out);
    read_dusk(&doc, out);
    (void)lw_doc_done(&doc);
}
