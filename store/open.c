/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opening, closing and transactions. Write-ahead log with full synchronisation: a commit returns when the disk has
 * it (sqlite.org/wal.html, sqlite.org/pragma.html#pragma_synchronous).
 */
#include "inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void copy_text(char *out, size_t size, const char *text)
{
    (void)snprintf(out, size, "%s", text);
}

static const char *who_is_it(const char *given)
{
    const char *name = given ? given : getenv("LANEWICK_WHO");
    if (!name || !name[0])
        name = getenv("USER");
    return name && name[0] ? name : "someone";
}

/* A file that another program made is refused before anything is written to it. */
static bool ours(lw_store *store, lw_error *err)
{
    int64_t application, tables, version;
    if (!lw_store_number(store, "PRAGMA application_id", &application, err) ||
        !lw_store_number(store, "SELECT count(*) FROM sqlite_schema", &tables, err) ||
        !lw_store_number(store, "PRAGMA user_version", &version, err))
        return false;
    if (application != LW_STORE_APPLICATION && (application != 0 || tables != 0))
        return lw_fail(err, LW_STORAGE, "store", "%.200s is a database, but not a store of lanewick.", store->path);
    if (version > LW_STORE_VERSION)
        return lw_fail(err, LW_STORAGE, "store",
                       "%.200s was written by a newer lanewick (version %lld of the store, this program knows %d); use "
                       "the newer program.",
                       store->path, (long long)version, (int)LW_STORE_VERSION);
    return true;
}

static bool prepare_file(lw_store *store, const lw_store_options *options, lw_error *err)
{
    const int busy = options->busy_ms > 0 ? options->busy_ms : 10000;
    (void)sqlite3_extended_result_codes(store->db, 1);
    (void)sqlite3_busy_timeout(store->db, busy);
    (void)sqlite3_db_config(store->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    char cache[64];
    (void)snprintf(cache, sizeof cache, "PRAGMA cache_size = -%d", options->cache_kb > 0 ? options->cache_kb : 128000);
    return ours(store, err) &&
           lw_store_run(store,
                        "PRAGMA page_size = 8192; PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; PRAGMA "
                        "foreign_keys = ON; PRAGMA cell_size_check = ON; PRAGMA temp_store = MEMORY;",
                        "open the store", err) &&
           lw_store_run(store, cache, "open the store", err) && lw_journal_functions(store, err) &&
           lw_store_migrate(store, options->version > 0 ? options->version : (int)LW_STORE_VERSION, err);
}

bool lw_store_open(const lw_store_options *options, lw_store **out, lw_error *err)
{
    *out = NULL;
    if (strlen(options->path) >= sizeof((lw_store *)0)->path)
        return lw_fail(err, LW_WRONG_INPUT, "store", "The name of the store is too long.");
    if (!options->create && access(options->path, F_OK) != 0)
        return lw_fail(err, LW_WRONG_INPUT, "store",
                       "There is no store %.200s; `lanewick crate new` makes it, or name another with --store.",
                       options->path);
    lw_store *store = calloc(1, sizeof *store);
    if (!store)
        return lw_fail(err, LW_STORAGE, "store", "There is not enough memory to open the store.");
    copy_text(store->path, sizeof store->path, options->path);
    copy_text(store->who, sizeof store->who, who_is_it(options->who));
    store->now_ms = options->now_ms;
    store->payload = options->payload;
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | (options->create ? SQLITE_OPEN_CREATE : 0);
    const bool opened = sqlite3_open_v2(options->path, &store->db, flags, options->vfs) == SQLITE_OK ||
                        lw_store_fault(store, "open the store", err);
    if (!opened || !prepare_file(store, options, err)) {
        lw_store_close(store);
        return false;
    }
    *out = store;
    return true;
}

void lw_store_close(lw_store *store)
{
    if (!store)
        return;
    lw_store_rollback(store);
    for (int i = 0; i < LW_TABLES; i++) {
        (void)sqlite3_finalize(store->put[i]);
        (void)sqlite3_finalize(store->change[i]);
    }
    (void)sqlite3_close(store->db);
    free(store);
}

void lw_store_who(lw_store *store, const char *who)
{
    copy_text(store->who, sizeof store->who, who_is_it(who));
}

void lw_store_what(lw_store *store, const char *what)
{
    copy_text(store->what, sizeof store->what, what);
}

bool lw_store_begin(lw_store *store, const char *what, lw_error *err)
{
    if (store->in_transaction)
        return lw_fail(err, LW_BUG, "", "A transaction is open already.");
    if (!lw_store_run(store, "BEGIN IMMEDIATE", "begin to write", err))
        return false;
    store->in_transaction = true;
    lw_store_what(store, what);
    return true;
}

bool lw_store_commit(lw_store *store, lw_error *err)
{
    if (!lw_store_run(store, "COMMIT", "store it", err)) {
        lw_store_rollback(store);
        return false;
    }
    store->in_transaction = false;
    return true;
}

void lw_store_rollback(lw_store *store)
{
    /* some faults (a full disk) have undone it already */
    if (store->in_transaction && sqlite3_get_autocommit(store->db) == 0)
        (void)sqlite3_exec(store->db, "ROLLBACK", NULL, NULL, NULL);
    store->in_transaction = false;
}
