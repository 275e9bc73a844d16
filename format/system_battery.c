/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The battery of a system document: a bucket, a pack of equal cells, or groups one by one.
 */
#include "system_read.h"

static void read_groups(lw_doc *doc, lw_battery *out)
{
    const json_t *list = lw_doc_list(doc, "groups", 1, LW_MAX_SERIES);
    out->series = (int)json_array_size(list);
    for (int g = 0; g < out->series; g++) {
        lw_doc group = lw_doc_element(doc, "groups", list, (size_t)g);
        lw_group *to = &out->groups[g];
        *to = (lw_group){0};
        to->capacity_ah = lw_doc_number(&group, "capacity_ah", 0.01, 10000.0, "Ah");
        lw_system_number(&group, "r0_ohm", 0.0, 10.0, "ohm", &to->r0_ohm);
        lw_system_number(&group, "r1_ohm", 0.0, 10.0, "ohm", &to->r1_ohm);
        lw_system_number(&group, "missing_ah", 0.0, 10000.0, "Ah", &to->missing_ah);
        (void)lw_doc_done(&group);
    }
}

/* series x parallel of one cell; its resistance whole (cell_ohm, 10 s) or in its two parts. */
static void read_equal(lw_doc *doc, const lw_cell_class *class, lw_battery *out)
{
    const int series = (int)lw_doc_number(doc, "series", 1.0, LW_MAX_SERIES, "");
    const int parallel = lw_doc_integer_or(doc, "parallel", 1, 200, (lw_doc_or){1.0, "", NULL});
    const double capacity_ah = lw_doc_number(doc, "cell_capacity_ah", 0.05, 500.0, "Ah");
    const bool parts = lw_doc_has(doc, "cell_r0_ohm") || lw_doc_has(doc, "cell_r1_ohm");
    double whole_ohm = 0.08, r0_ohm = 0.0, r1_ohm = 0.0;
    if (parts) {
        lw_system_number(doc, "cell_r0_ohm", 0.0, 5.0, "ohm", &r0_ohm);
        lw_system_number(doc, "cell_r1_ohm", 0.0, 5.0, "ohm", &r1_ohm);
    } else {
        lw_system_number(doc, "cell_ohm", 0.0, 5.0, "ohm", &whole_ohm);
    }
    lw_error err = {0};
    if (!doc->root->failed && !lw_battery_pack(class, series, parallel, capacity_ah, whole_ohm, out, &err))
        lw_doc_fail(doc, err.field, "cannot be right. %s", err.message);
    for (int g = 0; parts && g < out->series; g++) {
        out->groups[g].r0_ohm = r0_ohm / parallel;
        out->groups[g].r1_ohm = r1_ohm / parallel;
    }
}

static void read_cells(lw_doc *doc, lw_battery *out)
{
    static const char *const names[] = {"4v2", "4v35", "lfp"};
    const lw_cell_class *class = lw_cell_class_find(names[lw_doc_choice(doc, "class", "4v2|4v35|lfp", 0, NULL)]);
    lw_error err = {0};
    if (!lw_battery_pack(class, 1, 1, 1.0, 0.0, out, &err))
        lw_doc_fail(doc, "class", "%s", err.message);
    if (lw_doc_has(doc, "groups"))
        read_groups(doc, out);
    else
        read_equal(doc, class, out);
    if (lw_doc_has(doc, "ocv"))
        out->ocv.n = lw_system_pairs(doc, "ocv", LW_OCV_POINTS, out->ocv.charge, out->ocv.v);
    lw_system_number(doc, "rc_seconds", 0.0, 36000.0, "s", &out->rc_seconds);
    lw_system_number(doc, "charge_efficiency_ah", 0.5, 1.0, "", &out->charge_efficiency_ah);
    lw_system_number(doc, "cutoff_v", 0.0, 5.0, "V a cell", &out->cutoff_v);
    lw_system_number(doc, "others_cutoff_v", 0.0, 5.0, "V a cell", &out->others_cutoff_v);
    lw_system_number(doc, "ceiling_v", 0.0, 4.35, "V a cell", &out->ceiling_v);
    lw_system_number(doc, "resistance_factor", 0.0, 20.0, "", &out->resistance_factor);
    out->temperature_effects = lw_doc_flag_or(doc, "temperature_effects", true, NULL);
    out->counts_charge = lw_doc_choice(doc, "light_counted_in", "energy|charge", out->counts_charge, NULL) == 1;
    out->load_at_open_v =
        lw_doc_choice(doc, "load_sees", "terminal_voltage|open_voltage", out->load_at_open_v, NULL) == 1;
}

void lw_system_read_battery(lw_doc *system, lw_battery *out)
{
    lw_doc doc = lw_doc_part(system, "battery", true);
    const bool bucket = lw_doc_choice(&doc, "kind", "bucket|cells", -1, NULL) == 0;
    if (bucket) {
        *out = lw_battery_bucket(lw_doc_number(&doc, "capacity_wh", 0.001, 1e6, "Wh"));
        lw_system_number(&doc, "charge_efficiency", 0.1, 1.0, "", &out->charge_efficiency);
        lw_system_number(&doc, "discharge_efficiency", 0.1, 1.0, "", &out->discharge_efficiency);
    } else {
        read_cells(&doc, out);
    }
    lw_system_number(&doc, "self_discharge_month", 0.0, 0.9, "", &out->self_discharge_month);
    lw_system_number(&doc, "capacity_factor", 0.01, 2.0, "", &out->capacity_factor);
    lw_system_number(&doc, "start_share", 0.0, 1.0, "", &out->start_share);
    lw_system_number(&doc, "charge_low_c", -60.0, 60.0, "degC", &out->charge_low_c);
    lw_system_number(&doc, "charge_high_c", -60.0, 120.0, "degC", &out->charge_high_c);
    (void)lw_doc_done(&doc);
}
