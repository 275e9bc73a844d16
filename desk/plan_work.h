/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the steps of planning share: the weather of all draws behind the glass, engines made ready for each kind of
 * lamp, an arena for each thread.
 */
#ifndef LANEWICK_PLAN_WORK_H
#define LANEWICK_PLAN_WORK_H

#include "lanewick/desk.h"

enum {
    LW_WORK_BLOCKS = 10, /* of LW_LANES years: all draws of a final answer */
    LW_WORK_SCREEN = 4,  /* the first of them, for the search */
    LW_WORK_THREADS = 16,
    LW_WORK_DESIGNS = 256, /* ways of building one kind of lamp */
    LW_WORK_POINTS = 640   /* sizes tried for one kind of lamp */
};

/* The weakest real pack of a design, where its cells are listed. */
typedef struct lw_real_pack {
    size_t kind; /* in plan.kind */
    const lw_plan_pack *pack;
} lw_real_pack;

typedef struct lw_plan_work {
    const lw_plan_request *request;
    lw_plan *plan;
    const lw_brief *brief;
    lw_arena arena;
    lw_synth *synth;
    lw_drive_block *drive;                /* [LW_WORK_BLOCKS] */
    lw_engine *engine[LW_BRIEF_KINDS][2]; /* of a kind of lamp, schedule as wished and trimmed */
    lw_arena scratch[LW_WORK_THREADS];
    lw_run_log *log[LW_WORK_THREADS];
    int threads;
    lw_weather_year *file_year; /* the brief's own hours, NULL: none */
    lw_real_pack real[LW_BRIEF_LAMPS];
    size_t real_count;
    double done; /* progress, 0..1 */
} lw_plan_work;

/* Climate, synthetic years, tilt, drive blocks and the box's life. */
bool lw_work_begin(lw_plan_work *work, lw_error *err);
void lw_work_end(lw_plan_work *work);
/* An engine for a kind of lamp and schedule, from any design of it. */
bool lw_work_engine(lw_plan_work *work, size_t kind, bool trimmed, const lw_design *design, lw_error *err);
void lw_work_tell(lw_plan_work *work, double done, const char *what);

/* One simulation to run: a design with something changed. */
typedef struct lw_trial {
    size_t kind;
    const lw_lamp_kind *lamp; /* with its own engine, instead of the brief's kind; NULL: as the brief has it */
    const lw_engine *engine;
    lw_design design;
    double year;                                /* of the plan, 1 the first */
    double panel_scale, pack_scale, load_scale; /* 1 as designed */
    bool dims;                                  /* turned down to half below 30 % of charge */
    size_t blocks;                              /* how many of the draws */
    size_t early; /* end early, at every so many blocks, when it is clear whether the wish is kept; 0: never */
    double margin_fails, margin_keeps; /* clear: so many standard deviations away from the wish */
    const lw_plan_pack *real;          /* its groups instead of the shelf's mean; NULL: none */
    bool life_known;                   /* life is given; else it is found from one block, as new */
    lw_nights_summary life;
    size_t ran; /* blocks that were run */
    bool done;  /* false: not computable, why says it */
    lw_outcome outcome;
    double capacity_share; /* of the pack today, at that age */
    lw_error why;
} lw_trial;
lw_trial lw_trial_of(const lw_plan_work *work, size_t kind, const lw_design *design, size_t blocks);
/* Runs n trials in threads; false with the first error. */
bool lw_work_run(lw_plan_work *work, lw_trial *trials, size_t n, lw_error *err);
/* The trial's worn lamp through the brief's own weather year. */
bool lw_work_own_year(lw_plan_work *work, lw_trial *trial, double *dark_nights, lw_error *err);

/* All sizes worth looking at for one kind of lamp, simulated in full. Returns their number. */
bool lw_work_search(lw_plan_work *work, size_t kind, bool prune, lw_candidate *out, size_t room, size_t *count,
                    lw_error *err);
enum { LW_WORK_CANDIDATES = 40 }; /* sizes that a kind of lamp chooses from */
typedef struct lw_shortlists {
    lw_candidate candidate[LW_BRIEF_KINDS][LW_WORK_CANDIDATES];
    size_t count[LW_BRIEF_KINDS];
} lw_shortlists;
/* Search for each kind of lamp and the choice for all lamps from the one shelf, into the plan; no kinds in the plan:
 * nothing on the shelf makes a lamp. */
LW_MUST_CHECK bool lw_work_choose(lw_plan_work *work, lw_shortlists *lists, lw_error *err);

/* What is known of sizes from lamps of other light: more light, or light turned down less, never needs fewer cells. */
enum { LW_WORK_SEEN = 6000, LW_WORK_LOADS = 32 };
typedef struct lw_load_seen {
    double level, load_wh[2]; /* of lamps of 1 W and 2 W */
} lw_load_seen;
typedef struct lw_size_seen {
    lw_design design; /* with its cells in parallel */
    double head_w, level;
    bool keeps;
} lw_size_seen;
typedef struct lw_size_memory {
    size_t count;
    lw_size_seen seen[LW_WORK_SEEN];
    size_t load_count;
    lw_load_seen load[LW_WORK_LOADS];
} lw_size_memory;

/* A lamp of other light than the brief's kind: its engine, and how far it is turned down late (NAN: as the brief
 * says). */
typedef struct lw_other_light {
    const lw_lamp_kind *lamp;
    const lw_engine *engine;
    double level;
    lw_size_memory *memory;
} lw_other_light;
/* How much is looked at: the cheapest lamp alone, those up to half as dear again, all. */
typedef enum lw_breadth { LW_CHEAPEST, LW_NOT_FAR_DEARER, LW_ALL_WAYS } lw_breadth;
/* The smallest pack that keeps the wish for each way of building it, over the first draws only, in rising cost; none
 * when no part of the shelf can feed it. With LW_CHEAPEST the first of them is the cheapest, others may be missing. */
bool lw_work_sizes(lw_plan_work *work, size_t kind, const lw_other_light *other, lw_breadth breadth, lw_candidate *out,
                   size_t room, size_t *count, lw_error *err);
/* Masts, heads and lumens for want.lane into the plan and the brief's kind of lamp; kinds: candidates of the others. */
bool lw_work_lane(lw_plan_work *work, const lw_choice_kind *kinds, lw_error *err);
/* What limits the chosen lamps, what would help, the years ahead. */
bool lw_work_explain(lw_plan_work *work, lw_error *err);

#endif
