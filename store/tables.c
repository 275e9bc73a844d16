/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which member of a record is which column: one line each, in the order of store/schema/.
 */
#include "inside.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* The one macro: the place and size of a member. */
#define AT(record, member) offsetof(record, member), sizeof(((record *)0)->member)

static const lw_column workshop[] = {
    {"id", LW_TEXT, AT(lw_workshop_record, id)},       {"name", LW_TEXT, AT(lw_workshop_record, name)},
    {"place", LW_TEXT, AT(lw_workshop_record, place)}, {"currency", LW_TEXT, AT(lw_workshop_record, currency)},
    {"note", LW_TEXT, AT(lw_workshop_record, note)},
};
static const lw_column instrument[] = {
    {"id", LW_TEXT, AT(lw_instrument_record, id)},
    {"name", LW_TEXT, AT(lw_instrument_record, name)},
    {"kind", LW_TEXT, AT(lw_instrument_record, kind)},
    {"percent", LW_REAL, AT(lw_instrument_record, percent)},
    {"digits", LW_REAL, AT(lw_instrument_record, digits)},
    {"step", LW_REAL, AT(lw_instrument_record, step)},
    {"ohm", LW_REAL, AT(lw_instrument_record, ohm)},
    {"tolerance_pct", LW_REAL, AT(lw_instrument_record, tolerance_pct)},
    {"note", LW_TEXT, AT(lw_instrument_record, note)},
};
static const lw_column crate[] = {
    {"id", LW_TEXT, AT(lw_crate_record, id)},
    {"code", LW_TEXT, AT(lw_crate_record, code)},
    {"name", LW_TEXT, AT(lw_crate_record, name)},
    {"origin", LW_TEXT, AT(lw_crate_record, origin)},
    {"received", LW_TEXT, AT(lw_crate_record, received)},
    {"note", LW_TEXT, AT(lw_crate_record, note)},
};
static const lw_column cell[] = {
    {"id", LW_TEXT, AT(lw_cell_record, id)},
    {"crate", LW_LINK, AT(lw_cell_record, crate)},
    {"code", LW_TEXT, AT(lw_cell_record, code)},
    {"marking", LW_TEXT, AT(lw_cell_record, marking)},
    {"voltage_class", LW_TEXT, AT(lw_cell_record, voltage_class)},
    {"shape", LW_TEXT, AT(lw_cell_record, shape)},
    {"origin", LW_TEXT, AT(lw_cell_record, origin)},
    {"look", LW_TEXT, AT(lw_cell_record, look)},
    {"found_v", LW_REAL, AT(lw_cell_record, found_v)},
    {"found_at", LW_TEXT, AT(lw_cell_record, found_at)},
    {"note", LW_TEXT, AT(lw_cell_record, note)},
    {"rated_ah", LW_REAL, AT(lw_cell_record, rated_ah)},
};
static const lw_column test[] = {
    {"id", LW_TEXT, AT(lw_test_record, id)},         {"cell", LW_LINK, AT(lw_test_record, cell)},
    {"method", LW_TEXT, AT(lw_test_record, method)}, {"at", LW_TEXT, AT(lw_test_record, at)},
    {"meter", LW_LINK, AT(lw_test_record, meter)},   {"resistor", LW_LINK, AT(lw_test_record, resistor)},
    {"temp_c", LW_REAL, AT(lw_test_record, temp_c)}, {"readings", LW_LONG, AT(lw_test_record, readings)},
    {"note", LW_TEXT, AT(lw_test_record, note)},
};
static const lw_column result[] = {
    {"id", LW_TEXT, AT(lw_result_record, id)},       {"test", LW_LINK, AT(lw_result_record, test)},
    {"cell", LW_LINK, AT(lw_result_record, cell)},   {"kind", LW_TEXT, AT(lw_result_record, kind)},
    {"value", LW_REAL, AT(lw_result_record, value)}, {"sd", LW_REAL, AT(lw_result_record, sd)},
    {"note", LW_TEXT, AT(lw_result_record, note)},
};
static const lw_column standing[] = {
    {"id", LW_TEXT, AT(lw_standing_record, id)},
    {"cell", LW_LINK, AT(lw_standing_record, cell)},
    {"verdict", LW_TEXT, AT(lw_standing_record, verdict)},
    {"capacity_ah", LW_REAL, AT(lw_standing_record, capacity_ah)},
    {"capacity_sd_ah", LW_REAL, AT(lw_standing_record, capacity_sd_ah)},
    {"resistance_ohm", LW_REAL, AT(lw_standing_record, resistance_ohm)},
    {"resistance_sd_ohm", LW_REAL, AT(lw_standing_record, resistance_sd_ohm)},
    {"self_discharge_pct", LW_REAL, AT(lw_standing_record, self_discharge_pct)},
    {"self_discharge_sd_pct", LW_REAL, AT(lw_standing_record, self_discharge_sd_pct)},
    {"reasons", LW_TEXT, AT(lw_standing_record, reasons)},
    {"next_test", LW_TEXT, AT(lw_standing_record, next_test)},
    {"at", LW_TEXT, AT(lw_standing_record, at)},
};
static const lw_column plan[] = {
    {"id", LW_TEXT, AT(lw_plan_record, id)},
    {"code", LW_TEXT, AT(lw_plan_record, code)},
    {"name", LW_TEXT, AT(lw_plan_record, name)},
    {"at", LW_TEXT, AT(lw_plan_record, at)},
    {"document", LW_LONG, AT(lw_plan_record, document)},
};
static const lw_column pack[] = {
    {"id", LW_TEXT, AT(lw_pack_record, id)},
    {"code", LW_TEXT, AT(lw_pack_record, code)},
    {"series", LW_WHOLE, AT(lw_pack_record, series)},
    {"voltage_class", LW_TEXT, AT(lw_pack_record, voltage_class)},
    {"weakest_ah", LW_REAL, AT(lw_pack_record, weakest_ah)},
    {"guaranteed_ah", LW_REAL, AT(lw_pack_record, guaranteed_ah)},
    {"state", LW_TEXT, AT(lw_pack_record, state)},
    {"plan", LW_LINK, AT(lw_pack_record, plan)},
    {"at", LW_TEXT, AT(lw_pack_record, at)},
    {"apart_at", LW_TEXT, AT(lw_pack_record, apart_at)},
    {"note", LW_TEXT, AT(lw_pack_record, note)},
};
static const lw_column slot[] = {
    {"id", LW_TEXT, AT(lw_slot_record, id)},        {"pack", LW_LINK, AT(lw_slot_record, pack)},
    {"cell", LW_LINK, AT(lw_slot_record, cell)},    {"place_group", LW_WHOLE, AT(lw_slot_record, group)},
    {"place", LW_WHOLE, AT(lw_slot_record, place)}, {"since", LW_TEXT, AT(lw_slot_record, since)},
    {"until", LW_TEXT, AT(lw_slot_record, until)},
};
static const lw_column lamp[] = {
    {"id", LW_TEXT, AT(lw_lamp_record, id)},           {"code", LW_TEXT, AT(lw_lamp_record, code)},
    {"name", LW_TEXT, AT(lw_lamp_record, name)},       {"lat_deg", LW_REAL, AT(lw_lamp_record, lat_deg)},
    {"lon_deg", LW_REAL, AT(lw_lamp_record, lon_deg)}, {"keeper", LW_TEXT, AT(lw_lamp_record, keeper)},
    {"plan", LW_LINK, AT(lw_lamp_record, plan)},       {"pack", LW_LINK, AT(lw_lamp_record, pack)},
    {"at", LW_TEXT, AT(lw_lamp_record, at)},           {"note", LW_TEXT, AT(lw_lamp_record, note)},
};
static const lw_column sighting[] = {
    {"id", LW_TEXT, AT(lw_sighting_record, id)},       {"lamp", LW_LINK, AT(lw_sighting_record, lamp)},
    {"at", LW_TEXT, AT(lw_sighting_record, at)},       {"kind", LW_TEXT, AT(lw_sighting_record, kind)},
    {"value", LW_REAL, AT(lw_sighting_record, value)}, {"note", LW_TEXT, AT(lw_sighting_record, note)},
};
static const lw_column label[] = {
    {"id", LW_TEXT, AT(lw_label_record, id)},     {"code", LW_TEXT, AT(lw_label_record, code)},
    {"kind", LW_TEXT, AT(lw_label_record, kind)}, {"thing", LW_TEXT, AT(lw_label_record, thing)},
    {"at", LW_TEXT, AT(lw_label_record, at)},
};
static const lw_column price[] = {
    {"id", LW_TEXT, AT(lw_price_record, id)},
    {"thing", LW_TEXT, AT(lw_price_record, thing)},
    {"minor", LW_MONEY, AT(lw_price_record, minor)},
    {"consumables", LW_MONEY, AT(lw_price_record, consumables_minor)},
    {"currency", LW_TEXT, AT(lw_price_record, currency)},
    {"decimals", LW_WHOLE, AT(lw_price_record, decimals)},
    {"at", LW_TEXT, AT(lw_price_record, at)},
    {"shop", LW_TEXT, AT(lw_price_record, shop)},
};
static const lw_column part[] = {
    {"id", LW_TEXT, AT(lw_part_record, id)},
    {"name", LW_TEXT, AT(lw_part_record, name)},
    {"tool", LW_WHOLE, AT(lw_part_record, tool)},
    {"at_hand", LW_WHOLE, AT(lw_part_record, at_hand)},
    {"sold_by", LW_WHOLE, AT(lw_part_record, sold_by)},
    {"loss_pm", LW_WHOLE, AT(lw_part_record, loss_pm)},
    {"spares_pm", LW_WHOLE, AT(lw_part_record, spares_pm)},
    {"bench_min", LW_WHOLE, AT(lw_part_record, bench_min)},
};
static const lw_column slip[] = {
    {"id", LW_TEXT, AT(lw_slip_record, id)},
    {"kind", LW_TEXT, AT(lw_slip_record, kind)},
    {"at", LW_TEXT, AT(lw_slip_record, at)},
    {"taken", LW_TEXT, AT(lw_slip_record, taken)},
    {"document", LW_LONG, AT(lw_slip_record, document)},
    {"answer", LW_LONG, AT(lw_slip_record, answer)},
};

