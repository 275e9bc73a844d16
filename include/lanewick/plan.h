/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The plan, format lanewick.plan/1: what to build for a brief, how many nights a year it goes dark, what limits
 * it, what it costs, what was assumed - or why it is refused. Every key: docs/plan.md. Method: docs/models/sizing.md.
 * The stages are functions from values to values; desk/plan_brief.c walks them in order.
 */
#ifndef LANEWICK_PLAN_H
#define LANEWICK_PLAN_H

#include "lanewick/brief.h"
#include "lanewick/climate.h"
#include "lanewick/nights.h"
#include "lanewick/plan_mast.h"
#include "lanewick/sizing.h"
#include "lanewick/system.h"
#include "lanewick/wired.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum {
    LW_PLAN_OPTIONS = 12, /* alternatives shown for each kind of lamp */
    LW_PLAN_REFUSALS = 16,
    LW_PLAN_CAUTIONS = 40,
    LW_PLAN_PARTS = 96,
    LW_PLAN_YEARS = 15,
    LW_PLAN_PACK_CELLS = LW_SHELF_CELLS, /* cells named one by one */
    LW_PLAN_CELL_ID = 33
};

/* ---- designs: the parts of one lamp, as places in the shelf ---- */

typedef struct lw_design {
    int panel, panels; /* kind, how many side by side */
    int cell, series, parallel;
    int charger, driver;
    int board;    /* -1: one that fits is bought, its price is not counted */
    bool trimmed; /* the late night is turned down to want.least_late_level */
    int head;     /* of the shelf, from 1; 0: not told by name */
} lw_design;

double lw_design_panel_w(const lw_shelf *shelf, const lw_design *design);
/* Where its lamp goes off, V a group under load: the higher of the driver's stop and the board's (without a board the
 * class's cut-off). */
double lw_design_cutoff_v(const lw_shelf *shelf, const lw_design *design);
double lw_design_pack_wh(const lw_shelf *shelf, const lw_design *design); /* nominal voltage x rated capacity */
bool lw_design_same(const lw_design *a, const lw_design *b);
/* "2 x 20 W panel, 3 x 4 cells" */
void lw_design_text(const lw_shelf *shelf, const lw_design *design, char *out, size_t size);
/* All parts of one lamp. */
int64_t lw_design_cost_minor(const lw_shelf *shelf, const lw_design *design);

/* The cells' state at the start of a year of the plan, as shares of the state today. */
typedef struct lw_worn {
    double capacity_factor, resistance_factor, panel_factor;
} lw_worn;

/* The electrical system of a design, for the night simulation. LW_WRONG_INPUT: a label that no diode can have,
 * a schedule out of range. */
LW_MUST_CHECK bool lw_plan_system(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design,
                                  const lw_worn *worn, double tilt_deg, double facing_deg, lw_system *out,
                                  lw_error *err);
/* The schedule of a lamp, as wished or trimmed. Returns the number of spans. */
int lw_plan_spans(const lw_lamp_kind *lamp, bool trimmed, double least_late_level, lw_span out[LW_MAX_SPANS]);
/* The same with the hours and the level that a switch made by hand keeps. */
int lw_plan_lamp_spans(const lw_brief *brief, const lw_lamp_kind *lamp, bool trimmed, lw_span out[LW_MAX_SPANS]);
/* Wear of cells of a class at the middle of year number `year` (1: the first; 0: today) from the way the pack lives. */
lw_worn lw_worn_after(const lw_cell_class *class, double ceiling_v, double health, const lw_nights_summary *life,
                      double year);
/* The same for a design of the shelf. */
lw_worn lw_plan_worn(const lw_shelf *shelf, const lw_design *design, const lw_nights_summary *life, double year);

/* Fills every lamp's burn and switch_standby_a when the brief wants a switch made by hand. LW_NOT_COMPUTABLE: none can
 * be made for any pack that the chargers fill. About 100 kB of scratch, given back. */
