/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Long computations: see jobs.h. The lock guards every field of a job except what only the working thread reads
 * while the job runs (body, seed); a running job is never freed by others.
 */
#include "jobs.h"

#include "lanewick/desk.h"
#include "lanewick/serve_json.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool ended(const lw_job *job)
{
    return job->state != LW_JOB_WAITING && job->state != LW_JOB_RUNNING;
}

static void forget(lw_jobs *jobs, size_t i)
{
    free(jobs->slot[i]->body);
    free(jobs->slot[i]->result);
    free(jobs->slot[i]->plan);
    free(jobs->slot[i]);
    jobs->slot[i] = NULL;
}

typedef struct progress {
    lw_jobs *jobs;
    lw_job *job;
} progress;

static void on_progress(void *payload, double done, const char *what)
{
    const progress *p = payload;
    (void)pthread_mutex_lock(&p->jobs->lock);
    p->job->done = done;
    (void)snprintf(p->job->what, sizeof p->job->what, "%s", what);
    p->job->change++;
    (void)pthread_mutex_unlock(&p->jobs->lock);
    p->jobs->changed(p->jobs->payload);
}

/* The plan as JSON and, in *kept, as values. */
static char *compute_brief(lw_jobs *jobs, lw_job *job, const char *brief, lw_plan **kept, lw_error *err)
{
    progress p = {jobs, job};
    const lw_plan_request request = {.brief = brief,
                                     .brief_length = strlen(brief),
                                     .seed = job->seed,
                                     .progress = on_progress,
                                     .payload = &p,
                                     .stop = &job->stop,
                                     .no_files = true,
                                     .lane_only = job->lane_only};
    lw_plan *plan = malloc(sizeof *plan);
    const bool done = plan && lw_desk_plan(&request, plan, err);
    const bool lane = job->lane_only && done && plan->refused.count == 0;
    char *text = lane ? lw_plan_lane_to_json(plan) : done ? lw_plan_to_json(plan, brief, strlen(brief)) : NULL;
    if (!plan || (done && !text))
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for a plan.");
    *kept = text && !job->lane_only ? plan : NULL;
    if (!*kept)
        free(plan);
    return text;
}

static char *compute(lw_jobs *jobs, lw_job *job, lw_plan **kept, lw_error *err)
{
    char *with_cells = NULL;
    if (!lw_desk_brief_crates(jobs->store, job->body, job->length, &with_cells, err))
        return NULL;
    char *text = compute_brief(jobs, job, with_cells ? with_cells : job->body, kept, err);
    free(with_cells);
    return text;
}

/* The waiting job that came first. */
static lw_job *next(const lw_jobs *jobs)
{
    lw_job *first = NULL;
    for (size_t i = 0; i < LW_SERVE_JOBS; i++) {
        lw_job *job = jobs->slot[i];
        if (job && job->state == LW_JOB_WAITING && (!first || job->number < first->number))
            first = job;
    }
    return first;
}

static void *work(void *payload)
{
    lw_jobs *jobs = payload;
    (void)pthread_mutex_lock(&jobs->lock);
    while (!jobs->ends) {
        lw_job *job = next(jobs);
        if (!job) {
            (void)pthread_cond_wait(&jobs->wake, &jobs->lock);
            continue;
        }
        job->state = LW_JOB_RUNNING;
        job->change++;
        (void)pthread_mutex_unlock(&jobs->lock);
        lw_error err = {0};
        lw_plan *plan = NULL;
        char *result = compute(jobs, job, &plan, &err);
        (void)pthread_mutex_lock(&jobs->lock);
        const bool stopped = atomic_load(&job->stop);
        job->result = stopped ? NULL : result;
        job->plan = stopped ? NULL : plan;
        job->err = err;
        job->state = stopped ? LW_JOB_STOPPED : result ? LW_JOB_DONE : LW_JOB_FAILED;
        job->done = job->state == LW_JOB_DONE ? 1.0 : job->done;
        job->change++;
        if (stopped) {
            free(result);
            free(plan);
        }
        (void)pthread_mutex_unlock(&jobs->lock);
        jobs->changed(jobs->payload);
        (void)pthread_mutex_lock(&jobs->lock);
    }
    (void)pthread_mutex_unlock(&jobs->lock);
    return NULL;
}