static const lw_column run[] = {
    {"id", LW_TEXT, AT(lw_run_record, id)},
    {"cell", LW_LINK, AT(lw_run_record, cell)},
    {"at", LW_TEXT, AT(lw_run_record, at)},
    {"resistor", LW_LINK, AT(lw_run_record, resistor)},
    {"load_ohm", LW_REAL, AT(lw_run_record, load_ohm)},
    {"every_s", LW_REAL, AT(lw_run_record, every_s)},
    {"temp_c", LW_REAL, AT(lw_run_record, temp_c)},
    {"open_before_v", LW_REAL, AT(lw_run_record, open_before_v)},
    {"ended", LW_TEXT, AT(lw_run_record, ended)},
};
static const lw_column run_reading[] = {
    {"id", LW_TEXT, AT(lw_run_reading_record, id)},
    {"run", LW_LINK, AT(lw_run_reading_record, run)},
    {"at", LW_TEXT, AT(lw_run_reading_record, at)},
    {"volts", LW_REAL, AT(lw_run_reading_record, volts)},
};

#define COLUMNS(list) (int)(sizeof(list) / sizeof((list)[0])), list
const lw_table_layout lw_table_layouts[LW_TABLES] = {
    [LW_WORKSHOPS] = {"workshop", sizeof(lw_workshop_record), COLUMNS(workshop)},
    [LW_INSTRUMENTS] = {"instrument", sizeof(lw_instrument_record), COLUMNS(instrument)},
    [LW_CRATES] = {"crate", sizeof(lw_crate_record), COLUMNS(crate)},
    [LW_CELLS] = {"cell", sizeof(lw_cell_record), COLUMNS(cell)},
    [LW_TESTS] = {"test", sizeof(lw_test_record), COLUMNS(test)},
    [LW_RESULTS] = {"result", sizeof(lw_result_record), COLUMNS(result)},
    [LW_STANDINGS] = {"standing", sizeof(lw_standing_record), COLUMNS(standing)},
    [LW_PLANS] = {"plan", sizeof(lw_plan_record), COLUMNS(plan)},
    [LW_PACKS] = {"pack", sizeof(lw_pack_record), COLUMNS(pack)},
    [LW_SLOTS] = {"pack_slot", sizeof(lw_slot_record), COLUMNS(slot)},
    [LW_LAMPS] = {"lamp", sizeof(lw_lamp_record), COLUMNS(lamp)},
    [LW_SIGHTINGS] = {"sighting", sizeof(lw_sighting_record), COLUMNS(sighting)},
    [LW_LABELS] = {"label", sizeof(lw_label_record), COLUMNS(label)},
    [LW_PRICE_NOTES] = {"price", sizeof(lw_price_record), COLUMNS(price)},
    [LW_PARTS] = {"part", sizeof(lw_part_record), COLUMNS(part)},
    [LW_SLIPS] = {"slip", sizeof(lw_slip_record), COLUMNS(slip)},
    [LW_RUNS] = {"run", sizeof(lw_run_record), COLUMNS(run)},
    [LW_RUN_READINGS] = {"run_reading", sizeof(lw_run_reading_record), COLUMNS(run_reading)},
};