LW_MUST_CHECK bool lw_plan_switching(lw_brief *brief, lw_arena *scratch, lw_error *err);

/* ---- hard limits (core/plan/limits.c) ---- */

typedef struct lw_refusal {
    char id[32];            /* "sealed_box" */
    char reason[LW_REASON]; /* what is wrong, with its numbers */
    char remedy[LW_REASON]; /* what would make it acceptable */
    char source[160];
} lw_refusal;

typedef struct lw_refusals {
    lw_refusal item[LW_PLAN_REFUSALS];
    size_t count;
} lw_refusals;

/* How the box runs while the panel could charge, over all simulated years. */
typedef struct lw_box_life {
    double coldest_c, hottest_c; /* while light falls on the panel */
    double cold_h, hot_h;        /* hours a year below 0 degC and above 45 degC while light falls on the panel */
} lw_box_life;

/* What the brief itself says: box, fuse, protection, cells that must not be used. true: nothing to refuse. */
bool lw_limits_brief(const lw_brief *brief, lw_refusals *out);
/* A kind of cell that may not go into any pack. */
bool lw_limits_cell(const lw_shelf_cell *cell, lw_refusals *out);
/* One design against the limits of voltage and protection; coldest_c: air of the coldest morning. */
bool lw_limits_design(const lw_brief *brief, const lw_design *design, double coldest_c, lw_refusals *out);
/* Charging temperatures of one charger in the box at this place. */
bool lw_limits_box(const lw_shelf_charger *charger, const lw_box_life *life, lw_refusals *out);
/* One refusal of an id is enough. */
void lw_refuse(lw_refusals *out, const lw_refusal *refusal);

/* ---- the possible ways of building a lamp ---- */

/* Lists designs (parallel = 0: still open) that pass every limit. For a charger that goes into none of them, and for
 * cells that may not be used, `refused` tells why. Returns the number, at most `room`. */
size_t lw_plan_designs(const lw_brief *brief, const lw_lamp_kind *lamp, double coldest_c, const lw_box_life *life,
                       lw_design *out, size_t room, lw_refusals *refused);
/* Whether this driver of the shelf can light a white LED from a pack of so many groups; LW_WRONG_INPUT names the volts
 * and what would. */
LW_MUST_CHECK bool lw_driver_lights(const lw_shelf *shelf, int driver, int series, bool lfp, lw_error *err);
/* Tilt of the panel that makes the poorest month richest, measured by light behind the glass for each hour of
 * darkness; 10..60 degrees in steps of 5 (below 10 rain does not wash the glass). About 2 MB of arena, given back. */
LW_MUST_CHECK bool lw_plan_tilt(const lw_brief *brief, const lw_weather_block *weather, double facing_deg,
                                lw_arena *arena, double *tilt_deg, lw_error *err);
/* To the equator where the brief leaves it open. */
double lw_plan_facing_deg(const lw_brief *brief);
/* Hours below 0 and above 45 degC while light falls on the panel, a year. */
lw_box_life lw_plan_box_life(const lw_drive_block *drive, size_t blocks);
/* Air on the coldest morning to plan for: 8 K below the mean minimum of the coldest month. */
double lw_plan_coldest_c(const lw_climate *climate);
/* Most cells in parallel that the shelf has for one lamp of this design. */
int lw_design_most_parallel(const lw_shelf *shelf, const lw_design *design);

/* ---- results of simulated draws ---- */

typedef struct lw_outcome {
    uint32_t years;
    lw_dark_band dark;  /* mean, 5th and 95th percentile of the draws */
    double sure_share;  /* share of the draws that keep the wish */
    double kept_nights; /* so many dark nights a year are not passed in sure_share of the brief of the draws */
    double by_month[LW_MONTHS];
    double unserved_share, lowest_charge_share;
    double panel_month_wh[LW_MONTHS], load_month_wh[LW_MONTHS], spilled_month_wh[LW_MONTHS]; /* a day */
    double full_cycles, pack_low_c, pack_high_c, cold_h, hot_h;
} lw_outcome;
/* Over n >= 1 draws; scratch[n]. */
void lw_outcome_of(const lw_nights_summary *draws, size_t n, double wish, double sure_share, double *scratch,
                   lw_outcome *out);
