/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The brief, format lanewick.brief/1: where the lamps stand, what is wanted, what is on the shelf and how the
 * lamp is built. Every key with an example: docs/brief.md. Ranges are checked when a brief is read; what was
 * left out is filled with the stated default and listed as an assumption.
 *
 *     lw_error err = {0};
 *     lw_brief brief;                     (about 40 kB: give it a home that lasts)
 *     if (!lw_brief_from_json(text, length, &brief, &err)) ...
 */
#ifndef LANEWICK_BRIEF_H
#define LANEWICK_BRIEF_H

#include "lanewick/error.h"
#include "lanewick/lamp_circuit.h"
#include "lanewick/layout.h"
#include "lanewick/load.h"
#include "lanewick/mast_check.h"
#include "lanewick/money.h"
#include "lanewick/price.h"
#include "lanewick/switch_values.h"

#include <stdbool.h>
#include <stddef.h>

enum {
    LW_NAME = 64,
    LW_REASON = 512,      /* bytes of a sentence that tells why, with whole names in it */
    LW_BRIEF_KINDS = 8,   /* kinds of lamp */
    LW_BRIEF_LAMPS = 120, /* lamps in all */
    LW_BRIEF_STEPS = 8,
    LW_BRIEF_LOADS = 4,
    LW_SHELF_KINDS = 12,   /* kinds of each sort of part */
    LW_SHELF_CELLS = 4096, /* cells of one entry that stand one by one */
    LW_ASSUMPTIONS = 96
};

/* What the brief did not say. */
typedef struct lw_assumption {
    char key[72];   /* place of the value in the brief: "place.dust.loss_per_day" */
    char value[40]; /* with its unit */
    char why[120];
} lw_assumption;

typedef struct lw_assumptions {
    lw_assumption item[LW_ASSUMPTIONS];
    size_t count;
} lw_assumptions;

/* What a switch made by hand does to a lamp's nights. */
typedef struct lw_switch_burn {
    double longer_min;    /* burns so much longer than wished each night, mean over the switches that such parts make */
    double spread_min;    /* one standard deviation of that, from lamp to lamp */
    double step_h, level; /* of the timed kinds, with the parts at hand */
    double load_pct;      /* one standard deviation of the night's energy by the timer and the level */
} lw_switch_burn;

enum { LW_BRIEF_SERIES = 16 };

/* Name of a kind of lamp whose brief gives none. */
extern const char lw_lamp_unnamed[];

typedef struct lw_lamp_kind {
    char name[LW_NAME];
    int count;
    double lumens;                /* 0: only the head's watts are known */
    double efficacy_lm_w;         /* light of the head per watt of its LEDs */
    double head_w;                /* electrical power of the LEDs at full light */
    lw_span span[LW_BRIEF_STEPS]; /* at least one */
    size_t span_count;
    lw_other_load load[LW_BRIEF_LOADS]; /* from the same pack, at clock hours */
    size_t load_count;
    lw_switch_burn burn; /* filled by lw_plan_switching(), for the pack with which it burns longest */
    double switch_standby_a[2][LW_BRIEF_SERIES + 1]; /* [lfp][groups in series]; NAN: no such switch can be made */
    int head;       /* of the shelf, from 1; 0: not told by name (its price is among the parts) */
    double light_m; /* height of the light; 0: as build.mast says */
} lw_lamp_kind;

typedef struct lw_place {
    char name[LW_NAME];
    double lat_deg, lon_deg, elev_m; /* elev_m NAN: that of the climate's neighbours */
    double utc_offset_h;
    double horizon_deg[36]; /* height of the skyline every 10 degrees from north, clockwise */
    double albedo;
    double coldest_c; /* air of the coldest morning; NAN: from the climate */
    double dust_loss_per_day, dust_most_loss, dust_wash_mm;
    int dust_cleaned_days; /* 0: only rain cleans */
    bool wind_given;       /* false: no mast is checked */
    lw_wind_site wind;
    double return_years;           /* of a ten-minute mean */
    char wind_source[2 * LW_NAME]; /* who says so: the local code, a map; "": not told */
    bool monthly;                  /* the brief's own monthly means */
    double ghi_kwh_m2_day[12];
    double t_mean_c[12], t_range_c[12], wind_10m_ms[12], rain_mm[12]; /* NAN: not given */
    char weather_file[256];                                           /* "": none */
} lw_place;

