/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Backup while others work, restore and check (sqlite.org/backup.html). A backup is one file with no log beside it.
 */
#include "inside.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static bool sync_place(const char *path, int flags)
{
    const int file = open(path, flags | O_CLOEXEC);
    if (file < 0)
        return false;
    const bool done = fsync(file) == 0;
    return close(file) == 0 && done;
}

static void sync_folder_of(const char *path)
{
    char folder[1100];
    (void)snprintf(folder, sizeof folder, "%s", path);
    char *slash = strrchr(folder, '/');
    if (slash)
        slash[slash == folder] = '\0';
    (void)sync_place(slash ? folder : ".", O_RDONLY | O_DIRECTORY);
}

static bool copy_pages(sqlite3 *from, sqlite3 *to, const lw_store *store, const char *doing, lw_error *err)
{
    sqlite3_backup *backup = sqlite3_backup_init(to, "main", from, "main");
    if (!backup)
        return lw_fail(err, LW_STORAGE, "", "Could not %s: %.200s.", doing, sqlite3_errmsg(to));
    int code = SQLITE_OK;
    for (int tries = 0; tries < 400; tries++) {
        code = sqlite3_backup_step(backup, -1);
        if (code != SQLITE_BUSY && code != SQLITE_LOCKED)
            break;
        (void)sqlite3_sleep(25);
    }
    const int end = sqlite3_backup_finish(backup);
    if (code == SQLITE_DONE && end == SQLITE_OK)
        return true;
    return lw_fail(err, LW_STORAGE, "", "Could not %s of %.150s: %.120s.", doing, store->path,
                   sqlite3_errstr(code == SQLITE_DONE ? end : code));
}

static bool pages_are_sound(sqlite3 *db, const char *path, lw_error *err)
{
    sqlite3_stmt *statement = NULL;
    bool sound = sqlite3_prepare_v2(db, "PRAGMA integrity_check(1)", -1, &statement, NULL) == SQLITE_OK &&
                 sqlite3_step(statement) == SQLITE_ROW;
    const char *word = sound ? (const char *)sqlite3_column_text(statement, 0) : sqlite3_errmsg(db);
    sound = sound && word && strcmp(word, "ok") == 0;
    if (!sound)
        (void)lw_fail(err, LW_STORAGE, "", "%.150s is damaged: %.200s.", path, word ? word : "it cannot be read");
    (void)sqlite3_finalize(statement);
    return sound;
}

static bool write_backup(lw_store *store, const char *part, lw_error *err)
{
    sqlite3 *to = NULL;
    bool done = sqlite3_open_v2(part, &to, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL) == SQLITE_OK ||
                lw_fail(err, LW_STORAGE, "", "%.200s cannot be written: %.100s.", part, sqlite3_errmsg(to));
    done = done && copy_pages(store->db, to, store, "make the backup", err) && pages_are_sound(to, part, err);
    /* no log file beside the copy, so that it can be carried as one file and read from a read-only disk */
    if (done && sqlite3_exec(to, "PRAGMA journal_mode = DELETE", NULL, NULL, NULL) != SQLITE_OK)
        done = lw_fail(err, LW_STORAGE, "", "The backup could not be finished: %.100s.", sqlite3_errmsg(to));
    if (sqlite3_close(to) != SQLITE_OK)
        done = lw_fail(err, LW_STORAGE, "", "The backup could not be closed.");
    return done;
}

bool lw_store_backup(lw_store *store, const char *path, lw_error *err)
{
    char part[1100];
    const int length = snprintf(part, sizeof part, "%s.part.%ld", path, (long)getpid());
    if (length < 0 || (size_t)length >= sizeof part)
        return lw_fail(err, LW_WRONG_INPUT, "file", "The name of the backup is too long.");
    if (strcmp(path, store->path) == 0)
        return lw_fail(err, LW_WRONG_INPUT, "file", "The backup must be another file than the store itself.");
    bool done = write_backup(store, part, err);
    if (done && (!sync_place(part, O_RDONLY) || rename(part, path) != 0))
        done = lw_fail(err, LW_STORAGE, "", "%.200s could not be written: %.80s.", path, strerror(errno));
    if (done)
        sync_folder_of(path);
    else
        (void)unlink(part);
    return done;
}

