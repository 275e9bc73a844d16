/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure panel_match: how much of a panel's power reaches a pack that is tied to it directly.
 */
#include "lanewick/cell_class.h"
#include "lanewick/figure.h"
#include "lanewick/panel.h"

#include <math.h>
#include <stdio.h>

enum {
    VOC,
    ISC,
    VMP,
    IMP,
    CELLS,
    ISC_TEMP,
    VOC_TEMP,
    PACK_SERIES,
    CLASS,
    PACK_V,
    BLOCKING,
    WIRE,
    IRRADIANCE,
    CELL_TEMP
};
static const lw_input inputs[] = {
    [VOC] = {"voc_v", "V", "open voltage on the label", LW_NUMBER, 0.3, 1000.0, NULL, NULL, 0, 0},
    [ISC] = {"isc_a", "A", "short-circuit current on the label", LW_NUMBER, 1e-3, 100.0, NULL, NULL, 0, 0},
    [VMP] = {"vmp_v", "V", "voltage at the point of highest power", LW_NUMBER, 0.1, 1000.0, NULL, NULL, 0, 0},
    [IMP] = {"imp_a", "A", "current at the point of highest power", LW_NUMBER, 1e-4, 100.0, NULL, NULL, 0, 0},
    [CELLS] = {"cells", "", "panel cells in series", LW_INTEGER, 1.0, 1000.0, NULL, NULL, 0, 0},
    [ISC_TEMP] = {"isc_temp_a_per_k", "A/K", "change of Isc with temperature; left out: +0.05 %", LW_NUMBER, -1.0, 1.0,
                  NULL, "", 0, 0},
    [VOC_TEMP] = {"voc_temp_v_per_k", "V/K", "change of Voc with temperature; left out: -0.34 %", LW_NUMBER, -10.0, 0.0,
                  NULL, "", 0, 0},
    [PACK_SERIES] = {"pack_series", "", "groups of the pack in series", LW_INTEGER, 1.0, 16.0, NULL, "3", 0, 0},
    [CLASS] = {"class", "", "voltage class of its cells", LW_CHOICE, 0.0, 0.0, "4v2|4v35|lfp", "4v2", 0, 0},
    [PACK_V] = {"pack_v", "V", "pack voltage; left out: pack_series times the mean of the class", LW_NUMBER, 0.5, 120.0,
                NULL, "", 0, 0},
    [BLOCKING] = {"blocking_v", "V", "drop of the blocking diode", LW_NUMBER, 0.0, 5.0, NULL, "0.35", 0, 0},
    [WIRE] = {"wire_ohm", "ohm", "wires, there and back", LW_NUMBER, 0.0, 100.0, NULL, "0.1", 0, 0},
    [IRRADIANCE] = {"irradiance_w_m2", "W/m2", "effective irradiance", LW_NUMBER, 10.0, 2000.0, NULL, "800", 0, 0},
    [CELL_TEMP] = {"cell_temp_c", "degC", "temperature of the panel's cells", LW_NUMBER, -40.0, 100.0, NULL, "47", 0,
                   0},
};

enum { SHARE, PACK_W, MAX_W, CURRENT, AT_V, BEST_SERIES, BEST_SHARE, NOTE };
static const lw_output outputs[] = {
    [SHARE] = {"share", "", "share of the panel's highest power that reaches the pack", LW_NUMBER},
    [PACK_W] = {"pack_w", "W", "power into the pack", LW_NUMBER},
    [MAX_W] = {"max_w", "W", "highest power of the panel", LW_NUMBER},
    [CURRENT] = {"current_a", "A", "charging current", LW_NUMBER},
    [AT_V] = {"pack_v", "V", "pack voltage that was used", LW_NUMBER},
    [BEST_SERIES] = {"best_series", "", "number of groups in series that fits this panel best", LW_INTEGER},
    [BEST_SHARE] = {"best_share", "", "the share with that number", LW_NUMBER},
    [NOTE] = {"note", "", "what to do", LW_TEXT},
};

typedef struct tie {
    lw_diode d;
    double blocking_v, wire_ohm, max_w;
} tie;

static double tied_a(const tie *t, double pack_v)
{
    lw_diode d = t->d;
    d.series_ohm += t->wire_ohm;
    return fmax(0.0, lw_diode_current_a(&d, pack_v + t->blocking_v));
}