/* The month with most dark nights, else that with the least spare energy: 1..12. */
int lw_outcome_limit_month(const lw_outcome *outcome);
/* "panel" or "pack": the part of which a quarter more removes more darkness, nights first, then light that is missing.
 */
extern const double lw_plan_quarter_more;
const char *lw_outcome_limit_part(const lw_outcome *more_panel, const lw_outcome *more_pack);

/* ---- choosing for all lamps from one shelf ---- */

typedef struct lw_candidate {
    lw_design design;
    bool keeps; /* the wish, in enough of the draws */
    lw_outcome outcome;
    int64_t cost_minor;
} lw_candidate;

/* Keeps of n candidates those that no other beats in both cost and dark nights, in rising cost with falling dark
 * nights, at most `room` of them, the ends and those around the first that keeps the wish before others. */
size_t lw_plan_front(lw_candidate *candidates, size_t n, size_t room);

typedef struct lw_choice_kind { /* one kind of lamp with its candidates */
    const lw_candidate *candidate;
    size_t count;
    int lamps;
} lw_choice_kind;

typedef struct lw_choice {
    int pick[LW_BRIEF_LAMPS]; /* candidate of each lamp in order of kinds; -1: the shelf has no parts left */
    int64_t cost_minor;
    int64_t bound_minor; /* no choice can cost less: equal to cost_minor when the search was complete */
    bool complete;
    int without; /* lamps that miss the wish or have no parts */
} lw_choice;

/* First as many lamps as possible keep the wish, then as few as possible are trimmed, then the cheapest. Exact by
 * branch and bound; after `most_steps` it stops with the best so far, and bound_minor tells how far from the best it
 * may be. The search is quick when each kind's candidates stand best first: those that keep the wish, the cheap ones
 * before the dear. */
void lw_plan_choose(const lw_shelf *shelf, const lw_choice_kind *kinds, size_t kind_count, long most_steps,
                    lw_choice *out);

/* ---- the plan ---- */

typedef struct lw_option { /* an alternative for one kind of lamp */
    lw_candidate candidate;
    bool chosen;
} lw_option;

typedef struct lw_what_if { /* the chosen lamp with one thing changed */
    char what[96];
    lw_dark_band dark;
    bool given;
} lw_what_if;

typedef struct lw_year_ahead {
    double year; /* 1: the first */
    double capacity_share;
    lw_dark_band dark;
} lw_year_ahead;

typedef struct lw_plan_kind { /* lamps of one kind and one design */
    size_t kind;              /* in brief.want.lamp */
    int count;
    lw_design design;
    lw_outcome outcome;
    int64_t cost_minor;
    bool keeps;
    int limit_month;    /* 1..12: most dark nights, else least spare energy */
    char limit_what[8]; /* "panel" or "pack" */
    lw_what_if more_panel, more_pack, dim, trim;
    lw_year_ahead ahead[LW_PLAN_YEARS];
    size_t ahead_count;
    lw_worst_month textbook;      /* what the worst-month method would say, for comparison */
    double night_h[LW_MONTHS];    /* mean hours of darkness */
    double load_wh_night;         /* mean over the year, at the pack */
    double file_dark_nights;      /* of the brief's own weather year; NAN: none given */
    bool guaranteed;              /* its cells are tested ones with an uncertainty: */
    lw_dark_band guaranteed_dark; /* all groups so much weaker as the weakest one's guaranteed capacity is */
    lw_plan_mast mast;            /* of each of these lamps */
    lw_dusk_board dusk;           /* there: the brief wants a switch made by hand */
    lw_circuit_card circuit;
    char near[240]; /* when the wish is missed: how near it comes and what to buy or trim */
} lw_plan_kind;

