/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Slips into the store, each exactly once: see lanewick/desk_slip.h.
 */
#include "slip_inside.h"
#include "visits.h"

#include "lanewick/records_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { ARENA_BYTES = 3 * (LW_SLIP_READINGS + 2) * (int)sizeof(double) };

void lw_slip_reply_free(lw_slip_reply *reply)
{
    free(reply->answer);
    free(reply->stored);
    free(reply->sent);
    *reply = (lw_slip_reply){0};
}

typedef struct earlier {
    const char *document; /* as it comes now */
    lw_slip_reply *reply;
    bool found;
} earlier;

static bool take_earlier(void *payload, const void *record)
{
    earlier *e = payload;
    const lw_slip_record *slip = record;
    e->found = true;
    e->reply->again = true;
    if (strcmp(slip->document, e->document) == 0) {
        e->reply->answer = strdup(slip->answer);
        return false;
    }
    e->reply->outcome = LW_SLIP_REUSED;
    (void)snprintf(e->reply->field, sizeof e->reply->field, "id");
    (void)snprintf(e->reply->detail, sizeof e->reply->detail,
                   "A slip with the id %s came before and said something else.", slip->id);
    return false;
}

static bool is_about_cell(lw_slip_kind kind)
{
    return kind != LW_SLIP_CRATE;
}

/* The answer tells the cell as it stands now, with its new verdict. */
static bool answer(lw_slip_work *work, lw_error *err)
{
    char *results = lw_results_to_json(work->results, (size_t)work->count);
    char *crate = work->slip.kind == LW_SLIP_CRATE ? lw_crate_to_json(&work->crate) : NULL;
    char *cell =
        is_about_cell(work->slip.kind) && work->cell.id[0] ? lw_slip_cell_json(work->store, work->cell.code) : NULL;
    work->reply->answer = lw_slip_answer_to_json(&work->slip, crate, cell, work->run, results);
    work->run = NULL;
    free(results);
    return work->reply->answer != NULL || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}

static bool keep(lw_slip_work *work, const char *document, lw_error *err)
{
    lw_slip_record record = {.document = document, .answer = work->reply->answer};
    memcpy(record.id, work->slip.id, LW_ID);
    memcpy(record.at, work->slip.at, LW_STAMP);
    (void)snprintf(record.kind, sizeof record.kind, "%s", lw_slip_kind_text(work->slip.kind));
    lw_store_now(work->store, record.taken);
    return lw_store_add(work->store, LW_SLIPS, &record, err);
}

static bool take(lw_slip_work *work, const char *document, lw_error *err)
{
    earlier e = {document, work->reply, false};
    if (!lw_store_each(work->store, LW_SLIPS, "id", work->slip.id, take_earlier, &e, err))
        return false;
    if (e.found)
        return e.reply->outcome != LW_SLIP_TAKEN || e.reply->answer || lw_fail(err, LW_STORAGE, "", "Memory is out.");
    if (!lw_slip_apply(work, err))
        return false;
    if (work->reply->outcome != LW_SLIP_TAKEN)
        return true;
    return (!work->cell.id[0] || lw_desk_judge_cell(work->store, work->cell.code, err)) && answer(work, err) &&
           keep(work, document, err);
}

/* One transaction; anything but a slip that is taken in now leaves the store as it was. */
static bool within(lw_slip_work *work, const char *document, lw_error *err)
{
    char what[40];
    (void)snprintf(what, sizeof what, "slip: %s", lw_slip_kind_text(work->slip.kind));
    if (!lw_store_begin(work->store, what, err))
        return false;
    const bool done = take(work, document, err);
    if (done && work->reply->outcome == LW_SLIP_TAKEN && !work->reply->again)
        return lw_store_commit(work->store, err);
    lw_store_rollback(work->store);
    return done;
}

bool lw_desk_slip(lw_store *store, const char *text, size_t length, lw_slip_reply *reply, lw_error *err)
{
    *reply = (lw_slip_reply){0};
    lw_arena arena = lw_arena_over(malloc(ARENA_BYTES), ARENA_BYTES);
    lw_slip_work *work = calloc(1, sizeof *work);
    char *document = lw_slip_document(text, length);
    bool done = (arena.base && work) || lw_fail(err, LW_STORAGE, "", "Memory is out.");
    if (done) {
        work->store = store;
        work->reply = reply;
        done = lw_slip_from_json(text, length, &arena, &work->slip, err) &&
               (document || lw_fail(err, LW_STORAGE, "", "Memory is out.")) && within(work, document, err);
    }
    if (!done)
        lw_slip_reply_free(reply);
    free(document);
    if (work)
        free(work->run);
    free(work);
    free(arena.base);
    return done;
}

/* The first crate may make the store; what is no crate finds no store and says so. */
bool lw_desk_slip_json(const char *path, const char *who, const char *text, size_t length, lw_slip_reply *reply,
                       lw_error *err)
{
    *reply = (lw_slip_reply){0};
    lw_store *store = NULL;
    lw_slip slip;
    lw_arena arena = lw_arena_over(malloc(ARENA_BYTES), ARENA_BYTES);
    bool done = (arena.base || lw_fail(err, LW_STORAGE, "", "Memory is out.")) &&
                lw_slip_from_json(text, length, &arena, &slip, err);
    free(arena.base);
    if (!done)
        return false;
    if (slip.kind != LW_SLIP_CRATE && access(path, F_OK) != 0) {
        reply->outcome = LW_SLIP_MISSING;
        (void)snprintf(reply->field, sizeof reply->field, "crate");
        (void)snprintf(reply->detail, sizeof reply->detail, "No crate has been taken in yet.");
        return true;
    }
    done = lw_visit_begin(
               &(lw_store_options){
                   .path = path, .who = who, .cache_kb = LW_STORE_VISIT_KB, .create = slip.kind == LW_SLIP_CRATE},
               &store, err) &&
           lw_desk_slip(store, text, length, reply, err);
    lw_visit_end(store, path);
    return done;
}
