/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner pieces of the night simulation: a system's constants worked out once, the weather behind the glass, and
 * one step of the store.
 */
#ifndef LANEWICK_CORE_POWER_MODEL_H
#define LANEWICK_CORE_POWER_MODEL_H

#include "lanewick/system.h"
#include "lanewick/weather.h"

/* A pack as one store: its charge is counted in the weakest group, empty at 0, full at full_ah; group g holds
 * charge + lift_ah[g]. */
typedef struct lw_pack_model {
    int series;
    bool equal; /* all groups alike */
    double full_ah;
    double capacity_ah[LW_MAX_SERIES], lift_ah[LW_MAX_SERIES], r_ohm[LW_MAX_SERIES];
    double r0_ohm, r1_ohm; /* of the whole pack, 25 degC */
    lw_ocv ocv;
} lw_pack_model;
void lw_pack_prepare(const lw_battery *battery, lw_pack_model *out);
double lw_pack_open_v(const lw_pack_model *pack, double charge_ah);
/* Charge at which the first group reaches cutoff_v while current_a flows through a resistance grown by
 * resistance_share; 0 when cutoff_v is 0. */
double lw_pack_floor_ah(const lw_pack_model *pack, double cutoff_v, double current_a, double resistance_share);

/* Everything that does not change from step to step. */
typedef struct lw_model {
    const lw_system *system;
    lw_pack_model pack;
    lw_diode array; /* all panels, at standard conditions */
    lw_draw draw;
    double array_w;      /* rated panels: all of them */
    double full_v;       /* end of charge of the pack */
    double nominal_v;    /* mean open voltage of the pack */
    double floor_draw_a; /* current of the full light at the cut-off voltage */
    double full_light_w; /* what full light takes at the pack, for counting */
} lw_model;
void lw_model_prepare(const lw_system *system, lw_model *out);

/* Power at the panel's maximum [W], of the whole array; light_w_m2 behind glass and dirt. */
double lw_array_max_w(const lw_model *model, double light_w_m2, double cell_c);
/* What a tracking charger brings to the pack side from it [W]. */
double lw_tracked_w(const lw_charger *charger, double panel_w);

typedef struct lw_step_in {
    double hours; /* length of the step */
    double light_w_m2, cell_c, pack_c;
    double level_h; /* hours x level asked for */
    double other_w; /* standby and other loads with a power */
} lw_step_in;
typedef struct lw_step_out {
    double panel_wh, panel_ah, spilled_wh, load_wh;
    double wanted_wh, missing_wh, other_missing_wh, dimmed_wh;
    double taken; /* out of the store, in its unit */
    bool blocked; /* the panel could charge but the pack was outside its charging temperatures */
} lw_step_out;
typedef struct lw_store {
    double charge; /* Wh or Ah */
    double rc_v;   /* voltage over the RC pair, positive after discharge */
} lw_store;
double lw_store_full(const lw_model *model);
void lw_store_step(const lw_model *model, lw_store *store, const lw_step_in *in, lw_step_out *out);
void lw_bucket_step(const lw_model *model, lw_store *store, const lw_step_in *in, lw_step_out *out);
void lw_cells_step(const lw_model *model, lw_store *store, const lw_step_in *in, lw_step_out *out);
/* Factor by which the light is turned down at a share of charge. */
double lw_dim_factor(const lw_load *load, double charge_share);

/* Temperature the box strives to, and how far it gets in an hour. */
double lw_box_target_c(const lw_system *system, double array_w, double air_c, double ghi_w_m2, double level);
double lw_box_hour_share(const lw_box *box);

#endif
