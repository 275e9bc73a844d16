/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The store: an energy bucket for quick work, or a pack of cells (series groups, the weakest sets the end)
 * with open voltage, resistance, temperature, age and limits; and the box it sits in. docs/models/battery.md,
 * docs/models/box.md.
 */
#ifndef LANEWICK_BATTERY_H
#define LANEWICK_BATTERY_H

#include "lanewick/cell_class.h"
#include "lanewick/error.h"

#include <stdbool.h>

enum { LW_MAX_SERIES = 16 };

typedef enum lw_battery_kind { LW_BATTERY_BUCKET, LW_BATTERY_CELLS } lw_battery_kind;

/* One series group: its cells in parallel, taken together. */
typedef struct lw_group {
    double capacity_ah; /* between the ends of the open voltage curve, at 25 degC */
    double r0_ohm;      /* at once */
    double r1_ohm;      /* slow part, one RC pair */
    double missing_ah;  /* what it lacks when the fullest group is full; 0: balanced at the top */
} lw_group;

typedef struct lw_battery {
    lw_battery_kind kind;
    /* bucket */
    double capacity_wh, charge_efficiency, discharge_efficiency;
    /* both */
    double self_discharge_month; /* share lost in 30 days, 0.03 */
    double capacity_factor;      /* left after ageing, 1 as stated */
    double resistance_factor;    /* grown by ageing, 1 as stated */
    double start_share;          /* on 1 January, 1 full */
    /* cells */
    int series;
    lw_group groups[LW_MAX_SERIES];
    lw_ocv ocv;                  /* of one cell of the class */
    double rc_seconds;           /* time constant of the RC pair */
    double charge_efficiency_ah; /* coulombic, 0.995 */
    double cutoff_v;             /* per cell under load: the lamp goes out; 0: only when the charge is used up */
    double others_cutoff_v;      /* per cell: where other loads than the light end; 0: with the light, at cutoff_v */
    double ceiling_v;            /* per cell, end of charge */
    bool temperature_effects;    /* capacity and resistance change with temperature (cell_class.h) */
    bool load_at_open_v;         /* the load sees the open voltage (simple form); else the terminal voltage */
    bool counts_charge; /* wanted and missing light are counted in ampere-hours (times the mean voltage): simple form */
    double charge_low_c, charge_high_c; /* charging limits of cell temperature, 0 and 45 */
} lw_battery;
lw_battery lw_battery_bucket(double capacity_wh);
/* A pack of series groups of parallel equal cells of a class: capacity [Ah] and 10 s resistance [ohm] of one cell. */
LW_MUST_CHECK bool lw_battery_pack(const lw_cell_class *class, int series, int parallel, double cell_capacity_ah,
                                   double cell_ohm, lw_battery *out, lw_error *err);

double lw_battery_resistance_ohm(const lw_battery *battery); /* whole pack, r0 + r1, with factor, 25 degC */
double lw_battery_usable_ah(const lw_battery *battery);      /* weakest group, with factor, 25 degC; 0 for a bucket */
double lw_battery_nominal_v(const lw_battery *battery);      /* series x mean open voltage; 0 for a bucket */
double lw_battery_usable_wh(const lw_battery *battery);      /* bucket: capacity; pack: charge x mean voltage */

/* Where the pack sits. T' = Teq + (T - Teq) exp(-dt / tau), Teq = air + (sun + own heat) / loss. */
typedef struct lw_box {
    bool follows_air;   /* simple form: pack temperature = air temperature */
    double sunlit_m2;   /* area that the sun meets; 0 in full shade */
    double absorptance; /* white 0.3, grey 0.6, dark 0.9 (common practice) */
    double surface_m2;  /* whole outer surface */
    double loss_w_m2k;  /* still closed box about 8 (from memory) */
    double vent_w_k;    /* what openings carry off; 0 closed */
    double heat_capacity_j_k;
    double charger_heat_share; /* share of the array's power that ends as heat in the box by day */
    double night_heat_w;       /* driver and board, when in the same box */
} lw_box;
lw_box lw_box_default(void);

#endif
