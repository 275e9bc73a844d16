/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure lamp_nights: dark nights of one lamp whose sizes are known. Defaults are those of a brief (docs/brief.md).
 */
#include "lanewick/figure.h"
#include "lanewick/lamp_nights.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* clang-format off */
enum { LAT, LON, ELEV, UTC, HORIZON, ALBEDO, DUST, DUST_MOST, DUST_WASH, CLEANED, TILT, FACING,
       WATTS, VOC, ISC, VMP, IMP, PANEL_CELLS, PANELS, PANEL_SD,
       CHARGER, END_V, INPUT_V, MOST_A, DROP, CHARGER_EFF, CHARGER_A, COLD, HOT, WIRE, BOX_SUN, BOX_ABSORBS, BOX_PANEL,
       CLASS, SERIES, PARALLEL, CAPACITY, CAPACITY_SD, HEALTH, OHM, BOARD_LOW,
       HEAD_W, DRIVER, DRIVER_EFF, HEAD_V, DRIVER_LOW, STANDBY, SCHEDULE, DUSK,
       WISH, SURE, YEAR, YEARS, SEED };
static const lw_input inputs[] = {
    [LAT] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [LON] = {"lon_deg", "degree", "longitude, east positive", LW_NUMBER, -180, 180, NULL, NULL, 0, 0},
    [ELEV] = {"elev_m", "m", "height above the sea; when left out, that of the neighbouring stations", LW_NUMBER, -430, 6000, NULL, "", 0, 0},
    [UTC] = {"utc_offset_h", "h", "the clock in use, ahead of UTC; when left out, from the longitude", LW_NUMBER, -12, 14, NULL, "", 0, 0},
    [HORIZON] = {"horizon_deg", "degree", "height of the skyline every 10 degrees from north, clockwise", LW_NUMBERS, 0, 80, NULL, "", 36, 36},
    [ALBEDO] = {"albedo", "", "share of the light that the ground throws back", LW_NUMBER, 0, 1, NULL, "0.2", 0, 0},
    [DUST] = {"dust_loss_per_day", "", "light lost to dust, grown by each dry day", LW_NUMBER, 0, 0.05, NULL, "0.002", 0, 0},
    [DUST_MOST] = {"dust_most_loss", "", "at most", LW_NUMBER, 0, 0.9, NULL, "0.25", 0, 0},
    [DUST_WASH] = {"dust_wash_mm", "mm", "rain in a day that washes the glass", LW_NUMBER, 0.1, 100, NULL, "5", 0, 0},
    [CLEANED] = {"dust_cleaned_days", "days", "the keeper wipes it every so many; 0: never", LW_INTEGER, 0, 365, NULL, "60", 0, 0},
    [TILT] = {"tilt_deg", "degree", "tilt of the panel; when left out, the one that makes the poorest month richest", LW_NUMBER, 0, 90, NULL, "", 0, 0},
    [FACING] = {"facing_deg", "degree", "where it looks, clockwise from north; when left out, to the equator", LW_NUMBER, 0, 360, NULL, "", 0, 0},
    [WATTS] = {"panel_w", "W", "rated power of one panel", LW_NUMBER, 0.3, 1000, NULL, NULL, 0, 0},
    [VOC] = {"voc_v", "V", "its label; all four values or none: then a common panel's", LW_NUMBER, 0.4, 120, NULL, "", 0, 0},
    [ISC] = {"isc_a", "A", "short-circuit current of the label", LW_NUMBER, 0.01, 30, NULL, "", 0, 0},
    [VMP] = {"vmp_v", "V", "voltage at the highest power", LW_NUMBER, 0.3, 120, NULL, "", 0, 0},
    [IMP] = {"imp_a", "A", "current at the highest power", LW_NUMBER, 0.01, 30, NULL, "", 0, 0},
    [PANEL_CELLS] = {"panel_cells", "", "cells in series in the panel", LW_INTEGER, 1, 144, NULL, "36", 0, 0},
    [PANELS] = {"panels", "", "panels side by side", LW_INTEGER, 1, 6, NULL, "1", 0, 0},
    [PANEL_SD] = {"panel_tolerance_pct", "%", "one standard deviation of the real power around the label", LW_NUMBER, 0, 30, NULL, "5", 0, 0},
    [CHARGER] = {"charger", "", "direct (end-of-charge switch), linear or tracking", LW_CHOICE, 0, 0, "direct|linear|tracking", "direct", 0, 0},
    [END_V] = {"end_v_per_cell", "V", "where charging stops", LW_NUMBER, 2, 5, NULL, NULL, 0, 0},
    [INPUT_V] = {"charger_most_input_v", "V", "highest open voltage that the charger bears", LW_NUMBER, 3, 150, NULL, NULL, 0, 0},
    [MOST_A] = {"charger_most_a", "A", "highest charging current; when left out, the panel limits it", LW_NUMBER, 0.05, 60, NULL, "", 0, 0},
    [DROP] = {"charger_drop_v", "V", "blocking diode, or the least that a linear charger needs; when left out, common for its kind", LW_NUMBER, 0, 5, NULL, "", 0, 0},
    [CHARGER_EFF] = {"charger_efficiency", "", "conversion of a tracking charger", LW_NUMBER, 0.4, 1, NULL, "", 0, 0},
    [CHARGER_A] = {"charger_standby_a", "A", "always taken by the charger; when left out, common for its kind", LW_NUMBER, 0, 1, NULL, "", 0, 0},
    [COLD] = {"cold_stop_c", "degC", "cells below which it stops; when left out, none is counted on", LW_NUMBER, -40, 20, NULL, "", 0, 0},
    [HOT] = {"hot_stop_c", "degC", "cells above which it stops; when left out, none is counted on", LW_NUMBER, 30, 90, NULL, "", 0, 0},
    [WIRE] = {"wire_ohm", "ohm", "panel to charger and back", LW_NUMBER, 0, 5, NULL, "0.15", 0, 0},
    [BOX_SUN] = {"box_sun_share", "", "share of the day's sun that falls on the box of the pack", LW_NUMBER, 0, 1, NULL, "0.3", 0, 0},
    [BOX_ABSORBS] = {"box_absorbs", "", "share of that sun that heats it: 0.3 white .. 0.9 black", LW_NUMBER, 0.1, 1, NULL, "0.5", 0, 0},
    [BOX_PANEL] = {"box_panel_w", "W", "panel whose charger warms the box; when left out, this one. A plan takes the first of its shelf for all sizes", LW_NUMBER, 0.3, 6000, NULL, "", 0, 0},
    [CLASS] = {"class", "", "voltage class of the cells", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
    [SERIES] = {"series", "", "groups in series", LW_INTEGER, 1, 16, NULL, NULL, 0, 0},
    [PARALLEL] = {"parallel", "", "cells side by side in each", LW_INTEGER, 1, 40, NULL, NULL, 0, 0},
    [CAPACITY] = {"capacity_ah", "Ah", "of one cell, as measured", LW_NUMBER, 0.05, 400, NULL, NULL, 0, 0},
    [CAPACITY_SD] = {"capacity_sd_pct", "%", "spread of a pack's weakest group", LW_NUMBER, 0, 40, NULL, "5", 0, 0},
    [HEALTH] = {"health", "", "capacity as a share of that when new: says how fast the cells age from here", LW_NUMBER, 0.3, 1, NULL, "0.75", 0, 0},
    [OHM] = {"resistance_ohm", "ohm", "of one cell, over ten seconds", LW_NUMBER, 0.0005, 1, NULL, "0.09", 0, 0},
    [BOARD_LOW] = {"board_low_v", "V", "where the protection board opens; when left out, the class's own limit", LW_NUMBER, 0, 4, NULL, "", 0, 0},
    [HEAD_W] = {"head_w", "W", "electrical power of the LEDs at full light: lumens by lumens per watt", LW_NUMBER, 0.05, 500, NULL, NULL, 0, 0},
    [DRIVER] = {"driver", "", "constant_current, resistor, buck or boost", LW_CHOICE, 0, 0, "constant_current|resistor|buck|boost", "buck", 0, 0},
    [DRIVER_EFF] = {"driver_efficiency", "", "power of the LEDs by that from the pack", LW_NUMBER, 0.3, 1, NULL, "0.88", 0, 0},
    [HEAD_V] = {"head_v", "V", "of the LED string; when left out, constant power at any voltage of the pack", LW_NUMBER, 1.5, 60, NULL, "", 0, 0},
    [DRIVER_LOW] = {"driver_low_stop_v", "V", "a cell, below which the driver stops; when left out, the board alone", LW_NUMBER, 1.5, 4, NULL, "", 0, 0},
    [STANDBY] = {"driver_standby_a", "A", "always taken by the driver", LW_NUMBER, 0, 1, NULL, "0.001", 0, 0},
    [SCHEDULE] = {"schedule", "", "from, to and level of each span, spans apart by a semicolon", LW_TEXT, 0, 0, NULL, "dusk dawn 1", 0, 0},
    [DUSK] = {"dusk_sun_deg", "degree", "height of the sun at which the dusk switch works", LW_NUMBER, -12, 0, NULL, "-4", 0, 0},
    [WISH] = {"dark_nights_per_year", "", "so many can be borne", LW_NUMBER, 0, 200, NULL, "5", 0, 0},
    [SURE] = {"sure_share", "", "share of the years in which kept_nights is not passed", LW_NUMBER, 0.5, 0.99, NULL, "0.9", 0, 0},
    [YEAR] = {"planned_years", "years", "age of the pack in the lamp, at the end", LW_NUMBER, 1, 15, NULL, "3", 0, 0},
    [YEARS] = {"years", "", "simulated years; a plan draws 160", LW_INTEGER, 8, LW_LAMP_NIGHTS_YEARS, NULL, "160", 0, 0},
    [SEED] = {"seed", "", "another set of years; the same repeats", LW_INTEGER, 0, 9007199254740992.0, NULL, "1", 0, 0},
};
/* clang-format on */

enum { DARK, LOW, HIGH, KEPT, SHARE, MONTH, LIMITS, PLUS_PANEL, PLUS_PACK, BY_MONTH, PANEL_WH, LOAD_WH, SPILLED_WH };
enum { LEFT = SPILLED_WH + 1, OUT_TILT, OUT_FACING };
static const lw_output outputs[] = {
    [DARK] = {"dark_nights", "", "a year, mean over the simulated years", LW_NUMBER},
    [LOW] = {"dark_low", "", "nine of ten years have at least so many ...", LW_NUMBER},
    [HIGH] = {"dark_high", "", "... and at most so many (5th and 95th percentile)", LW_NUMBER},
    [KEPT] = {"kept_nights", "", "not passed in sure_share of the years", LW_NUMBER},
    [SHARE] = {"wish_kept_share", "", "share of the years with at most dark_nights_per_year", LW_NUMBER},
    [MONTH] = {"limit_month", "", "most dark nights, else least spare energy, 1..12", LW_INTEGER},
    [LIMITS] = {"limit", "", "panel or pack: the part of which more helps more", LW_TEXT},
    [PLUS_PANEL] = {"dark_more_panel", "", "dark nights with a quarter more panel", LW_NUMBER},
    [PLUS_PACK] = {"dark_more_pack", "", "dark nights with a quarter more cells", LW_NUMBER},
    [BY_MONTH] = {"dark_by_month", "", "dark nights, January to December", LW_NUMBERS},
    [PANEL_WH] = {"panel_wh_day", "Wh", "a day, from the panel into the pack and the lamp", LW_NUMBERS},
    [LOAD_WH] = {"load_wh_day", "Wh", "a day, taken by the lamp", LW_NUMBERS},
    [SPILLED_WH] = {"spilled_wh_day", "Wh", "a day, for which there was no room", LW_NUMBERS},
    [LEFT] = {"capacity_share", "", "of the pack today, in the planned year", LW_NUMBER},
    [OUT_TILT] = {"tilt_used_deg", "degree", "tilt of the panel", LW_NUMBER},
    [OUT_FACING] = {"facing_used_deg", "degree", "where it looks", LW_NUMBER},
};

static double or_nan(const lw_value *value)
{
    return value->given ? value->number : NAN;
}

static void set_place(const lw_value *in, lw_brief *brief)
{
    brief->place = (lw_place){.lat_deg = in[LAT].number,
                              .lon_deg = in[LON].number,
                              .elev_m = or_nan(&in[ELEV]),
                              .utc_offset_h = in[UTC].given ? in[UTC].number : round(in[LON].number / 15.0),
                              .albedo = in[ALBEDO].number,
                              .dust_loss_per_day = in[DUST].number,
                              .dust_most_loss = in[DUST_MOST].number,
                              .dust_wash_mm = in[DUST_WASH].number,
                              .dust_cleaned_days = (int)in[CLEANED].number};
    if (in[HORIZON].given)
        memcpy(brief->place.horizon_deg, in[HORIZON].list, sizeof brief->place.horizon_deg);
    brief->build = (lw_build){.vent = true,
                              .fuse = true,
                              .protection = true,
                              .box_sun_share = in[BOX_SUN].number,
                              .box_absorbs = in[BOX_ABSORBS].number,
                              .tilt_deg = or_nan(&in[TILT]),
                              .facing_deg = or_nan(&in[FACING]),
                              .wire_ohm = in[WIRE].number};
}

static bool set_panel(const lw_value *in, lw_shelf *shelf, lw_error *err)
{
    lw_shelf_panel *panel = &shelf->panel[0];
    shelf->panel_count = 1;
    *panel = (lw_shelf_panel){.name = "panel",
                              .watts = in[WATTS].number,
                              .voc_v = in[VOC].number,
                              .isc_a = in[ISC].number,
                              .vmp_v = in[VMP].number,
                              .imp_a = in[IMP].number,
                              .cells = (int)in[PANEL_CELLS].number,
                              .tolerance_pct = in[PANEL_SD].number};
    const int told = in[VOC].given + in[ISC].given + in[VMP].given + in[IMP].given;
    if (told == 0)
        lw_shelf_common_label(panel);
    return told == 0 || told == 4 ||
           lw_fail(err, LW_WRONG_INPUT, "voc_v", "voc_v, isc_a, vmp_v and imp_a go together: give all four or none.");
}

static void set_cells(const lw_value *in, lw_shelf *shelf)
{
    shelf->cell_count = 1;
    shelf->cell[0] = (lw_shelf_cell){.name = "cell",
                                     .voltage_class = (lw_shelf_class)in[CLASS].number,
                                     .capacity_ah = in[CAPACITY].number,
                                     .capacity_sd_pct = in[CAPACITY_SD].number,
                                     .health = in[HEALTH].number,
                                     .resistance_ohm = in[OHM].number,
                                     .lowest_found_v = NAN};
    const int series = (int)in[SERIES].number;
    shelf->board_count = in[BOARD_LOW].given ? 1 : 0;
    shelf->board[0] = (lw_shelf_board){
        .name = "board", .series = series, .every_group = true, .balances = true, .low_v = in[BOARD_LOW].number};
}

static void set_electronics(const lw_value *in, lw_shelf *shelf)
{
    const lw_shelf_charging kind = (lw_shelf_charging)in[CHARGER].number;
    const lw_common_charger *common = lw_shelf_common_charger(kind);
    const bool own = kind == LW_SHELF_TRACKING && in[CHARGER_EFF].given;
    const int series = (int)in[SERIES].number;
    shelf->charger_count = shelf->driver_count = 1;
    shelf->charger[0] = (lw_shelf_charger){.name = "charger",
                                           .kind = kind,
                                           .series_min = series,
                                           .series_max = series,
                                           .end_v_per_cell = in[END_V].number,
                                           .most_a = in[MOST_A].given ? in[MOST_A].number : (double)INFINITY,
                                           .most_input_v = in[INPUT_V].number,
                                           .most_input_w = INFINITY,
                                           .efficiency = own ? in[CHARGER_EFF].number : common->efficiency,
                                           .drop_v = in[DROP].given ? in[DROP].number : common->drop_v,
                                           .standby_a = in[CHARGER_A].given ? in[CHARGER_A].number : common->standby_a,
                                           .cold_stop_c = or_nan(&in[COLD]),
                                           .hot_stop_c = or_nan(&in[HOT])};
    shelf->driver[0] = (lw_shelf_driver){.name = "driver",
                                         .kind = (lw_shelf_driving)in[DRIVER].number,
                                         .series_min = series,
                                         .series_max = series,
                                         .efficiency = in[DRIVER_EFF].number,
                                         .standby_a = in[STANDBY].number,
                                         .most_w = INFINITY,
                                         .head_v = or_nan(&in[HEAD_V]),
                                         .low_stop_v_per_cell = or_nan(&in[DRIVER_LOW]),
                                         .dims = true};
}

static bool set_want(const lw_value *in, lw_want *want, lw_error *err)
{
    lw_lamp_kind *lamp = &want->lamp[0];
    want->lamp_count = 1;
    want->dark_nights_per_year = in[WISH].number;
    want->planned_years = in[YEAR].number;
    want->sure_share = in[SURE].number;
    want->dusk_sun_deg = in[DUSK].number;
    want->least_late_level = 1.0;
    lamp->count = 1;
    lamp->head_w = in[HEAD_W].number;
    (void)snprintf(lamp->name, sizeof lamp->name, "lamp");
    return lw_spans_from_text(in[SCHEDULE].text, "schedule", lamp->span, LW_BRIEF_STEPS, &lamp->span_count, err);
}

/* Sums of single precision: hundredths of a watt-hour are what they are good for. */
static bool set_list(lw_value *out, const double *x, double step, lw_arena *arena, lw_error *err)
{
    double *kept = lw_arena_take(arena, LW_MONTHS, sizeof *kept, err);
    for (int m = 0; kept && m < LW_MONTHS; m++)
        kept[m] = step > 0.0 ? round(x[m] / step) * step : x[m];
    if (kept)
        *out = lw_value_list(kept, LW_MONTHS);
    return kept != NULL;
}

static bool answer(const lw_lamp_nights *nights, lw_value *out, lw_arena *arena, lw_error *err)
{
    const lw_outcome *o = &nights->outcome;
    out[DARK] = lw_value_number(o->dark.mean);
    out[LOW] = lw_value_number(o->dark.low);
    out[HIGH] = lw_value_number(o->dark.high);
    out[KEPT] = lw_value_number(o->kept_nights);
    out[SHARE] = lw_value_number(o->sure_share);
    out[MONTH] = lw_value_integer(nights->limit_month);
    out[LIMITS] = lw_value_text(nights->limit_what);
    out[PLUS_PANEL] = lw_value_number(nights->more_panel.dark.mean);
    out[PLUS_PACK] = lw_value_number(nights->more_pack.dark.mean);
    out[LEFT] = lw_value_number(round(nights->capacity_share * 1e4) / 1e4);
    out[OUT_TILT] = lw_value_number(nights->tilt_deg);
    out[OUT_FACING] = lw_value_number(nights->facing_deg);
    return set_list(&out[BY_MONTH], o->by_month, 0.0, arena, err) &&
           set_list(&out[PANEL_WH], o->panel_month_wh, 0.01, arena, err) &&
           set_list(&out[LOAD_WH], o->load_month_wh, 0.01, arena, err) &&
           set_list(&out[SPILLED_WH], o->spilled_month_wh, 0.01, arena, err);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_lamp_nights_ask *ask = lw_arena_take(arena, 1, sizeof *ask, err);
    lw_lamp_nights *nights = ask ? lw_arena_take(arena, 1, sizeof *nights, err) : NULL;
    if (!nights)
        return false;
    memset(ask, 0, sizeof *ask);
    ask->design = (lw_design){.panels = (int)in[PANELS].number,
                              .series = (int)in[SERIES].number,
                              .parallel = (int)in[PARALLEL].number,
                              .board = in[BOARD_LOW].given ? 0 : -1};
    ask->box_panel_w = or_nan(&in[BOX_PANEL]);
    ask->years = (uint32_t)in[YEARS].number;
    ask->seed = (uint64_t)in[SEED].number;
    set_place(in, &ask->brief);
    set_cells(in, &ask->brief.shelf);
    set_electronics(in, &ask->brief.shelf);
    return set_panel(in, &ask->brief.shelf, err) && set_want(in, &ask->brief.want, err) &&
           lw_lamp_nights_of(ask, arena, nights, err) && answer(nights, out, arena, err);
}

const lw_figure lw_fig_lamp_nights = {
    .name = "lamp_nights",
    .room = "power",
    .summary =
        "Dark nights a year of one lamp whose panel, pack and light are known, through simulated years, offline.",
    .source = "The plan's own simulation, docs/models/nights.md: De Soto et al. (2006) for the panel, Hay & Davies "
              "(1980) for the sky, years drawn as in docs/models/synthetic-years.md",
    .limits = "One lamp with nothing else on its pack and with the driver's own dusk switch; the plan knows more.",
    .caution = "Packs of reclaimed cells can burn: fuse, protection board, vented box and end of charge are needed "
               "whatever this says.",
    .example = "lat_deg=-11.62 lon_deg=34.27 elev_m=480 panel_w=20 end_v_per_cell=4.1 charger_most_input_v=30 "
               "cold_stop_c=1 hot_stop_c=45 series=3 parallel=4 capacity_ah=2.04 head_w=3 years=40 "
               "schedule=\"dusk 22:30 1; 22:30 dawn 0.35\"",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