/* Light on a lane instead of lumens of a lamp: the plan finds masts, heads, lumens and how far they may be turned down
 * late at night. */
typedef struct lw_lane_want {
    bool given;
    lw_layout_request ask; /* ask.lumens_per_w: light of a head per watt of its LEDs */
    bool count_told;       /* the brief says how many of that kind */
    size_t kind;           /* in want.lamp: the lamps that are sought; until then of 1 W */
    bool late_given;
    lw_span late; /* level NAN: from the wanted late light */
} lw_lane_want;

typedef struct lw_want {
    lw_lamp_kind lamp[LW_BRIEF_KINDS];
    size_t lamp_count;
    double dark_nights_per_year; /* at most so many, in the worst planned year */
    double planned_years;
    double sure_share;       /* share of the draws that must keep the wish: 0.5..0.99 */
    double dusk_sun_deg;     /* altitude of the sun at which the dusk switch works: -12..0 */
    double least_late_level; /* light that is enough after the first half of the night when a plan must trim; 1: none */
    bool hand_switch;        /* a switch made at the bench; false: the driver has its own */
    lw_switch_kind switch_kind;
    lw_switch_sensor switch_sensor; /* what tells it that it is dark */
    bool dims;                      /* light is turned down while the pack is low */
    lw_dim dim;                     /* below this share of charge to this factor */
    lw_lane_want lane;
} lw_want;

typedef enum lw_shelf_class { LW_SHELF_4V2, LW_SHELF_4V35, LW_SHELF_LFP, LW_SHELF_UNKNOWN } lw_shelf_class;
typedef enum lw_shelf_verdict {
    LW_SHELF_SOUND,
    LW_SHELF_TIRED,
    LW_SHELF_UNSURE,
    LW_SHELF_SCRAP,
    LW_SHELF_UNTESTED
} lw_shelf_verdict;

typedef struct lw_shelf_panel {
    char name[LW_NAME];
    double watts, voc_v, isc_a, vmp_v, imp_a; /* label, standard test conditions */
    int cells;
    bool label_assumed;   /* only the watts were given: the four values are those of a common panel */
    double tolerance_pct; /* one standard deviation of the real power around the label */
    int count;
    int64_t price_minor;
} lw_shelf_panel;

/* Why cells of a crate are no part of a plan. */
typedef enum lw_left_reason {
    LW_LEFT_PACKED, /* they sit in a pack */
    LW_LEFT_SCRAP,
    LW_LEFT_UNSURE, /* or never judged, or of unknown capacity */
    LW_LEFT_OTHER_CLASS,
    LW_LEFT_WEAKEST, /* beyond the most that a plan can name */
    LW_LEFT_REASONS
} lw_left_reason;

typedef struct lw_shelf_cell {
    char name[LW_NAME];
    lw_shelf_class voltage_class;
    lw_shelf_verdict verdict;
    double capacity_ah, capacity_sd_pct; /* as measured, and spread of a group around it */
    double health;                       /* capacity / capacity when new, 0.3..1: says how fast it ages from here */
    double resistance_ohm;
    double lowest_found_v; /* lowest voltage at which one of them was found; NAN: not said */
    bool recovered;        /* found between 2.0 and 2.5 V, brought back slowly under watch and fully tested */
    int count;
    int64_t price_minor;
    char cells_file[256]; /* a list of tested cells instead of count, capacity and resistance; "": none.
                             With listed cells: where they came from, it is not read */
    char crate[LW_NAME];  /* a crate of the workshop's store; "": none */
    int listed;           /* cells that the brief holds one by one (lanewick/brief_cells.h); 0: none */
    int left[LW_LEFT_REASONS];
} lw_shelf_cell;

