/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The dusk switch made by hand: circuit, parts with their values, at how many lux it switches and how much that
 * spreads.
 */
#include "sheet_list.h"

#include "lanewick/panel_switch.h"

#include <math.h>
#include <stdio.h>

/* 15k, 2.2k, 470 */
static const char *ohm_text(char *out, size_t size, double ohm)
{
    if (ohm >= 1e6)
        return lw_sheet_format(out, size, "%.3g MΩ", ohm / 1e6);
    return ohm >= 1e3 ? lw_sheet_format(out, size, "%.3g kΩ", ohm / 1e3) : lw_sheet_format(out, size, "%.3g Ω", ohm);
}

static const char *lux_text(char *out, size_t size, const lw_dusk_spread *spread)
{
    const char *form = spread->p95 < 20.0 ? "%.1f lx (%.1f–%.1f)" : "%.0f lx (%.0f–%.0f)";
    return lw_sheet_format(out, size, form, spread->nominal, spread->p05, spread->p95);
}

/* What the parts table is made of. */
typedef struct part_row {
    const char *name, *part;
    char value[80];
} part_row;
enum { PART_ROWS = 16 };
typedef struct part_list {
    part_row row[PART_ROWS];
    size_t count;
} part_list;

static part_row *add(part_list *list, const char *name, const char *part)
{
    part_row *row = &list->row[list->count++];
    *row = (part_row){name, part, ""};
    return row;
}

static void add_ohm(part_list *list, const char *name, const char *part, double ohm)
{
    part_row *row = add(list, name, part);
    (void)ohm_text(row->value, sizeof row->value, ohm);
}

static void add_sensor(lw_sheet *sheet, part_list *list, const lw_switch_parts *at_hand, const lw_switch_values *v,
                       char ldr[160])
{
    char low[24], high[24];
    if (v->sensor == LW_SENSE_PANEL) {
        add_ohm(list, "Rb", SAY("resistor across the panel, before its diode"), v->resistor_ohm);
        add_ohm(list, "Rs", SAY("resistor from the panel to the comparator"), lw_panel_input_ohm);
        (void)add(list, "D1", SAY("small silicon diode, its ring to plus"));
        return;
    }
    (void)lw_sheet_format(ldr, 160, SAY("photoresistor, %s to %s at 10 lux, behind clear plastic, looking up"),
                          ohm_text(low, sizeof low, at_hand->r10_low_ohm),
                          ohm_text(high, sizeof high, at_hand->r10_high_ohm));
    add_ohm(list, "LDR", ldr, sqrt(at_hand->r10_low_ohm * at_hand->r10_high_ohm));
    add_ohm(list, "Rb", SAY("resistor below the photoresistor"), v->resistor_ohm);
}

static void add_decider(lw_sheet *sheet, part_list *list, const lw_switch_values *v)
{
    if (v->sensor == LW_SENSE_TRANSISTORS) {
        add_ohm(list, "R1", SAY("resistor to the collector of Q1"), v->r1_ohm);
        add_ohm(list, "R2", SAY("resistor below both emitters"), v->r2_ohm);
        add_ohm(list, "R3", SAY("resistor from Q2 to Q3"), v->r3_ohm);
        add_ohm(list, "Re", SAY("resistor from the base of Q3 to plus"), 470e3);
        (void)add(list, "Q1, Q2", SAY("small NPN transistors of one type"));
        (void)add(list, "Q3", SAY("small PNP transistor"));
        return;
    }
    add_ohm(list, "R1", SAY("resistor of the reference, to plus"), v->r1_ohm);
    add_ohm(list, "R2", SAY("resistor of the reference, to minus"), v->r2_ohm);
    add_ohm(list, "R3", SAY("resistor that keeps on and off apart"), v->r3_ohm);
    (void)add(list, "U1", SAY("comparator that works from an empty pack and takes less than 1 mA"));
    add_ohm(list, "Rp", SAY("resistor, only for a comparator with open output"), 10e3);
}

static void parts(lw_sheet *sheet, const lw_switch_parts *at_hand, const lw_dusk_board *dusk)
{
    static const lw_sheet_table table = {.columns = 3, .width_mm = {20, 118, 36}};
    const lw_switch_values *v = &dusk->values;
    const char *head[] = {"", SAY("part"), SAY("value")};
    const double pct = 100.0 * at_hand->resistors.tolerance;
    char ldr[160], delay[160], several[120];
    part_list list = {.count = 0};
    add_sensor(sheet, &list, at_hand, v, ldr);
    add_decider(sheet, &list, v);
    (void)lw_sheet_format(delay, sizeof delay,
                          SAY("capacitor from A (its plus) to minus: headlights must last %.0f s to turn the lamp off"),
                          v->delay_s);
    (void)lw_sheet_format(add(&list, "C1", delay)->value, sizeof list.row[0].value, "%g µF", v->delay_uf);
    (void)add(&list, v->sensor == LW_SENSE_TRANSISTORS ? "Q4" : "Q1",
              SAY("N-channel transistor that is fully on at the empty pack's volts"));
    add_ohm(&list, "Rg", SAY("resistor before the transistor's gate"), v->timer_h > 0.0 ? 22e3 : 100.0);
    add_ohm(&list, "Rd", SAY("resistor that keeps the lamp off when the switch is dead"), 470e3);
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < list.count; i++) {
        const char *const row[] = {list.row[i].name, list.row[i].part, list.row[i].value};
        lw_sheet_row(sheet, &table, false, row);
    }
    lw_sheet_text(sheet, lw_sheet_format(several, sizeof several, SAY("Resistors within %.3g %%."), pct));
}

