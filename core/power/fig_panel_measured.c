/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure panel_measured: what a panel without label is worth, from a meter and known resistors in the sun.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/figure.h"
#include "lanewick/panel.h"
#include "lanewick/plane.h"
#include "lanewick/sun.h"

#include <math.h>

enum {
    VOC,
    ISC,
    CELLS,
    OHM_1,
    V_1,
    OHM_2,
    V_2,
    CELL_TEMP,
    CELL_BAND,
    IRRADIANCE,
    REF_ISC,
    REF_LABEL,
    LAT,
    LON,
    UTC,
    ELEV,
    TILT,
    FACING,
    TURBIDITY
};
static const lw_input inputs[] = {
    [VOC] = {"voc_v", "V", "open voltage read in the sun", LW_NUMBER, 0.3, 1000.0, NULL, NULL, 0, 0},
    [ISC] = {"isc_a", "A", "short-circuit current read in the sun", LW_NUMBER, 1e-3, 100.0, NULL, NULL, 0, 0},
    [CELLS] = {"cells", "", "cells in series: count them on the front", LW_INTEGER, 1.0, 1000.0, NULL, NULL, 0, 0},
    [OHM_1] = {"load_1_ohm", "ohm", "known resistor, about voc_v / isc_a", LW_NUMBER, 0.01, 10000.0, NULL, "", 0, 0},
    [V_1] = {"load_1_v", "V", "voltage over it", LW_NUMBER, 0.01, 1000.0, NULL, "", 0, 0},
    [OHM_2] = {"load_2_ohm", "ohm", "a second resistor", LW_NUMBER, 0.01, 10000.0, NULL, "", 0, 0},
    [V_2] = {"load_2_v", "V", "voltage over it", LW_NUMBER, 0.01, 1000.0, NULL, "", 0, 0},
    [CELL_TEMP] = {"cell_temp_c", "degC", "of the back of the panel; in full sun about air + 25", LW_NUMBER, -20.0,
                   100.0, NULL, "50", 0, 0},
    [CELL_BAND] = {"cell_band_k", "K", "how well that is known, one standard deviation", LW_NUMBER, 0.0, 30.0, NULL,
                   "7", 0, 0},
    [IRRADIANCE] = {"irradiance_w_m2", "W/m2", "on the panel, from a meter", LW_NUMBER, 200.0, 1400.0, NULL, "", 0, 0},
    [REF_ISC] = {"reference_isc_a", "A", "or: short-circuit current of a panel with a label, beside it", LW_NUMBER,
                 1e-3, 100.0, NULL, "", 0, 0},
    [REF_LABEL] = {"reference_label_isc_a", "A", "its Isc on the label", LW_NUMBER, 1e-3, 100.0, NULL, "", 0, 0},
    [LAT] = {"lat_deg", "degree", "or under a cloudless sky: where", LW_NUMBER, -90.0, 90.0, NULL, "", 0, 0},
    [LON] = {"lon_deg", "degree", "where", LW_NUMBER, -180.0, 360.0, NULL, "", 0, 0},
    [UTC] = {"utc", "", "when, ISO 8601", LW_TEXT, 0.0, 0.0, NULL, "", 0, 0},
    [ELEV] = {"elev_m", "m", "height above the sea", LW_NUMBER, -500.0, 6000.0, NULL, "0", 0, 0},
    [TILT] = {"tilt_deg", "degree", "of the panel", LW_NUMBER, 0.0, 90.0, NULL, "0", 0, 0},
    [FACING] = {"facing_deg", "degree", "of the panel, from north, clockwise", LW_NUMBER, -180.0, 360.0, NULL, "180", 0,
                0},
    [TURBIDITY] = {"turbidity", "", "Linke turbidity: 2 very clear, 3 usual, 5 humid or hazy", LW_NUMBER, 1.0, 10.0,
                   NULL, "3.5", 0, 0},
};

enum { MAX_W, LOW_W, HIGH_W, OUT_VOC, OUT_ISC, VMP, IMP, SUN, SUN_BAND, SERIES, NOTE };
static const lw_output outputs[] = {
    [MAX_W] = {"max_w", "W", "highest power at 1000 W/m2 and 25 degC", LW_NUMBER},
    [LOW_W] = {"max_w_low", "W", "it is less than this in one case of twenty", LW_NUMBER},
    [HIGH_W] = {"max_w_high", "W", "it is more than this in one case of twenty", LW_NUMBER},
    [OUT_VOC] = {"voc_v", "V", "open voltage at standard conditions", LW_NUMBER},
    [OUT_ISC] = {"isc_a", "A", "short-circuit current at standard conditions", LW_NUMBER},
    [VMP] = {"vmp_v", "V", "voltage of highest power", LW_NUMBER},
    [IMP] = {"imp_a", "A", "current of highest power", LW_NUMBER},
    [SUN] = {"irradiance_w_m2", "W/m2", "irradiance that was used", LW_NUMBER},
    [SUN_BAND] = {"irradiance_band_pct", "%", "one standard deviation of it", LW_NUMBER},
    [SERIES] = {"series_ohm", "ohm", "series resistance", LW_NUMBER},
    [NOTE] = {"note", "", "what the readings rest on", LW_TEXT},
};