bool lw_store_own_columns(lw_store *store, const char *table, sqlite3_stmt **out, lw_error *err)
{
    if (!lw_store_prepare(store, "SELECT name FROM pragma_table_info(?) WHERE name NOT LIKE 'now~_%' ESCAPE '~'", out,
                          err))
        return false;
    (void)sqlite3_bind_text(*out, 1, table, -1, SQLITE_TRANSIENT);
    return true;
}

static void read_text(sqlite3_stmt *statement, int i, char *out, size_t size)
{
    const char *text = (const char *)sqlite3_column_text(statement, i);
    (void)snprintf(out, size, "%s", text ? text : "");
}

void lw_record_from_row(const lw_table_layout *layout, sqlite3_stmt *statement, int first, void *record)
{
    for (int i = 0; i < layout->count; i++) {
        const lw_column *c = &layout->columns[i];
        char *at = (char *)record + c->offset;
        double real = NAN;
        int whole;
        int64_t money;
        const char *text;
        switch (c->kind) {
        case LW_TEXT:
        case LW_LINK:
            read_text(statement, first + i, at, c->size);
            break;
        case LW_LONG:
            text = (const char *)sqlite3_column_text(statement, first + i);
            memcpy(at, &text, sizeof text);
            break;
        case LW_REAL:
            if (sqlite3_column_type(statement, first + i) != SQLITE_NULL)
                real = sqlite3_column_double(statement, first + i);
            memcpy(at, &real, sizeof real);
            break;
        case LW_WHOLE:
            whole = sqlite3_column_int(statement, first + i);
            memcpy(at, &whole, sizeof whole);
            break;
        case LW_MONEY:
            money = sqlite3_column_int64(statement, first + i);
            memcpy(at, &money, sizeof money);
            break;
        }
    }
}
