/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the steps of planning share: the weather of all draws behind the glass, engines made ready for each kind of
 * lamp, an arena for each thread.
 */
#ifndef LANEWICK_PLAN_WORK_H
#define LANEWICK_PLAN_WORK_H

#include "lanewick/desk.h"

enum {
    LW_WORK_BLOCKS = 20, /* of LW_LANES years: all draws of a final answer */
    LW_WORK_SCREEN = 8,  /* the first of them, for the search */
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
/* What limits the chosen lamps, what would help, the years ahead. */
bool lw_work_explain(lw_plan_work *work, lw_error *err);

#endif
