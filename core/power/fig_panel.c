/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure panel: five parameters from the label, and the curve at any irradiance and cell temperature.
 */
#include "lanewick/figure.h"
#include "lanewick/panel.h"
#include "lanewick/units.h"

#include <math.h>
#include <stdio.h>

enum { VOC, ISC, VMP, IMP, CELLS, ISC_TEMP, VOC_TEMP, IRRADIANCE, CELL_TEMP, AT, SHADED };
static const lw_input inputs[] = {
    [VOC] = {"voc_v", "V", "open voltage on the label", LW_NUMBER, 0.3, 1000.0, NULL, NULL, 0, 0},
    [ISC] = {"isc_a", "A", "short-circuit current on the label", LW_NUMBER, 1e-3, 100.0, NULL, NULL, 0, 0},
    [VMP] = {"vmp_v", "V", "voltage at the point of highest power", LW_NUMBER, 0.1, 1000.0, NULL, NULL, 0, 0},
    [IMP] = {"imp_a", "A", "current at the point of highest power", LW_NUMBER, 1e-4, 100.0, NULL, NULL, 0, 0},
    [CELLS] = {"cells", "", "cells in series: count them on the front", LW_INTEGER, 1.0, 1000.0, NULL, NULL, 0, 0},
    [ISC_TEMP] = {"isc_temp_a_per_k", "A/K", "change of Isc with temperature; left out: +0.05 % of Isc", LW_NUMBER,
                  -1.0, 1.0, NULL, "", 0, 0},
    [VOC_TEMP] = {"voc_temp_v_per_k", "V/K", "change of Voc with temperature; left out: -0.34 % of Voc", LW_NUMBER,
                  -10.0, 0.0, NULL, "", 0, 0},
    [IRRADIANCE] = {"irradiance_w_m2", "W/m2", "effective irradiance on the cells", LW_NUMBER, 0.0, 2000.0, NULL,
                    "1000", 0, 0},
    [CELL_TEMP] = {"cell_temp_c", "degC", "cell temperature", LW_NUMBER, -60.0, 120.0, NULL, "25", 0, 0},
    [AT] = {"at_v", "V", "voltage at which the current is wanted", LW_NUMBER, -100.0, 2000.0, NULL, "", 0, 0},
    [SHADED] = {"shaded_cell_share", "", "light left on one shaded cell without bypass diode", LW_NUMBER, 0.0, 1.0,
                NULL, "", 0, 0},
};

enum {
    PHOTO,
    SATURATION,
    IDEALITY,
    MODIFIED,
    SERIES,
    SHUNT,
    MAX_W,
    MAX_V,
    MAX_A,
    OUT_VOC,
    OUT_ISC,
    CURRENT,
    SHADED_A,
    SHADED_W,
    CURVE_V,
    CURVE_A,
    FIT,
    NOTE
};
static const lw_output outputs[] = {
    [PHOTO] = {"photo_a", "A", "light current IL at 1000 W/m2 and 25 degC", LW_NUMBER},
    [SATURATION] = {"saturation_a", "A", "saturation current I0 at 25 degC", LW_NUMBER},
    [IDEALITY] = {"ideality", "", "ideality n of one cell", LW_NUMBER},
    [MODIFIED] = {"ideality_v", "V", "a = n cells kT/q at 25 degC", LW_NUMBER},
    [SERIES] = {"series_ohm", "ohm", "series resistance", LW_NUMBER},
    [SHUNT] = {"shunt_ohm", "ohm", "shunt resistance at 1000 W/m2; none: no shunt", LW_NUMBER},
    [MAX_W] = {"max_w", "W", "highest power at the irradiance and temperature asked for", LW_NUMBER},
    [MAX_V] = {"max_v", "V", "voltage there", LW_NUMBER},
    [MAX_A] = {"max_a", "A", "current there", LW_NUMBER},
    [OUT_VOC] = {"voc_v", "V", "open voltage", LW_NUMBER},
    [OUT_ISC] = {"isc_a", "A", "short-circuit current", LW_NUMBER},
    [CURRENT] = {"current_a", "A", "current at at_v; negative beyond the open voltage", LW_NUMBER},
    [SHADED_A] = {"shaded_current_a", "A", "current at at_v (else at max_v) with one cell shaded", LW_NUMBER},
    [SHADED_W] = {"shaded_w", "W", "power there with one cell shaded", LW_NUMBER},
    [CURVE_V] = {"curve_v", "V", "voltages of the whole curve, from short to open circuit", LW_NUMBERS},
    [CURVE_A] = {"curve_a", "A", "currents there", LW_NUMBERS},
    [FIT] = {"fit", "", "five, three or steep", LW_TEXT},
    [NOTE] = {"note", "", "how the label was met, and what to beware of", LW_TEXT},
};