bool lw_jobs_begin(lw_jobs *jobs, const char *store, lw_jobs_changed *changed, void *payload, lw_error *err)
{
    *jobs = (lw_jobs){.changed = changed, .payload = payload, .store = store};
    (void)pthread_mutex_init(&jobs->lock, NULL);
    (void)pthread_cond_init(&jobs->wake, NULL);
    if (sodium_init() < 0 || pthread_create(&jobs->thread, NULL, work, jobs) != 0)
        return lw_fail(err, LW_STORAGE, "", "The system gives no thread for the long computations.");
    jobs->runs = true;
    return true;
}

void lw_jobs_end(lw_jobs *jobs)
{
    if (!jobs->runs)
        return;
    (void)pthread_mutex_lock(&jobs->lock);
    jobs->ends = true;
    for (size_t i = 0; i < LW_SERVE_JOBS; i++)
        if (jobs->slot[i])
            atomic_store(&jobs->slot[i]->stop, true);
    (void)pthread_cond_signal(&jobs->wake);
    (void)pthread_mutex_unlock(&jobs->lock);
    (void)pthread_join(jobs->thread, NULL);
    for (size_t i = 0; i < LW_SERVE_JOBS; i++)
        if (jobs->slot[i])
            forget(jobs, i);
    jobs->runs = false;
}

static int place_of(const lw_jobs *jobs, const char *id)
{
    for (int i = 0; i < LW_SERVE_JOBS; i++)
        if (jobs->slot[i] && strcmp(jobs->slot[i]->id, id) == 0)
            return i;
    return -1;
}

/* An empty slot; if there is none, that of the job that ended and came first. -1: all wait or run. */
static int room(lw_jobs *jobs)
{
    int oldest = -1;
    for (int i = 0; i < LW_SERVE_JOBS; i++) {
        const lw_job *job = jobs->slot[i];
        if (!job)
            return i;
        if (ended(job) && (oldest < 0 || job->number < jobs->slot[oldest]->number))
            oldest = i;
    }
    if (oldest >= 0)
        forget(jobs, (size_t)oldest);
    return oldest;
}

static lw_job *new_job(const lw_job_ask *ask)
{
    const size_t length = ask->length;
    unsigned char random[(LW_SERVE_JOB_ID - 1) / 2];
    lw_job *job = calloc(1, sizeof *job);
    char *copy = malloc(length + 1);
    if (!job || !copy) {
        free(job);
        free(copy);
        return NULL;
    }
    memcpy(copy, ask->body, length);
    copy[length] = '\0';
    randombytes_buf(random, sizeof random);
    (void)sodium_bin2hex(job->id, sizeof job->id, random, sizeof random);
    (void)snprintf(job->key, sizeof job->key, "%s", ask->key);
    (void)snprintf(job->what, sizeof job->what, "waiting");
    lw_brief_title(copy, length, job->name, sizeof job->name);
    job->body = copy;
    job->length = length;
    job->seed = ask->seed;
    job->lane_only = ask->lane_only;
    return job;
}

/* The job with this key, if any. */
static const lw_job *same_key(const lw_jobs *jobs, const char *key)
{
    for (size_t i = 0; key[0] && i < LW_SERVE_JOBS; i++)
        if (jobs->slot[i] && strcmp(jobs->slot[i]->key, key) == 0)
            return jobs->slot[i];
    return NULL;
}

static bool same_ask(const lw_job *job, const lw_job_ask *ask)
{
    return job->length == ask->length && job->seed == ask->seed && job->lane_only == ask->lane_only &&
           memcmp(job->body, ask->body, ask->length) == 0;
}

lw_job_added lw_jobs_add(lw_jobs *jobs, const lw_job_ask *ask, char id[LW_SERVE_JOB_ID])
{
    lw_job_added added = LW_JOB_FULL;
    (void)pthread_mutex_lock(&jobs->lock);
    const lw_job *before = same_key(jobs, ask->key);
    if (before) {
        added = same_ask(before, ask) ? LW_JOB_SAME : LW_JOB_OTHER;
        memcpy(id, before->id, LW_SERVE_JOB_ID);
    } else {
        const int place = jobs->ends ? -1 : room(jobs);
        lw_job *job = place >= 0 ? new_job(ask) : NULL;
        if (job) {
            job->number = jobs->numbered++;
            jobs->slot[place] = job;
            memcpy(id, job->id, LW_SERVE_JOB_ID);
            added = LW_JOB_NEW;
            (void)pthread_cond_signal(&jobs->wake);
        }
    }
    (void)pthread_mutex_unlock(&jobs->lock);
    return added;
}