static bool clear_sky(const lw_value *in, double *sun_w_m2, lw_error *err)
{
    double utc_days;
    if (!lw_utc_parse("utc", in[UTC].text, &utc_days, err))
        return false;
    const lw_observer here = {in[LAT].number, in[LON].number, in[ELEV].number};
    const lw_sun_position sun = lw_sun_position_at(utc_days, lw_delta_t_s(utc_days), &here);
    const double normal = lw_solar_constant_w_m2 / (sun.distance_au * sun.distance_au);
    const lw_clear_sky sky = lw_clear_sky_at(sun.zenith_deg, normal, here.elev_m, in[TURBIDITY].number);
    const lw_plane plane = {
        .tilt_deg = in[TILT].number, .facing_deg = in[FACING].number, .albedo = 0.2, .sky = LW_SKY_HAY_DAVIES};
    const lw_sun_hour now = {.up = sun.up, .east = sun.east, .north = sun.north, .normal_w_m2 = normal};
    lw_plane_hour hour;
    double absorbed;
    lw_plane_prepare_hour(&plane, &now, &hour);
    lw_plane_lanes(&plane, &hour, 1, &sky.ghi_w_m2, &sky.dhi_w_m2, &sky.dni_w_m2, sun_w_m2, &absorbed);
    if (*sun_w_m2 < 400.0)
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "utc",
            "A clear sky gives only %.0f W/m2 on the panel then; measure when it is above 400, near noon and "
            "with the panel turned to the sun.",
            *sun_w_m2);
    return true;
}

static bool irradiance(const lw_value *in, lw_panel_readings *r, const char **note, lw_error *err)
{
    if (in[IRRADIANCE].given) {
        r->irradiance_w_m2 = in[IRRADIANCE].number;
        r->irradiance_band_pct = 5.0;
        *note = "irradiance as given, taken as good to 5 %";
        return true;
    }
    if (in[REF_ISC].given && in[REF_LABEL].given) {
        r->irradiance_w_m2 = 1000.0 * in[REF_ISC].number / in[REF_LABEL].number / (1.0 + 0.0005 * (r->cell_c - 25.0));
        r->irradiance_band_pct = 3.5;
        *note = "irradiance from a panel with a label beside it, good to 3.5 % if both lie in one plane and are clean";
        return true;
    }
    if (in[LAT].given && in[LON].given && in[UTC].given) {
        r->irradiance_band_pct = 9.0;
        *note = "irradiance of a cloudless sky, good to 9 % at best: haze is not seen by eye";
        return clear_sky(in, &r->irradiance_w_m2, err);
    }
    return lw_fail(
        err, LW_WRONG_INPUT, "irradiance_w_m2",
        "Give irradiance_w_m2, or reference_isc_a with reference_label_isc_a, or lat_deg, lon_deg and utc of a "
        "cloudless hour.");
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    lw_panel_readings r = {.voc_v = in[VOC].number,
                           .isc_a = in[ISC].number,
                           .cell_c = in[CELL_TEMP].number,
                           .cell_band_k = in[CELL_BAND].number,
                           .cells = (int)in[CELLS].number};
    if (in[OHM_1].given != in[V_1].given || in[OHM_2].given != in[V_2].given || (in[OHM_2].given && !in[OHM_1].given))
        return lw_fail(err, LW_WRONG_INPUT, "load_1_v", "Each resistor needs its ohms and the volts read over it.");
    if (in[OHM_1].given) {
        r.load_ohm[0] = in[OHM_1].number;
        r.load_v[0] = in[V_1].number;
    }
    if (in[OHM_2].given) {
        r.load_ohm[1] = in[OHM_2].number;
        r.load_v[1] = in[V_2].number;
    }
    const char *note = "";
    lw_panel_measured measured;
    if (!irradiance(in, &r, &note, err) || !lw_panel_from_readings(&r, &measured, err))
        return false;
    out[MAX_W] = lw_value_number(measured.max_w);
    out[LOW_W] = lw_value_number(measured.max_w_low);
    out[HIGH_W] = lw_value_number(measured.max_w_high);
    out[OUT_VOC] = lw_value_number(measured.label.voc_v);
    out[OUT_ISC] = lw_value_number(measured.label.isc_a);
    out[VMP] = lw_value_number(measured.label.vmp_v);
    out[IMP] = lw_value_number(measured.label.imp_a);
    out[SUN] = lw_value_number(r.irradiance_w_m2);
    out[SUN_BAND] = lw_value_number(r.irradiance_band_pct);
    out[SERIES] = lw_value_number(measured.diode.series_ohm);
    out[NOTE] = lw_value_text(note);
    return true;
}

const lw_figure lw_fig_panel_measured = {
    .name = "panel_measured",
    .room = "power",
    .summary = "Power of a solar panel without label, from a meter and one or two known resistors in the sun.",
    .source = "De Soto, Klein & Beckman (2006), Solar Energy 80, 78, translation carried back; "
              "clear sky: Ineichen & Perez (2002), Solar Energy 73, 151",
    .limits = "Steady sun above 400 W/m2, clean glass, all readings within a few minutes.",
    .caution = "A panel in the sun is live whatever you do. Above 60 V open voltage do not touch bare wires; use a "
               "resistor that bears voc_v x isc_a watts: it gets hot.",
    .example = "voc_v=19.8 isc_a=1.05 cells=36 load_1_ohm=16 load_1_v=15.3 cell_temp_c=48 reference_isc_a=0.53 "
               "reference_label_isc_a=0.61",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
