/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Long computations: they wait in line for one thread (which shares its work out to the cores by itself), tell their
 * progress, can be stopped, and keep their answer for a while.
 */
#ifndef LANEWICK_SERVE_JOBS_H
#define LANEWICK_SERVE_JOBS_H

#include "limits.h"

#include "lanewick/error.h"
#include "lanewick/plan.h"

#include <pthread.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum lw_job_state { LW_JOB_WAITING, LW_JOB_RUNNING, LW_JOB_DONE, LW_JOB_FAILED, LW_JOB_STOPPED } lw_job_state;

typedef struct lw_job {
    char id[LW_SERVE_JOB_ID];
    char key[LW_SERVE_WORD]; /* Idempotency-Key of the one who asked, "" for none */
    char *body;
    size_t length;
    uint64_t seed;
    bool lane_only; /* masts, heads and light of want.lane, without the plan */
    lw_job_state state;
    double done; /* 0..1 */
    char what[32];
    char name[LW_SERVE_WORD]; /* of the brief, "" for none */
    unsigned change;          /* counts what there is to tell */
    char *result;             /* JSON, when done */
    lw_plan *plan;            /* the same, to draw sheets from; NULL: the lane only */
    lw_error err;             /* when failed */
    int64_t number;           /* in order of coming */
    atomic_bool stop;
} lw_job;

/* Called without the lock, from the working thread, when a job has something new to tell. */
typedef void lw_jobs_changed(void *payload);

typedef struct lw_jobs {
    pthread_mutex_t lock;
    pthread_cond_t wake;
    pthread_t thread;
    bool runs, ends;
    lw_job *slot[LW_SERVE_JOBS];
    int64_t numbered;
    lw_jobs_changed *changed;
    void *payload;
    const char *store; /* file of the workshop's records, for briefs that take cells from a crate */
} lw_jobs;

LW_MUST_CHECK bool lw_jobs_begin(lw_jobs *jobs, const char *store, lw_jobs_changed *changed, void *payload,
                                 lw_error *err);
/* Stops what runs and waits for it. */
void lw_jobs_end(lw_jobs *jobs);

typedef enum lw_job_added { LW_JOB_NEW, LW_JOB_SAME, LW_JOB_OTHER, LW_JOB_FULL } lw_job_added;

typedef struct lw_job_ask {
    const char *key, *body;
    size_t length;
    uint64_t seed;
    bool lane_only;
} lw_job_ask;

/* A plan of a brief, or of its lane only. With a key that a job of the same question has: that job again (SAME); of
 * another: OTHER. */
lw_job_added lw_jobs_add(lw_jobs *jobs, const lw_job_ask *ask, char id[LW_SERVE_JOB_ID]);

/* The job as JSON (lanewick/serve_json.h), free() it; NULL: no such job. with_result: the answer is a part of it. */
char *lw_jobs_text(lw_jobs *jobs, const char *id, bool with_result);
/* {"jobs": [all, newest first, without their results]}, free() it; NULL: memory is out. */
char *lw_jobs_list(lw_jobs *jobs);
/* A copy of the document of a job that is done, free() it; NULL: not done; *known: there is such a job. */
char *lw_jobs_document(lw_jobs *jobs, const char *id, bool *known);
/* A copy of the plan of a job that is done; *known: there is such a job. */
bool lw_jobs_plan(lw_jobs *jobs, const char *id, lw_plan *plan, bool *known);
/* *change and *ended as they stand; false: no such job. */
bool lw_jobs_look(lw_jobs *jobs, const char *id, unsigned *change, bool *ended);
/* Stops a job that has not ended, forgets one that has; false: no such job. */
bool lw_jobs_stop(lw_jobs *jobs, const char *id);

#endif