/* What timer and lower level do with those parts. */
static void timed_values(lw_sheet *sheet, const lw_switch_values *v)
{
    char text[160];
    lw_sheet_gap(sheet, 2.0);
    lw_sheet_value(
        sheet, SAY("Full light lasts (worst case)"),
        lw_sheet_format(text, sizeof text, "%.2g h (%.2g–%.2g)", v->timer_h, v->timer_low_h, v->timer_high_h));
    if (v->dim_hz > 0.0)
        lw_sheet_value(sheet, SAY("Then the lower level (worst case)"),
                       lw_sheet_format(text, sizeof text, "%.0f %% (%.0f–%.0f), %.0f Hz", 100.0 * v->level,
                                       100.0 * v->level_low, 100.0 * v->level_high, v->dim_hz));
}

/* Timer and lower level on their own board. */
static void timed(lw_sheet *sheet, const lw_switch_values *v, int *n)
{
    static const lw_sheet_table table = {.columns = 3, .width_mm = {24, 104, 46}};
    static lw_strip_timer board;
    const char *head[] = {"", SAY("part"), SAY("value")};
    char chip[160], ohm[24], other[24], timer[48], level[64];
    (void)lw_sheet_format(chip, sizeof chip, SAY("counter chip with oscillator; its output %d ends the full light"),
                          v->timer_stages);
    (void)lw_sheet_format(timer, sizeof timer, "%s, %g µF", ohm_text(ohm, sizeof ohm, v->timer_ohm), v->timer_uf);
    (void)lw_sheet_format(level, sizeof level, "%s, %s, %g nF", ohm_text(ohm, sizeof ohm, v->dim_on_ohm),
                          ohm_text(other, sizeof other, v->dim_off_ohm), v->dim_nf);
    const char *const rows[][3] = {
        {"U2", chip, ""},
        {"Rt, Ct", SAY("resistor and film capacitor that set its time"), timer},
        {"Rs, Rm, Rq5", SAY("resistors of the counter"), "10, 1, 1 MΩ"},
        {"D4, Q5, Q6", SAY("small silicon diode, two small NPN transistors"), ""},
        {"Rq6", SAY("resistor before the base of Q6"), "100 kΩ"},
        {"U3", SAY("CMOS timer chip that gives the lower level"), ""},
        {"Rh, Rl, Cl", SAY("resistors for its light and its dark part, its capacitor"), level},
        {"D5, D6", SAY("small silicon diodes"), ""},
    };
    const size_t count = v->dim_hz > 0.0 ? sizeof rows / sizeof rows[0] : 5;
    lw_strip_timer_of(v->dim_hz > 0.0, v->timer_stages, &board);
    lw_sheet_need(sheet, 105.0); /* heading and table stay together */
    lw_sheet_heading(sheet, SAY("Timer, on a second board"));
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < count; i++)
        lw_sheet_row(sheet, &table, false, rows[i]);
    timed_values(sheet, v);
    lw_sheet_gap(sheet, 3.0);
    lw_sheet_strip_board(sheet, &board.layout.board);
    lw_sheet_step(sheet, ++*n,
                  SAY("Join + and − to the pack's side of the dusk board, D to D and G to G. Solder 100 nF across the "
                      "plus and minus pins of U2 below the board."));
    lw_sheet_step(sheet, ++*n,
                  SAY("To test the time, put a hundredth of Rt in its place: full light then ends after a hundredth of "
                      "its hours."));
}