static char *said_of(const lw_job *job, bool with_result)
{
    static const char *const states[] = {"waiting", "running", "done", "failed", "stopped"};
    const lw_job_said said = {.id = job->id,
                              .state = states[job->state],
                              .what = job->what,
                              .name = job->name,
                              .done = job->done,
                              .result = with_result ? job->result : NULL,
                              .err = job->state == LW_JOB_FAILED ? &job->err : NULL};
    return lw_job_to_json(&said);
}

static int newer_first(const void *a, const void *b)
{
    const lw_job *const *one = a, *const *other = b;
    return (*one)->number > (*other)->number ? -1 : 1;
}

char *lw_jobs_list(lw_jobs *jobs)
{
    char *text = NULL;
    size_t size, n = 0;
    const lw_job *all[LW_SERVE_JOBS];
    FILE *out = open_memstream(&text, &size);
    if (!out)
        return NULL;
    bool whole = fputs("{\"jobs\":[", out) >= 0;
    (void)pthread_mutex_lock(&jobs->lock);
    for (size_t i = 0; i < LW_SERVE_JOBS; i++)
        if (jobs->slot[i])
            all[n++] = jobs->slot[i];
    qsort(all, n, sizeof(const lw_job *), newer_first);
    for (size_t i = 0; i < n; i++) {
        char *one = said_of(all[i], false);
        whole = one && fprintf(out, "%s%s", i ? "," : "", one) > 0 && whole;
        free(one);
    }
    (void)pthread_mutex_unlock(&jobs->lock);
    whole = fputs("]}", out) >= 0 && whole;
    if (fclose(out) == 0 && whole)
        return text;
    free(text);
    return NULL;
}

char *lw_jobs_text(lw_jobs *jobs, const char *id, bool with_result)
{
    (void)pthread_mutex_lock(&jobs->lock);
    const int place = place_of(jobs, id);
    char *text = place >= 0 ? said_of(jobs->slot[place], with_result) : NULL;
    (void)pthread_mutex_unlock(&jobs->lock);
    return text;
}

char *lw_jobs_document(lw_jobs *jobs, const char *id, bool *known)
{
    (void)pthread_mutex_lock(&jobs->lock);
    const int place = place_of(jobs, id);
    const char *result = place >= 0 ? jobs->slot[place]->result : NULL;
    char *copy = result ? strdup(result) : NULL;
    *known = place >= 0;
    (void)pthread_mutex_unlock(&jobs->lock);
    return copy;
}

bool lw_jobs_plan(lw_jobs *jobs, const char *id, lw_plan *plan, bool *known)
{
    (void)pthread_mutex_lock(&jobs->lock);
    const int place = place_of(jobs, id);
    const lw_plan *kept = place >= 0 ? jobs->slot[place]->plan : NULL;
    *known = place >= 0;
    if (kept)
        memcpy(plan, kept, sizeof *plan);
    (void)pthread_mutex_unlock(&jobs->lock);
    return kept != NULL;
}

bool lw_jobs_look(lw_jobs *jobs, const char *id, unsigned *change, bool *is_ended)
{
    (void)pthread_mutex_lock(&jobs->lock);
    const int place = place_of(jobs, id);
    if (place >= 0) {
        *change = jobs->slot[place]->change;
        *is_ended = ended(jobs->slot[place]);
    }
    (void)pthread_mutex_unlock(&jobs->lock);
    return place >= 0;
}

bool lw_jobs_stop(lw_jobs *jobs, const char *id)
{
    (void)pthread_mutex_lock(&jobs->lock);
    const int place = place_of(jobs, id);
    if (place >= 0 && ended(jobs->slot[place])) {
        forget(jobs, (size_t)place);
    } else if (place >= 0) {
        lw_job *job = jobs->slot[place];
        atomic_store(&job->stop, true);
        if (job->state == LW_JOB_WAITING)
            job->state = LW_JOB_STOPPED;
        job->change++;
    }
    (void)pthread_mutex_unlock(&jobs->lock);
    if (place >= 0)
        jobs->changed(jobs->payload);
    return place >= 0;
}