typedef enum lw_shelf_charging { LW_SHELF_DIRECT, LW_SHELF_LINEAR, LW_SHELF_TRACKING } lw_shelf_charging;

typedef struct lw_shelf_charger {
    char name[LW_NAME];
    lw_shelf_charging kind;
    int series_min, series_max; /* groups in series that it charges */
    double end_v_per_cell;      /* where charging stops; NAN: it has no limit of its own */
    double most_a;              /* most charging current; INFINITY: only the panel limits */
    double most_input_v, most_input_w;
    double efficiency; /* conversion, tracking chargers; 1 else */
    double drop_v;     /* blocking diode or the least the linear kind needs */
    double standby_a;
    double cold_stop_c, hot_stop_c; /* NAN: it charges at any temperature */
    int count;
    int64_t price_minor;
} lw_shelf_charger;

typedef struct lw_shelf_board { /* protection circuit of the pack */
    char name[LW_NAME];
    int series;
    bool every_group; /* watches every group */
    bool balances;
    double high_v, low_v; /* per group, where it opens */
    int count;
    int64_t price_minor;
} lw_shelf_board;

typedef enum lw_shelf_driving {
    LW_SHELF_CONSTANT_CURRENT,
    LW_SHELF_RESISTOR,
    LW_SHELF_BUCK,
    LW_SHELF_BOOST
} lw_shelf_driving;

typedef struct lw_shelf_driver {
    char name[LW_NAME];
    lw_shelf_driving kind;
    int series_min, series_max;
    double efficiency, standby_a, most_w;
    double head_v; /* voltage of the LED string at full light; NAN: not given (constant power at any pack voltage) */
    double low_stop_v_per_cell; /* stops taking current below this; NAN: leaves it to the protection circuit */
    bool dims;                  /* can give the steps of a schedule */
    int count;
    int64_t price_minor;
} lw_shelf_driver;

typedef struct lw_shelf_part { /* anything else that each lamp needs */
    char name[LW_NAME];
    int per_lamp, count;
    int64_t price_minor;
} lw_shelf_part;

typedef struct lw_shelf_head { /* LED board and diffuser; its light: want.lane.ask.wish.head */
    char name[LW_NAME];
    double efficacy_lm_w; /* NAN: want.efficacy_lm_w */
    int count;
    int64_t price_minor;
} lw_shelf_head;

typedef struct lw_shelf_mast { /* a pole; one length makes one mast */
    char name[LW_NAME];
    lw_tube pipe;
    size_t material; /* place in LW_MAST_MATERIAL_WORDS */
    double length_m, age_years;
    lw_mast_upper upper; /* second pipe in the top of this one; diameter 0: none */
    double upper_length_m;
    bool wall_measured, welded; /* welded: also spliced, reused or dented */
    int count;
    int64_t price_minor;
} lw_shelf_mast;

typedef struct lw_shelf {
    lw_currency currency;
    lw_shelf_panel panel[LW_SHELF_KINDS];
    lw_shelf_cell cell[LW_SHELF_KINDS];
    lw_shelf_charger charger[LW_SHELF_KINDS];
    lw_shelf_board board[LW_SHELF_KINDS];
    lw_shelf_driver driver[LW_SHELF_KINDS];
    lw_shelf_part part[LW_SHELF_KINDS];
    lw_shelf_head head[LW_SHELF_KINDS]; /* used only with want.lane */
    lw_shelf_mast mast[LW_SHELF_KINDS];
    size_t mast_count;                   /* 0: common steel tubes are bought, price not counted */
    int64_t cement_minor, fixings_minor; /* a bag of 50 kg; bolts and lock nuts of one mast */
    int64_t plate_minor;                 /* base plate with its weld and four anchor bolts */
    size_t panel_count, cell_count, charger_count, board_count, driver_count, part_count, head_count;
    lw_switch_parts switch_parts;
    int64_t switch_price_minor; /* all parts of one switch made by hand; 0 when none is made */
    lw_price
        price[LW_SHELF_PRICES]; /* what more is known of prices; price_minor above is the true cost of a good piece */
    size_t price_count;
    int64_t wage_minor;             /* of one hour at the bench */
    int most_parallel, most_panels; /* per lamp: what the box and the mast can hold */
} lw_shelf;