static bool is_a_backup(sqlite3 *from, const char *path, lw_error *err)
{
    sqlite3_stmt *statement = NULL;
    int64_t application = -1;
    if (sqlite3_prepare_v2(from, "PRAGMA application_id", -1, &statement, NULL) == SQLITE_OK &&
        sqlite3_step(statement) == SQLITE_ROW)
        application = sqlite3_column_int64(statement, 0);
    (void)sqlite3_finalize(statement);
    if (application != LW_STORE_APPLICATION)
        return lw_fail(err, LW_WRONG_INPUT, "file", "%.200s is no backup of a store of lanewick.", path);
    return pages_are_sound(from, path, err);
}

static bool note_restore(lw_store *store, const char *path, lw_error *err)
{
    char *sql = sqlite3_mprintf("INSERT INTO journal (at, who, what, kind, row) VALUES (lw_now(), lw_who(), "
                                "'restore from %q', 'store', '')",
                                path);
    const bool done = sql && lw_store_run(store, sql, "note the restore", err);
    sqlite3_free(sql);
    return done;
}

bool lw_store_restore(lw_store *store, const char *path, lw_error *err)
{
    if (access(path, R_OK) != 0)
        return lw_fail(err, LW_WRONG_INPUT, "file", "There is no backup %.200s that can be read.", path);
    sqlite3 *from = NULL;
    bool done = sqlite3_open_v2(path, &from, SQLITE_OPEN_READONLY, NULL) == SQLITE_OK ||
                lw_fail(err, LW_WRONG_INPUT, "file", "%.200s cannot be read: %.100s.", path, sqlite3_errmsg(from));
    done = done && is_a_backup(from, path, err) && copy_pages(from, store->db, store, "restore the backup", err);
    (void)sqlite3_close(from);
    return done &&
           lw_store_run(store, "PRAGMA journal_mode = WAL; PRAGMA foreign_keys = ON", "open the restored store", err) &&
           lw_store_migrate(store, LW_STORE_VERSION, err) && note_restore(store, path, err);
}

/* --- check ----------------------------------------------------------------------------------------------------- */

typedef struct rule {
    const char *sql, *fault; /* a row that comes out is a fault */
} rule;
static const rule rules[] = {
    {"SELECT \"table\" FROM pragma_foreign_key_check LIMIT 1", "a record refers to one that is not there, in"},
    {"SELECT l.cell FROM pack_slot l JOIN pack p ON p.id = l.pack WHERE l.until = '' AND p.state = 'apart' LIMIT 1",
     "a cell sits in a pack that was taken apart:"},
    {"SELECT l.cell FROM pack_slot l WHERE l.until = '' GROUP BY l.cell HAVING count(*) > 1 LIMIT 1",
     "a cell sits in two packs:"},
    {"SELECT l.cell FROM pack_slot l JOIN pack p ON p.id = l.pack WHERE l.until = '' AND l.place_group > p.series "
     "LIMIT 1",
     "a cell sits in a group that its pack does not have:"},
    {"SELECT r.id FROM result r JOIN test t ON t.id = r.test WHERE t.cell <> r.cell LIMIT 1",
     "a result belongs to another cell than its test:"},
    {"SELECT c.code FROM cell c WHERE NOT EXISTS (SELECT 1 FROM journal j WHERE j.row = c.id) LIMIT 1",
     "the journal does not know the cell"},
    {"SELECT c.code FROM cell c LEFT JOIN standing s ON s.cell = c.id LEFT JOIN pack_slot l ON l.cell = c.id AND "
     "l.until = '' WHERE c.now_verdict <> coalesce(s.verdict, 'untested') OR c.now_packed <> (l.id IS NOT NULL) "
     "LIMIT 1",
     "the lists do not know the verdict or the pack of the cell"},
};

static bool obeys(lw_store *store, const rule *r, lw_error *err)
{
    sqlite3_stmt *statement;
    if (!lw_store_prepare(store, r->sql, &statement, err))
        return false;
    const bool broken = sqlite3_step(statement) == SQLITE_ROW;
    if (broken)
        (void)lw_fail(err, LW_STORAGE, "", "%.150s: %s %.80s.", store->path, r->fault,
                      (const char *)sqlite3_column_text(statement, 0));
    const bool read = sqlite3_finalize(statement) == SQLITE_OK || lw_store_fault(store, "check the store", err);
    return !broken && read;
}

bool lw_store_check(lw_store *store, lw_error *err)
{
    bool sound = pages_are_sound(store->db, store->path, err);
    for (size_t i = 0; sound && i < sizeof rules / sizeof rules[0]; i++)
        sound = obeys(store, &rules[i], err);
    return sound;
}
