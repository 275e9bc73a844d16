/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The place of a brief: position, skyline, dust and, where the user has them, own monthly means or an hourly
 * file. Whether monthly radiation is in the right unit is judged by lw_climate_from_means().
 */
#include "brief_read.h"

#include <math.h>
#include <string.h>

static void read_monthly(lw_doc *place, lw_place *out)
{
    out->monthly = lw_doc_has(place, "monthly");
    lw_doc doc = lw_doc_part(place, "monthly", false);
    double *const optional[] = {out->t_mean_c, out->t_range_c, out->wind_10m_ms, out->rain_mm};
    for (size_t k = 0; k < 4; k++)
        for (size_t m = 0; m < 12; m++)
            optional[k][m] = NAN;
    /* The wide range lets wrong units through to the check that can name them. */
    if (!lw_doc_numbers(&doc, "ghi_kwh_m2_day", 0.0, 20000.0, "kWh/m2 a day", out->ghi_kwh_m2_day, 12) && out->monthly)
        lw_doc_fail(&doc, "ghi_kwh_m2_day", "is missing; it must be a list of 12 numbers in kWh/m2 a day.");
    (void)lw_doc_numbers(&doc, "t_mean_c", -60.0, 50.0, "degC", out->t_mean_c, 12);
    (void)lw_doc_numbers(&doc, "t_range_c", 0.0, 40.0, "K", out->t_range_c, 12);
    (void)lw_doc_numbers(&doc, "wind_10m_ms", 0.0, 30.0, "m/s", out->wind_10m_ms, 12);
    (void)lw_doc_numbers(&doc, "rain_mm", 0.0, 5000.0, "mm", out->rain_mm, 12);
    (void)lw_doc_done(&doc);
}

static void read_dust(lw_doc *place, lw_place *out)
{
    lw_doc doc = lw_doc_part(place, "dust", false);
    const char *common = "common practice for an unpaved lane";
    out->dust_loss_per_day = lw_doc_number_or(&doc, "loss_per_day", 0.0, 0.05, (lw_doc_or){0.002, "a day", common});
    out->dust_most_loss = lw_doc_number_or(&doc, "most_loss", 0.0, 0.9, (lw_doc_or){0.25, "", common});
    out->dust_wash_mm = lw_doc_number_or(&doc, "wash_rain_mm", 0.1, 100.0,
                                         (lw_doc_or){5.0, "mm in a day", "rain that washes the glass (Kimber 2006)"});
    out->dust_cleaned_days = lw_doc_integer_or(
        &doc, "cleaned_every_days", 0, 365, (lw_doc_or){60.0, "days", "the keeper wipes the panel every two months"});
    (void)lw_doc_done(&doc);
}

void lw_brief_read_place(lw_doc *brief, lw_place *place)
{
    lw_doc doc = lw_doc_part(brief, "place", true);
    lw_doc_text(&doc, "name", "the place", place->name, sizeof place->name);
    place->lat_deg = lw_doc_number(&doc, "lat_deg", -90.0, 90.0, "degrees");
    place->lon_deg = lw_doc_number(&doc, "lon_deg", -180.0, 180.0, "degrees");
    place->elev_m = lw_doc_number_or(&doc, "elev_m", -430.0, 6000.0, (lw_doc_or){NAN, "m", NULL});
    if (isnan(place->elev_m) && !brief->root->failed)
        lw_assume(brief->root->assumed, "place.elev_m", "not given", "as the nearest stations");
    const double zone = round(place->lon_deg / 15.0);
    place->utc_offset_h = lw_doc_number_or(&doc, "utc_offset_h", -12.0, 14.0,
                                           (lw_doc_or){zone, "h", "clock of the longitude; give the clock in use"});
    if (!lw_doc_numbers(&doc, "horizon_deg", 0.0, 80.0, "degrees", place->horizon_deg, 36) && !brief->root->failed) {
        memset(place->horizon_deg, 0, sizeof place->horizon_deg);
        lw_assume(brief->root->assumed, "place.horizon_deg", "no hills, trees or roofs above the panel", "0 degrees");
    }
    place->albedo = lw_doc_number_or(&doc, "albedo", 0.0, 1.0, (lw_doc_or){0.2, "", "bare or grassy ground"});
    place->coldest_c = lw_doc_number_or(&doc, "coldest_c", -60.0, 40.0, (lw_doc_or){NAN, "degC", NULL});
    lw_brief_read_wind(&doc, place);
    read_dust(&doc, place);
    read_monthly(&doc, place);
    lw_doc_text(&doc, "weather_file", "", place->weather_file, sizeof place->weather_file);
    if (place->monthly && place->weather_file[0])
        lw_doc_fail(&doc, "weather_file", "and monthly are both given; give one of them.");
    (void)lw_doc_done(&doc);
}