static const char *note(const lw_panel_label *label, lw_panel_fit fit, double n, bool shaded, lw_arena *arena,
                        lw_error *err)
{
    char text[700];
    const bool defaults = isnan(label->isc_temp_a_per_k) || isnan(label->voc_temp_v_per_k);
    (void)snprintf(
        text, sizeof text, "%s%s%s%s.", lw_panel_fit_text(fit),
        n < 0.9 && fit == LW_FIT_FIVE ? "; the ideality is below 0.9, so the label is rounded or hopeful" : "",
        defaults ? "; temperature coefficients of usual crystalline silicon" : "",
        shaded ? "; the shaded cell takes reverse voltage and heats: a leaf or a pole's shadow can burn it" : "");
    return lw_arena_text(arena, text, err);
}

static bool shade(const lw_value *in, const lw_diode *d, double max_v, lw_value *out, lw_error *err)
{
    const double v = in[AT].given ? in[AT].number : max_v;
    double a = 0.0;
    if (!lw_diode_shaded_cell_a(d, in[SHADED].number, v, &a, err))
        return false;
    out[SHADED_A] = lw_value_number(a);
    out[SHADED_W] = lw_value_number(a * v);
    return true;
}

enum { CURVE_POINTS = 25 };
static bool curve(const lw_diode *d, lw_value *out, lw_arena *arena, lw_error *err)
{
    double *v = lw_arena_take(arena, CURVE_POINTS, sizeof *v, err);
    double *a = v ? lw_arena_take(arena, CURVE_POINTS, sizeof *a, err) : NULL;
    if (!a)
        return false;
    lw_diode_curve(d, CURVE_POINTS, v, a);
    out[CURVE_V] = lw_value_list(v, CURVE_POINTS);
    out[CURVE_A] = lw_value_list(a, CURVE_POINTS);
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    static const char *const fits[] = {"five", "three", "steep"};
    const lw_panel_label label = {.voc_v = in[VOC].number,
                                  .isc_a = in[ISC].number,
                                  .vmp_v = in[VMP].number,
                                  .imp_a = in[IMP].number,
                                  .isc_temp_a_per_k = in[ISC_TEMP].given ? in[ISC_TEMP].number : NAN,
                                  .voc_temp_v_per_k = in[VOC_TEMP].given ? in[VOC_TEMP].number : NAN,
                                  .cells = (int)in[CELLS].number};
    lw_diode standard;
    lw_panel_fit fit;
    if (!lw_panel_from_label(&label, &standard, &fit, err))
        return false;
    lw_diode d = lw_diode_at(&standard, in[IRRADIANCE].number, in[CELL_TEMP].number);
    if (in[IRRADIANCE].number == 0.0)
        d.photo_a = 0.0; /* lw_diode_at() keeps a trace of light for its divisions */
    const lw_diode_point max = lw_diode_max_power(&d);
    const double n = standard.ideality_v / (8.617333e-5 * (25.0 + lw_zero_celsius_k) * label.cells);
    out[PHOTO] = lw_value_number(standard.photo_a);
    out[SATURATION] = lw_value_number(standard.saturation_a);
    out[IDEALITY] = lw_value_number(n);
    out[MODIFIED] = lw_value_number(standard.ideality_v);
    out[SERIES] = lw_value_number(standard.series_ohm);
    if (isfinite(standard.shunt_ohm))
        out[SHUNT] = lw_value_number(standard.shunt_ohm);
    out[MAX_W] = lw_value_number(max.w);
    out[MAX_V] = lw_value_number(max.v);
    out[MAX_A] = lw_value_number(max.a);
    out[OUT_VOC] = lw_value_number(lw_diode_open_v(&d));
    out[OUT_ISC] = lw_value_number(lw_diode_short_a(&d));
    if (in[AT].given)
        out[CURRENT] = lw_value_number(lw_diode_current_a(&d, in[AT].number));
    if (!curve(&d, out, arena, err))
        return false;
    if (in[SHADED].given && !shade(in, &d, max.v, out, err))
        return false;
    out[FIT] = lw_value_text(fits[fit]);
    const char *text = note(&label, fit, n, in[SHADED].given, arena, err);
    out[NOTE] = lw_value_text(text);
    return text != NULL;
}

const lw_figure lw_fig_panel = {
    .name = "panel",
    .room = "power",
    .summary = "Diode parameters of a solar panel from its label, and its curve at any light and temperature.",
    .source = "De Soto, Klein & Beckman (2006), Solar Energy 80, 78",
    .limits = "Crystalline silicon; a label is rounded and a panel may give 3 to 10 % less than it says.",
    .example = "voc_v=21.6 isc_a=1.24 vmp_v=17.6 imp_a=1.14 cells=36 irradiance_w_m2=800 cell_temp_c=47 at_v=12.6",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