typedef struct lw_caution {
    char at[32]; /* the step: "pack", "charging", "wiring", "mast" */
    char text[LW_REASON];
} lw_caution;

typedef struct lw_plan_part {
    char name[LW_NAME];
    int count;
    int64_t price_minor, cost_minor;
} lw_plan_part;

/* The pack of one lamp from a list of tested cells. */
typedef struct lw_plan_pack {
    size_t kind;                      /* in plan.kind */
    int number;                       /* of the lamps of that entry, from 0 */
    size_t first;                     /* in plan.cell_id: parallel cells of group 1, then of group 2, ... */
    double group_ah[LW_MAX_SERIES];   /* sums of the stated capacities */
    double group_mohm[LW_MAX_SERIES]; /* 0: not known */
    double weakest_ah;
    double guaranteed_ah; /* of its weakest group, in nine cases of ten; 0: the cells carry no uncertainty */
} lw_plan_pack;

/* ---- light on a lane (want.lane) ---- */

enum { LW_LANE_FACTORS = 8 };

/* One way of lighting the lane: masts, heads, lumens, late level, and what all lamps of the plan then cost. */
typedef struct lw_lane_row {
    lw_layout layout;   /* with its lumens and its light at full level, maintained */
    double head_w;      /* of one head */
    double level;       /* of the late light; NAN: as the brief's schedule says */
    bool fed;           /* parts of the shelf keep the wish for every lamp, by the first draws */
    int64_t cost_minor; /* of all lamps of the plan; fed only */
    bool lit;           /* gives the wished light, early and late */
    bool chosen;
} lw_lane_row;

/* A step of the night: average, minimum and uniformity of a new and clean head, and after the planned years. */
typedef struct lw_lane_step {
    lw_span span;
    lw_field_sum fresh, worn;
} lw_lane_step;

/* An hour of the local clock, mean of the nights in which it is dark. */
typedef struct lw_lane_hour {
    int hour;
    double dark_share, level;      /* nights in which it is dark for at least a part, and light in the dark part */
    double average_lx, minimum_lx; /* after the planned years */
} lw_lane_hour;

typedef struct lw_plan_lane {
    bool given;
    lw_lane_row chosen;
    lw_lamp lamp[LW_BRIEF_LAMPS]; /* the masts of the lane, by number */
    lw_lane_step step[LW_MAX_SPANS];
    size_t step_count;
    lw_lane_hour hour[24];
    size_t hour_count;
    double threshold_increment_pct;
    lw_lane_row by_masts[LW_BRIEF_LAMPS], by_height[LW_LAYOUT_CHOICES], by_light[LW_LANE_FACTORS],
        by_late[LW_LANE_FACTORS];
    size_t masts_count, height_count, light_count, late_count;
    long ways, sized; /* of standing that meet the light; of lamps that went through the nights */
} lw_plan_lane;

/* The lamp of a way: its watts, lumens, schedule, head and mast. */
void lw_lane_lamp(const lw_brief *brief, const lw_lane_row *row, lw_lamp_kind *out);
/* Whether a row, its light worked out, gives the wished light, the late one too. */
bool lw_lane_gives_light(const lw_lane_want *want, const lw_lane_row *row);
/* The schedule of the lane's lamps with the late light at a level, NAN: as the brief says. Number of spans. */
size_t lw_lane_spans(const lw_brief *brief, double level, lw_span out[LW_BRIEF_STEPS]);
/* Masts, light by step and by hour of the chosen row; spans: the schedule that the plan keeps. Arena given back. */
LW_MUST_CHECK bool lw_plan_lane_light(const lw_brief *brief, const lw_span *spans, size_t span_count, lw_arena *arena,
                                      lw_plan_lane *lane, lw_error *err);

