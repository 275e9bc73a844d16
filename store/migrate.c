/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bringing a store to the version of this program, forward only, each version in its own transaction.
 */
#include "inside.h"

#include "schema.h"

#include <stdio.h>

/* Another process may have done this step while we waited for the lock: the version is asked inside. */
static bool one_step(lw_store *store, int to, lw_error *err)
{
    int64_t version;
    char mark[120], what[60];
    (void)snprintf(what, sizeof what, "bring the store to version %d", to);
    if (!lw_store_begin(store, what, err))
        return false;
    bool done = lw_store_number(store, "PRAGMA user_version", &version, err);
    if (done && version < to) {
        (void)snprintf(mark, sizeof mark, "PRAGMA user_version = %d; PRAGMA application_id = %d", to,
                       (int)LW_STORE_APPLICATION);
        /* a step moves what is there; it changes nothing that a person said */
        done = lw_journal_disarm(store, err) && lw_store_run(store, lw_schema_versions[to - 1], what, err) &&
               lw_journal_arm(store, err) && lw_store_run(store, mark, what, err);
    }
    if (done)
        return lw_store_commit(store, err);
    lw_store_rollback(store);
    return false;
}

bool lw_store_migrate(lw_store *store, int version, lw_error *err)
{
    int64_t now;
    if (version > lw_schema_count)
        return lw_fail(err, LW_BUG, "", "The program lacks version %d of the store.", version);
    if (!lw_store_number(store, "PRAGMA user_version", &now, err))
        return false;
    for (int to = (int)now + 1; to <= version; to++)
        if (!one_step(store, to, err))
            return false;
    return true;
}
