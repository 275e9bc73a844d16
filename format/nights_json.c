/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Results of night simulations as JSON.
 */
#include "lanewick/nights_desk.h"

#include "json_help.h"
#include "lanewick/utc.h"

void lw_day_text(int day, char out[6])
{
    int month = 0;
    while (month < 11 && day >= lw_days_in_month(LW_COMMON_YEAR, month + 1))
        day -= lw_days_in_month(LW_COMMON_YEAR, month++ + 1);
    const int parts[2] = {month + 1, day + 1};
    for (int i = 0; i < 2; i++) {
        out[3 * i] = (char)('0' + parts[i] / 10 % 10);
        out[3 * i + 1] = (char)('0' + parts[i] % 10);
    }
    out[2] = '-';
    out[5] = '\0';
}

static json_t *integers(const int *x, size_t n)
{
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++)
        json_array_append_new(list, json_integer(x[i]));
    return list;
}

static json_t *place(double lat_deg, double lon_deg, double utc_offset_h)
{
    json_t *object = json_object();
    json_object_set_new(object, "lat_deg", lw_json_number(lat_deg));
    json_object_set_new(object, "lon_deg", lw_json_number(lon_deg));
    json_object_set_new(object, "utc_offset_h", lw_json_number(utc_offset_h));
    return object;
}

static json_t *dark_nights(const lw_nights *n)
{
    json_t *list = json_array();
    for (int d = 0; d < LW_DAYS; d++) {
        if (!n->dark[d])
            continue;
        char date[6];
        lw_day_text(d, date);
        json_t *night = json_object();
        json_object_set_new(night, "date", json_string(date));
        json_object_set_new(night, "day_of_year", json_integer(d + 1));
        json_object_set_new(night, "missing_wh", lw_json_number(n->missing_wh[d]));
        json_object_set_new(night, "wanted_wh", lw_json_number(n->wanted_wh[d]));
        json_object_set_new(night, "missing_h", lw_json_number(n->missing_h[d]));
        json_object_set_new(night, "wanted_h", lw_json_number(n->wanted_h[d]));
        json_object_set_new(night, "lowest_charge_share", lw_json_number(n->lowest_share[d]));
        json_array_append_new(list, night);
    }
    return list;
}

static void energy(json_t *object, const lw_nights *n)
{
    json_object_set_new(object, "panel_wh", lw_json_number(n->panel_year_wh));
    json_object_set_new(object, "panel_ah", lw_json_number(n->panel_year_ah));
    json_object_set_new(object, "panel_month_wh", lw_json_list(n->panel_wh, LW_MONTHS));
    json_object_set_new(object, "load_month_wh", lw_json_list(n->load_wh, LW_MONTHS));
    json_object_set_new(object, "spilled_month_wh", lw_json_list(n->spilled_wh, LW_MONTHS));
    json_object_set_new(object, "other_missing_wh", lw_json_number(n->other_missing_wh));
    json_object_set_new(object, "dimmed_wh", lw_json_number(n->dimmed_wh));
    json_object_set_new(object, "missing_by_night_wh", lw_json_list(n->missing_wh, LW_DAYS));
    json_object_set_new(object, "full_cycles", lw_json_number(n->full_cycles));
    json_object_set_new(object, "mean_depth", lw_json_number(n->mean_depth));
    json_object_set_new(object, "mean_charge_share", lw_json_number(n->mean_charge_share));
    json_object_set_new(object, "pack_low_c", lw_json_number(n->pack_low_c));
    json_object_set_new(object, "pack_high_c", lw_json_number(n->pack_high_c));
    json_object_set_new(object, "pack_mean_c", lw_json_number(n->pack_mean_c));
    json_object_set_new(object, "too_cold_to_charge_h", lw_json_number(n->cold_h));
    json_object_set_new(object, "too_hot_to_charge_h", lw_json_number(n->hot_h));
}

char *lw_nights_to_json(const lw_system *system, const lw_weather_year *year, const lw_nights *nights)
{
    json_t *object = json_object();
    json_object_set_new(object, "system", json_string(system->name));
    json_object_set_new(object, "station", json_string(year->station));
    json_object_set_new(object, "place", place(year->lat_deg, year->lon_deg, year->utc_offset_h));
    json_object_set_new(object, "dark_limit", lw_json_number(system->dark_limit));
    json_object_set_new(object, "panel_standard_w", lw_json_number(lw_panel_standard_w(&system->panel)));
    json_object_set_new(object, "pack_usable_wh", lw_json_number(lw_battery_usable_wh(&system->battery)));
    json_object_set_new(object, "pack_ohm", lw_json_number(lw_battery_resistance_ohm(&system->battery)));
    json_object_set_new(object, "dark_nights", json_integer(nights->dark_nights));
    json_object_set_new(object, "by_month", integers(nights->by_month, LW_MONTHS));
    json_object_set_new(object, "unserved_share", lw_json_number(nights->unserved_share));
    json_object_set_new(object, "lowest_charge_share", lw_json_number(nights->lowest_charge_share));
    json_object_set_new(object, "nights", dark_nights(nights));
    energy(object, nights);
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}

char *lw_night_draws_to_json(const lw_night_draws *request, const lw_nights_summary *summaries,
                             const lw_dark_band *band)
{
    double by_month[LW_MONTHS] = {0.0}, unserved = 0.0, lowest = 1.0;
    json_t *counts = json_array();
    for (uint32_t y = 0; y < request->years; y++) {
        const lw_nights_summary *s = &summaries[y];
        for (int m = 0; m < LW_MONTHS; m++)
            by_month[m] += s->by_month[m] / (double)request->years;
        unserved += (double)s->unserved_share / request->years;
        lowest = (double)s->lowest_charge_share < lowest ? (double)s->lowest_charge_share : lowest;
        json_array_append_new(counts, json_integer(s->dark_nights));
    }
    json_t *object = json_object(), *dark = json_object();
    json_object_set_new(dark, "mean", lw_json_number(band->mean));
    json_object_set_new(dark, "low", lw_json_number(band->low));
    json_object_set_new(dark, "high", lw_json_number(band->high));
    json_object_set_new(object, "system", json_string(request->system->name));
    json_object_set_new(object, "basis", json_string(request->climate->basis));
    json_object_set_new(object, "place",
                        place(request->climate->lat_deg, request->climate->lon_deg, request->utc_offset_h));
    json_object_set_new(object, "years", json_integer((json_int_t)request->years));
    json_object_set_new(object, "seed", json_integer((json_int_t)request->seed));
    json_object_set_new(object, "confidence", lw_json_number(request->confidence));
    json_object_set_new(object, "dark_limit", lw_json_number(request->system->dark_limit));
    json_object_set_new(object, "dark_per_year", dark);
    json_object_set_new(object, "by_month", lw_json_list(by_month, LW_MONTHS));
    json_object_set_new(object, "unserved_share", lw_json_number(unserved));
    json_object_set_new(object, "lowest_charge_share", lw_json_number(lowest));
    json_object_set_new(object, "dark_nights_by_year", counts);
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}