static double share_at(const tie *t, double pack_v)
{
    return t->max_w > 0.0 ? tied_a(t, pack_v) * pack_v / t->max_w : 0.0;
}

/* The most groups that still fill: judged by the mean share at mean and at full voltage. */
static int best_series(const tie *t, const lw_cell_class *class, double mean_v)
{
    int best = 1;
    double most = 0.0;
    for (int s = 1; s <= 16; s++) {
        const double worth = 0.5 * (share_at(t, s * mean_v) + share_at(t, s * class->ceiling_v));
        if (worth > most) {
            most = worth;
            best = s;
        }
    }
    return best;
}

static const char *note(double share, double full_share, int series, int best, lw_arena *arena, lw_error *err)
{
    char text[300];
    if (full_share < 0.3)
        (void)snprintf(text, sizeof text,
                       "The panel cannot fill this pack: at full voltage hardly any current flows. Use %d in series.",
                       best);
    else if (share < 0.8 && best != series)
        (void)snprintf(text, sizeof text,
                       "Only %.0f %% of the panel's power arrives. %d in series fits better; else a tracking charger.",
                       100.0 * share, best);
    else if (share < 0.8)
        (void)snprintf(text, sizeof text,
                       "Only %.0f %% of the panel's power arrives; a tracking charger gives the rest.", 100.0 * share);
    else
        (void)snprintf(text, sizeof text, "A good match for a direct connection.");
    return lw_arena_text(arena, text, err);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const lw_panel_label label = {.voc_v = in[VOC].number,
                                  .isc_a = in[ISC].number,
                                  .vmp_v = in[VMP].number,
                                  .imp_a = in[IMP].number,
                                  .isc_temp_a_per_k = in[ISC_TEMP].given ? in[ISC_TEMP].number : NAN,
                                  .voc_temp_v_per_k = in[VOC_TEMP].given ? in[VOC_TEMP].number : NAN,
                                  .cells = (int)in[CELLS].number};
    const lw_cell_class *class = lw_cell_class_find(in[CLASS].text);
    lw_diode standard;
    lw_panel_fit fit;
    if (!class || !lw_panel_from_label(&label, &standard, &fit, err))
        return false;
    tie t = {.d = lw_diode_at(&standard, in[IRRADIANCE].number, in[CELL_TEMP].number),
             .blocking_v = in[BLOCKING].number,
             .wire_ohm = in[WIRE].number};
    t.max_w = lw_diode_max_power(&t.d).w;
    const int series = (int)in[PACK_SERIES].number;
    const double mean_v = lw_ocv_mean_v(&class->ocv, 0.1, lw_ocv_charge(&class->ocv, class->ceiling_v));
    const double pack_v = in[PACK_V].given ? in[PACK_V].number : series * mean_v;
    const double share = share_at(&t, pack_v);
    const int best = best_series(&t, class, mean_v);
    out[SHARE] = lw_value_number(share);
    out[PACK_W] = lw_value_number(share * t.max_w);
    out[MAX_W] = lw_value_number(t.max_w);
    out[CURRENT] = lw_value_number(tied_a(&t, pack_v));
    out[AT_V] = lw_value_number(pack_v);
    out[BEST_SERIES] = lw_value_integer(best);
    out[BEST_SHARE] = lw_value_number(share_at(&t, best * mean_v));
    const char *text = note(share, share_at(&t, series * class->ceiling_v), series, best, arena, err);
    out[NOTE] = lw_value_text(text);
    return text != NULL;
}

const lw_figure lw_fig_panel_match = {
    .name = "panel_match",
    .room = "power",
    .summary = "Share of a panel's power that reaches a pack tied to it directly: match the cell count first.",
    .source = "De Soto, Klein & Beckman (2006), Solar Energy 80, 78; the panel works at pack voltage plus drops",
    .limits = "One moment of sun; over a year the warm hours count most (defaults 800 W/m2, 47 degC).",
    .caution = "Never tie a bare panel to a lithium pack without a charge limit: it will overcharge and can burn.",
    .example = "voc_v=21.6 isc_a=1.24 vmp_v=17.6 imp_a=1.14 cells=36 pack_series=3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
