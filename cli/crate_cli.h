/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the actions of `lanewick crate` share.
 */
#ifndef LANEWICK_CRATE_CLI_H
#define LANEWICK_CRATE_CLI_H

#include "cli.h"

#include "lanewick/desk_crate.h"

typedef struct lw_crate_job {
    int argc; /* what is left after the options are taken; argv[0] is the action */
    char **argv;
    bool json;
    const char *store_path;
    lw_store *store;
    int exit_code; /* LW_EXIT_SOME_FAILED where only some items failed */
} lw_crate_job;

/* An action of the verb: false when it failed and err says why. */
typedef bool lw_crate_action(lw_crate_job *job, lw_error *err);
lw_crate_action lw_crate_new, lw_crate_list, lw_crate_show, lw_crate_add, lw_crate_import, lw_crate_enter,
    lw_crate_tool, lw_crate_test, lw_crate_judge, lw_crate_plan, lw_crate_use, lw_crate_free, lw_crate_export,
    lw_crate_load, lw_crate_backup, lw_crate_restore, lw_crate_check, lw_crate_slips;

/* Judges the crate that argv[1] names; the cells live in the arena, which is made here: free(arena->base). */
LW_MUST_CHECK bool lw_crate_judged(lw_crate_job *job, lw_arena *arena, lw_judged_cell **cells, size_t *n,
                                   lw_error *err);
/* `crate use`: a word that is a plan's file; reserves the cells that it names. */
bool lw_crate_names_plan(const lw_crate_job *job);
LW_MUST_CHECK bool lw_crate_use_plan(lw_crate_job *job, lw_error *err);

/* Opens the store; create makes the file when it is missing. */
LW_MUST_CHECK bool lw_crate_open(lw_crate_job *job, bool create, lw_error *err);
/* Takes options that are texts; those not given become NULL. */
typedef struct lw_text_option {
    const char *name;
    const char **text;
} lw_text_option;
LW_MUST_CHECK bool lw_crate_texts(lw_crate_job *job, const lw_text_option *options, size_t n, lw_error *err);
/* Takes options that are numbers from low to high; *x stays when one is not given. */
typedef struct lw_number_option {
    const char *name;
    double *x, low, high;
    const char *unit;
} lw_number_option;
LW_MUST_CHECK bool lw_crate_numbers(lw_crate_job *job, const lw_number_option *options, size_t n, lw_error *err);
/* No option is left, and exactly these words (named for the message) after the action; argv[1], argv[2], ... */
LW_MUST_CHECK bool lw_crate_words(lw_crate_job *job, int least, int most, const char *names, lw_error *err);
/* --class, --marking, --shape, --origin, --look, --volts, --rated, --date, --note into the cell. */
LW_MUST_CHECK bool lw_crate_cell_options(lw_crate_job *job, lw_cell_record *cell, lw_error *err);

#endif