typedef enum lw_pack_seat { LW_SEAT_BOX, LW_SEAT_HEAD, LW_SEAT_ROOM } lw_pack_seat;

/* Where a mast stands and how. What is left out is taken on the safe side or as common practice. */
typedef struct lw_build_mast {
    double height_m;
    int soil; /* lw_soil; LW_SOIL_SOFT + 1: soil_pa_per_m was given */
    double soil_pa_per_m;
    bool doubled, paved, flooded;
    lw_base_kind base;
    lw_plate_wish plate; /* of base LW_BASE_PLATE */
    double collar_m;     /* NAN: 0.2 m more than the pipe, at least 0.3 m */
    double loose_m, depth_m;
    double head_arm_m, wall_temp_c, panel_above_m, hole_mm;
    bool hill, on_building, people_below, power_line_near, guyed;
} lw_build_mast;

/* How the lamp is built: what the hard limits ask about. */
typedef struct lw_build {
    lw_pack_seat pack_in;        /* its own box, the head, a room where people sleep */
    bool vent, fuse, protection; /* stated or taken as part of the lamp; false: refused */
    lw_reverse_guard reverse;    /* what stands a pack that is joined the wrong way round */
    double box_sun_share;        /* share of the day's sun that falls on the box: 0 in the panel's shade .. 1 */
    double box_absorbs;          /* of that sun: 0.3 white .. 0.9 black */
    double tilt_deg, facing_deg; /* NAN: the plan chooses */
    double wire_ohm;             /* panel to charger and back */
    lw_build_mast mast;
    struct {
        double distance_m;    /* from the head */
        double angle_deg;     /* from straight below the head to the sensor: 0 below, 180 above */
        double incidence_deg; /* between the head's light and where the sensor looks */
        double tube_factor;   /* part of it that the sensor's tube lets through */
    } sensor;
} lw_build;

typedef struct lw_brief {
    char name[LW_NAME];
    lw_place place;
    lw_want want;
    lw_shelf shelf;
    lw_build build;
    lw_assumptions assumed;
} lw_brief;

/* Reads a brief from JSON text. LW_WRONG_INPUT names the key by its path ("want.lamps[2].head_w"), what was
 * given and what is possible; an unknown key names the nearest known one. */
LW_MUST_CHECK bool lw_brief_from_json(const char *text, size_t length, lw_brief *brief, lw_error *err);

/* Adds to the list; a full list drops it (the list is longer than all defaults together). */
void lw_assume(lw_assumptions *list, const char *key, const char *why, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Whether the switch named can do what the brief wants: schedule, late level, dimming, drivers. LW_WRONG_INPUT says
 * which circuit can. */
LW_MUST_CHECK bool lw_brief_switch_check(const lw_brief *brief, lw_error *err);

/* The label of a crystalline panel as they are sold (that of the 36-cell 20 W panel used all through the
 * documentation), scaled to its watts and number of cells. */
void lw_shelf_common_label(lw_shelf_panel *panel);
/* What a small charger of a kind does where nothing is told: common practice. */
typedef struct lw_common_charger {
    double drop_v, standby_a, efficiency;
    const char *why;
} lw_common_charger;
const lw_common_charger *lw_shelf_common_charger(lw_shelf_charging kind);
const char *lw_shelf_class_text(lw_shelf_class voltage_class);
const char *lw_shelf_charging_text(lw_shelf_charging kind);
int lw_brief_lamps(const lw_brief *brief); /* lamps of all kinds */

#endif