static void on_strips(lw_sheet *sheet, const lw_switch_values *v, int *n)
{
    const lw_strip_layout layout = lw_strip_dusk(v->sensor);
    lw_sheet_need(sheet, 80.0); /* heading and picture stay together */
    lw_sheet_heading(sheet, SAY("On strip board, true size and larger"));
    lw_sheet_strip_board(sheet, &layout.board);
    lw_sheet_step(
        sheet, ++*n,
        SAY("Seen from the side of the parts; the copper strips run below from left to right. Cut them at the "
            "crosses."));
    lw_sheet_step(sheet, ++*n,
                  SAY("Thick lines without a name are wires: solder them first, then the parts by name. Chips: notch "
                      "upwards. Left + and −: pack; right: lamp; P: plus of the panel; D and G: to a timer."));
    lw_sheet_step(sheet, ++*n,
                  SAY("C1 has a right way round: its plus goes to the + beside it, the stripe on its case to minus."));
    lw_sheet_caution(sheet, SAY("A capacitor of this kind the wrong way round gets hot and can burst. Eyes protected "
                                "when it is first joined to the pack."));
    lw_sheet_step(
        sheet, ++*n,
        SAY("Legs of transistors: B base, C collector, E emitter; G gate, D drain, S source. Types differ: look "
            "yours up."));
    lw_sheet_step(sheet, ++*n, SAY("Before power: the meter finds no neighbouring strips joined."));
}

static const char *what_it_does(lw_sheet *sheet, lw_switch_sensor sensor)
{
    if (sensor == LW_SENSE_PANEL)
        return SAY("Only when the driver has no dusk switch of its own. The panel itself sees the dusk: when point A "
                   "falls below point B, the transistor turns the lamp on. The panel needs its blocking diode.");
    if (sensor == LW_SENSE_TRANSISTORS)
        return SAY(
            "Only when the driver has no dusk switch of its own. The photoresistor sees the sky; by day Q1 holds "
            "Q2 off. When point A falls in the dark, Q2 and Q3 turn the lamp on through Q4.");
    return SAY("Only when the driver has no dusk switch of its own. The photoresistor sees the sky; when it "
               "is dark, point A falls below point B and the transistor turns the lamp on.");
}

static void check(lw_sheet *sheet, const lw_dusk_board *dusk, int n)
{
    char text[200];
    const lw_switch_sensor sensor = dusk->values.sensor;
    lw_sheet_heading(sheet, SAY("Check it"));
    const char *form =
        sensor == LW_SENSE_TRANSISTORS
            ? SAY("Pack at %.1f V: the lamp goes on when A falls to %.2f V, off when it rises to %.2f V.")
            : SAY("Pack at %.1f V, lamp off: B reads %.2f V. Lamp on: B reads %.2f V.");
    lw_sheet_step(sheet, ++n, lw_sheet_format(text, sizeof text, form, dusk->pack_v, dusk->on_v, dusk->off_v));
    if (sensor == LW_SENSE_PANEL) {
        lw_sheet_step(sheet, ++n, SAY("Cover the panel slowly: the lamp goes on once and does not flicker."));
        lw_sheet_step(sheet, ++n,
                      SAY("Too early or too late: a larger Rb switches later in the evening, a smaller one earlier."));
        lw_sheet_caution(sheet,
                         SAY("The panel must not see another lamp, a white wall or leaves that the lamp lights."));
        return;
    }
    lw_sheet_step(sheet, ++n, SAY("Shade the photoresistor slowly: the lamp goes on once and does not flicker."));
    lw_sheet_step(sheet, ++n,
                  SAY("Too early or too late: a larger Rb switches later in the evening, a smaller one earlier."));
    lw_sheet_step(sheet, ++n, SAY("The photoresistor must not see the head: put it on top, in a short black tube."));
    lw_sheet_caution(sheet, SAY("A photoresistor contains cadmium: do not burn it, collect it."));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_dusk_board *dusk = &input->build->dusk;
    const lw_switch_values *v = &dusk->values;
    char text[200];
    int n = 0;
    lw_sheet_text(sheet, what_it_does(sheet, v->sensor));
    lw_sheet_switch_circuit(sheet, v->sensor);
    parts(sheet, &input->plan->brief.shelf.switch_parts, dusk);
    lw_sheet_gap(sheet, 3.0);
    lw_sheet_value(sheet, SAY("Goes on below, full pack (nine of ten)"), lux_text(text, sizeof text, &dusk->on_full));
    lw_sheet_value(sheet, SAY("Goes off above, empty pack (nine of ten)"), lux_text(text, sizeof text, &dusk->off));
    if (dusk->there) {
        lw_sheet_value(sheet, SAY("Its own use in a month"),
                       lw_sheet_format(text, sizeof text, "%.2g Wh", dusk->standby_wh_month));
        on_strips(sheet, v, &n);
        if (v->timer_h > 0.0)
            timed(sheet, v, &n);
    }
    check(sheet, dusk, n);
}

static bool wanted(const lw_sheet_input *input)
{
    return input->build->has_dusk && input->kind->dusk.there; /* else the driver has its own */
}

const lw_sheet_kind lw_sheet_dusk = {
    .name = "dusk",
    .group = "bench",
    .title = "Dusk switch",
    .each_kind = true,
    .wanted = wanted,
    .draw = draw,
};
