/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One function for each wish of a user; command line and server call the same ones. Nothing is printed here.
 */
#ifndef LANEWICK_DESK_H
#define LANEWICK_DESK_H

#include "lanewick/error.h"
#include "lanewick/plan.h"
#include "lanewick/words.h"

#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* done: 0..1 of the work; what: in a few words. */
typedef void lw_progress(void *payload, double done, const char *what);

typedef struct lw_plan_request {
    const char *brief; /* JSON text */
    size_t brief_length;
    const char *folder; /* where the brief's weather file and lists of cells lie; NULL: here */
    uint64_t seed;
    int threads;           /* 0: as many as the machine has */
    lw_progress *progress; /* may be NULL */
    void *payload;
    const atomic_bool *stop; /* may be NULL; set from another thread it ends the planning with LW_NOT_COMPUTABLE */
    bool lane_only;          /* only the lane (want.lane): masts, light, what more buys; no lamps to build */
    bool no_files;           /* the brief comes from elsewhere: it may not name files of this machine */
} lw_plan_request;

/* Brief to plan. A refused plan is a result (plan->refused.count > 0), not an error. The plan is large (about
 * 400 kB): give it a home that lasts. The same seed gives the same bits whatever the number of threads. */
LW_MUST_CHECK bool lw_desk_plan(const lw_plan_request *request, lw_plan *plan, lw_error *err);

/* *out: the brief with the usable cells of every list that it names (shelf.cells[].cells_file) written beside its name,
 * and with the whole paths of its weather and intensity files, so that its plan can be repeated from anywhere; free()
 * it. NULL: there is nothing to write. folder: where the brief is. Files that cannot be read stay as they are named. */
LW_MUST_CHECK bool lw_desk_brief_files(const char *folder, const char *brief, size_t length, char **out, lw_error *err);

/* *out: the brief with the free sound and tired cells of the crates that it names (shelf.cells[].crate) written into
 * it, so that its plan can be repeated without the store; free() it. NULL: it names none, or holds their cells already.
 * store: file of the workshop's records, asked only when a crate is named; NULL or "": none. */
LW_MUST_CHECK bool lw_desk_brief_crates(const char *store, const char *brief, size_t length, char **out, lw_error *err);

/* Whether a brief can be read: the errors of lw_desk_plan() that need no computing. */
LW_MUST_CHECK bool lw_desk_brief_check(const lw_plan_request *request, lw_error *err);

/* The lane of a plan alone in plain English. free() it; NULL when memory is out. */
LW_MUST_CHECK char *lw_desk_lane_text(const lw_plan *plan, const lw_words *words, bool colour);

/* A plan in plain words: a summary of at most 25 lines in the person's language (words NULL: English), then tables
 * whose headings are in it too. free() it; NULL when memory is out. */
LW_MUST_CHECK char *lw_desk_plan_text(const lw_plan *plan, const lw_words *words, bool colour);

/* Makes a folder when it is missing, with those that it lies in. */
LW_MUST_CHECK bool lw_desk_make_folder(const char *folder, lw_error *err);
/* The same before long work: the folder is made, is a folder, and can be written to. */
LW_MUST_CHECK bool lw_desk_try_folder(const char *folder, lw_error *err);
/* Writes text to folder/name whole or not at all: temporary file, sync, rename. Makes the folder when missing. */
LW_MUST_CHECK bool lw_desk_write(const char *folder, const char *name, const char *text, lw_error *err);
LW_MUST_CHECK bool lw_desk_write_bytes(const char *folder, const char *name, const unsigned char *bytes, size_t size,
                                       lw_error *err);
/* The same for "some/where/name". */
LW_MUST_CHECK bool lw_desk_write_path(const char *path, const unsigned char *bytes, size_t size, lw_error *err);

/* The language that the user of this machine has chosen once, for command line and page; NULL: none. */
const lw_words *lw_desk_language_kept(void);
LW_MUST_CHECK bool lw_desk_language_keep(const lw_words *words, lw_error *err);

#endif
