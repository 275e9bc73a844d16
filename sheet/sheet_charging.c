/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The charging unit: the voltages and temperatures that it must keep, and how to prove it before it meets a pack.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

static void limits(lw_sheet *sheet, const lw_charge_card *card)
{
    static const lw_sheet_table table = {
        .columns = 4, .width_mm = {84, 30, 28, 32}, .right = {false, true, true, true}};
    const char *head[] = {SAY("what"), SAY("one group"), SAY("pack"), SAY("measured")};
    const struct {
        const char *name;
        double cell_v;
    } rows[] = {
        {SAY("charging ends at"), card->cell.full_v},
        {SAY("with its tolerance never above"), card->cell.full_worst_v},
        {SAY("starts again below"), card->cell.recharge_v},
        {SAY("only a tenth of the current below"), card->cell.precharge_v},
        {SAY("the lamp goes off below, under load"), card->cell.empty_v},
        {SAY("and comes back above"), card->cell.empty_back_v},
        {SAY("scrap the group if it was found below"), card->cell.floor_v},
    };
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char group[24], pack[24];
        (void)snprintf(group, sizeof group, "%.2f V", rows[i].cell_v);
        (void)snprintf(pack, sizeof pack, "%.2f V", card->series * rows[i].cell_v);
        const char *cells[] = {rows[i].name, group, pack, "______ V"};
        lw_sheet_row(sheet, &table, false, cells);
    }
}

static void temperatures(lw_sheet *sheet, const lw_charge_card *card)
{
    char text[200];
    lw_sheet_heading(sheet, SAY("Temperature of the cells"));
    lw_sheet_value(sheet, SAY("Charging is allowed"), SAY("from 0 to 45 degrees"));
    if (isnan(card->cold_stop_c) || isnan(card->hot_stop_c))
        lw_sheet_caution(sheet, SAY("This charger does not feel the cold or the heat itself. The plan allows it only "
                                    "because the box of this place stays inside these limits; add a thermistor if the "
                                    "lamp is moved."));
    else
        lw_sheet_value(
            sheet, SAY("This charger stops below and above"),
            lw_sheet_format(text, sizeof text, SAY("%.0f and %.0f degrees"), card->cold_stop_c, card->hot_stop_c));
    lw_sheet_value(sheet, SAY("Thermistor 10 kΩ (B 3950) at 0, 25, 45 degrees"),
                   lw_sheet_format(text, sizeof text, "%.1f, %.1f, %.2f kΩ", card->ice_ohm / 1e3, card->room_ohm / 1e3,
                                   card->hot_ohm / 1e3));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_charge_card *card = &input->build->charge;
    const lw_shelf_charger *charger = &input->plan->brief.shelf.charger[input->kind->design.charger];
    char text[200];
    int n = 0;
    lw_sheet_value(sheet, SAY("Charger"), charger->name);
    if (input->build->has_wiring)
        lw_sheet_value(sheet, SAY("Greatest current into the pack"),
                       lw_sheet_format(text, sizeof text, "%.2f A", input->build->wiring.charge_a));
    if (!isnan(charger->most_input_v))
        lw_sheet_value(sheet, SAY("The panel's open volts must stay below"),
                       lw_sheet_format(text, sizeof text, "%g V", charger->most_input_v));
    lw_sheet_gap(sheet, 3.0);
    limits(sheet, card);
    temperatures(sheet, card);
    lw_sheet_heading(sheet, SAY("Prove the charger before it meets the pack"));
    lw_sheet_step(sheet, ++n,
                  SAY("Feed it from the panel in the sun, no pack joined: its output stays at the volts where "
                      "charging ends."));
    lw_sheet_step(sheet, ++n,
                  SAY("Put its thermistor into melting ice: the current into a test pack falls to nothing."));
    lw_sheet_step(sheet, ++n, SAY("Charge the pack once, watched, and write the highest volts of every group."));
    lw_sheet_caution(sheet, SAY("Above these volts a lithium cell can burn. A charger that passes them once is scrap, "
                                "whatever it reads the next time."));
    lw_sheet_step(sheet, ++n, SAY("At night nothing flows back into the panel: less than 1 mA."));
}

const lw_sheet_kind lw_sheet_charging = {
    .name = "charging",
    .group = "bench",
    .title = "Charging unit",
    .each_kind = true,
    .draw = draw,
};