typedef struct lw_plan {
    lw_brief brief;
    uint64_t seed;
    lw_climate climate;
    double coldest_c;
    lw_box_life box;
    double tilt_deg, facing_deg;
    lw_refusals refused;  /* any: the plan is refused and holds nothing to build from */
    lw_refusals left_out; /* parts of the shelf that no lamp may use, and why */
    lw_plan_kind kind[LW_BRIEF_LAMPS];
    size_t kind_count;
    int lamps_without; /* lamps for which the shelf has no parts left */
    lw_option option[LW_BRIEF_KINDS][LW_PLAN_OPTIONS];
    size_t option_count[LW_BRIEF_KINDS];
    lw_plan_part part[LW_PLAN_PARTS];
    size_t part_count;
    int64_t cost_minor, bound_minor;
    bool choice_complete;
    lw_caution caution[LW_PLAN_CAUTIONS];
    size_t caution_count;
    bool keeps; /* every lamp keeps the wish */
    long simulated_years;
    lw_plan_pack pack[LW_BRIEF_LAMPS]; /* of lamps whose cells are listed one by one */
    size_t pack_count;
    char cell_id[LW_PLAN_PACK_CELLS][LW_PLAN_CELL_ID];
    size_t cell_count;
    lw_plan_lane lane;
} lw_plan;

/* "path"; "path (2)" for the second entry of the plan where several are built of that kind of lamp. Labels and files of
 * sheets carry the same number. */
char *lw_plan_kind_name(const lw_plan *plan, size_t i, char *out, size_t size);
/* Lamps of a kind of the brief for which the shelf has no parts left. */
int lw_plan_lacking(const lw_plan *plan, size_t kind);
/* From the ground to the top of the mast. */
double lw_plan_mast_height_m(const lw_plan *plan, const lw_plan_kind *kind);
/* A mast for every chosen lamp, in the order of the kinds; one that does not stand refuses the plan. */
void lw_plan_masts(lw_plan *plan);
/* What the checked masts of all lamps need beside their poles. */
typedef struct lw_mast_goods {
    int cement_bags, sand_buckets, stone_buckets; /* of 50 kg, of 20 litres */
    int plates;                                   /* base plates with their anchor bolts */
    int fixings;                                  /* sets of bolts with lock nuts */
} lw_mast_goods;
lw_mast_goods lw_plan_mast_goods(const lw_plan *plan);
int lw_plan_cement_bags(double concrete_m3);
/* Cost of what is bought for all lamps together, in whole bags of cement: the sum of the plan less the lamps' own. */
int64_t lw_plan_shared_minor(const lw_plan *plan);

/* Parts of all chosen lamps with their masts, and their exact sum. */
void lw_plan_parts(lw_plan *plan);
/* What is wired in each chosen lamp: the switch made by hand, test points, charging over the year. The scratch (2 MB)
 * is given back. */
void lw_plan_wire(lw_plan *plan, lw_arena *scratch);
/* What can hurt, at its step. */
void lw_plan_cautions(lw_plan *plan);

/* From the text of a plan or of a brief: the brief's own text (free() it), the seed (1 for a brief). A plan can be
 * repeated from these two to the last bit, so a printed plan is computed anew. */
LW_MUST_CHECK bool lw_plan_source(const char *text, size_t length, char **brief, uint64_t *seed, lw_error *err);

/* Whether a JSON text names this format. */
bool lw_document_is(const char *text, size_t length, const char *format);
/* A brief with a wish for a lane (lanewick.lane-wish/1) as its want.lane, in place of its lamps and their light; with
 * `late` in the wish also in place of its schedule. free(*brief). */
LW_MUST_CHECK bool lw_brief_with_lane(const char *brief_text, size_t brief_length, const char *wish_text,
                                      size_t wish_length, char **brief, lw_error *err);

/* The plan as JSON text; free() it. NULL when memory is out. */
LW_MUST_CHECK char *lw_plan_lane_to_json(const lw_plan *plan); /* its part "lane" alone */
LW_MUST_CHECK char *lw_plan_to_json(const lw_plan *plan, const char *brief_text, size_t brief_length);

#endif
