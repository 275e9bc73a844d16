/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The store broken on purpose: every write and every sync of an import fails once, the disk fills up in the middle,
 * the process is killed at any moment, two processes write at once. What was acknowledged is there afterwards, what
 * was not is there whole or not at all, and the file is sound.
 */
#include "fault_vfs.h"
#include "lanewick/store.h"

#include <setjmp.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include <cmocka.h>

static char folder[64], path[100];

static int set_up(void **state)
{
    (void)state;
    (void)snprintf(folder, sizeof folder, "/tmp/lanewick-faults-XXXXXX");
    if (!mkdtemp(folder))
        return 1;
    (void)snprintf(path, sizeof path, "%s/a.store", folder);
    memset(&fault, 0, sizeof fault);
    fault_vfs_register();
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    const char *endings[] = {"", "-wal", "-shm"};
    for (size_t i = 0; i < 3; i++) {
        char name[140];
        (void)snprintf(name, sizeof name, "%s%s", path, endings[i]);
        (void)unlink(name);
    }
    return rmdir(folder);
}

static lw_store *open_store(const char *vfs, lw_error *err)
{
    lw_store *store = NULL;
    const lw_store_options options = {
        .path = path, .create = true, .vfs = vfs, .who = "test", .busy_ms = 600000 /* a slow disk, and others on it */};
    return lw_store_open(&options, &store, err) ? store : NULL;
}

static lw_store *must_open(void)
{
    lw_error err = {0};
    lw_store *store = open_store(NULL, &err);
    if (!store)
        fail_msg("%s", err.message);
    return store;
}

static bool put_one(lw_store *store, const lw_crate_record *crate, const char *code, lw_error *err)
{
    lw_cell_record cell = lw_cell_blank();
    (void)snprintf(cell.crate, sizeof cell.crate, "%s", crate->id);
    (void)snprintf(cell.code, sizeof cell.code, "%s", code);
    (void)snprintf(cell.marking, sizeof cell.marking, "ICR18650-%s", code);
    return lw_store_put(store, LW_CELLS, &cell, err);
}

static bool put_many(lw_store *store, int count, lw_error *err)
{
    lw_crate_record crate = {.code = "C"};
    bool done = lw_store_begin(store, "import", err) && lw_store_put(store, LW_CRATES, &crate, err);
    for (int i = 0; done && i < count; i++) {
        char code[16];
        (void)snprintf(code, sizeof code, "X%d", i);
        done = put_one(store, &crate, code, err);
    }
    if (done)
        return lw_store_commit(store, err);
    lw_store_rollback(store);
    return false;
}

static int64_t cells_in(lw_store *store)
{
    int64_t rows = -1;
    lw_error err = {0};
    if (!lw_store_total(store, LW_CELLS, &rows, &err) || !lw_store_check(store, &err))
        fail_msg("%s", err.message);
    return rows;
}

static void forget_file(void)
{
    void *state = NULL;
    (void)tear_down(&state);
    assert_int_equal(set_up(&state), 0);
}

/* Opens, imports 300 cells and closes with a fault planned; true when the import was acknowledged. */
static bool faulty_import(const fault_plan *plan, lw_error *err)
{
    fault = *plan;
    lw_store *store = open_store("fault", err);
    const bool done = store && put_many(store, 300, err);
    lw_store_close(store);
    fault = (fault_plan){0};
    return done;
}

static void after_fault(bool acknowledged, long n)
{
    lw_store *store = must_open();
    const int64_t rows = cells_in(store);
    if (rows != (acknowledged ? 300 : 0) && !(rows == 300 && !acknowledged))
        fail_msg("fault %ld: %lld cells, acknowledged: %d", n, (long long)rows, acknowledged);
    lw_store_close(store);
    forget_file();
}

static void each_write_fails(void **state)
{
    (void)state;
    lw_store *store = open_store("fault", &(lw_error){0});
    assert_non_null(store);
    assert_true(put_many(store, 300, &(lw_error){0}));
    lw_store_close(store);
    const long writes = fault.writes, syncs = fault.syncs;
    assert_true(writes > 30 && syncs > 3);
    forget_file();
    int refused = 0;
    for (long n = 1; n <= writes; n += 1 + writes / 25) {
        lw_error err = {0};
        const bool done = faulty_import(&(fault_plan){.fail_write = n}, &err);
        refused += !done;
        assert_true(done || err.family == LW_STORAGE);
        after_fault(done, n);
    }
    assert_true(refused > 5);
    for (long n = 1; n <= syncs; n++) {
        lw_error err = {0};
        const bool done = faulty_import(&(fault_plan){.fail_sync = n}, &err);
        assert_true(done || err.family == LW_STORAGE);
        after_fault(done, n);
    }
}

static void full_disk_leaves_nothing(void **state)
{
    (void)state;
    lw_store *store = open_store("fault", &(lw_error){0});
    assert_non_null(store);
    fault.bytes = 0;
    assert_true(
        put_many(store, 40000, &(lw_error){0})); /* more than the page cache holds: pages go out before the commit */
    /* the commit writes at least half of it; the rest is the checkpoint, which may fail without harm */
    const long needed = fault.bytes / 2;
    lw_store_close(store);
    forget_file();
    for (int part = 1; part <= 4; part++) {
        lw_error err = {0};
        store = open_store("fault", &err);
        assert_non_null(store);
        fault.bytes = 0;
        fault.disk_bytes = needed * part / 5;
        assert_false(put_many(store, 40000, &err));
        assert_int_equal(err.family, LW_STORAGE);
        assert_non_null(strstr(err.message, "disk is full"));
        assert_int_equal(cells_in(store), 0);
        fault.disk_bytes = 0; /* room was made: the same store goes on */
        assert_true(put_many(store, 10, &(lw_error){0}));
        assert_int_equal(cells_in(store), 10);
        lw_store_close(store);
        forget_file();
    }
}

/* Writes cell after cell and tells each acknowledged one through the pipe, until it is killed. */
static void write_for_ever(int out, const char *start)
{
    lw_error err = {0};
    lw_store *store = open_store(NULL, &err);
    lw_crate_record crate = {0};
    bool found = false;
    if (!store || !lw_store_get(store, LW_CRATES, "code", "C", &crate, &found, &err) || !found)
        _exit(1);
    for (int i = 0;; i++) {
        char code[LW_CODE];
        (void)snprintf(code, sizeof code, "%s-%d", start, i);
        if (!put_one(store, &crate, code, &err))
            _exit(1);
        if (write(out, code, sizeof code) != (ssize_t)sizeof code)
            _exit(2);
    }
}

static bool is_there(lw_store *store, const char *code)
{
    lw_cell_record cell;
    bool found = false;
    lw_error err = {0};
    return lw_store_get(store, LW_CELLS, "code", code, &cell, &found, &err) && found;
}

static int one_killing(int run, long wait_ns)
{
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    char start[16];
    (void)snprintf(start, sizeof start, "R%d", run);
    const pid_t child = fork();
    if (child == 0) {
        (void)close(ends[0]);
        write_for_ever(ends[1], start);
    }
    assert_true(child > 0);
    (void)close(ends[1]);
    char first[LW_CODE], code[LW_CODE]; /* the killing begins when it is at work, however slow the disk */
    assert_int_equal(read(ends[0], first, sizeof first), sizeof first);
    (void)nanosleep(&(struct timespec){.tv_nsec = wait_ns}, NULL);
    (void)kill(child, SIGKILL);
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status)); /* it wrote until it was killed */
    lw_store *store = must_open();
    int acknowledged = 1;
    assert_true(is_there(store, first));
    while (read(ends[0], code, sizeof code) == (ssize_t)sizeof code) {
        assert_true(is_there(store, code));
        acknowledged++;
    }
    (void)close(ends[0]);
    (void)cells_in(store);
    lw_store_close(store);
    return acknowledged;
}

static void killing_loses_nothing(void **state)
{
    (void)state;
    lw_store *store = must_open();
    assert_true(put_many(store, 0, &(lw_error){0}));
    lw_store_close(store);
    int acknowledged = 0;
    for (int run = 0; run < 12; run++)
        acknowledged += one_killing(run, 1000000L * (3 + 7 * (run % 9)) + 137000L * run);
    assert_true(acknowledged >= 12);
}

static void two_processes_write(void **state)
{
    (void)state;
    enum { EACH = 150 };
    lw_store *store = must_open();
    assert_true(put_many(store, 0, &(lw_error){0}));
    lw_store_close(store);
    pid_t children[3];
    for (int c = 0; c < 3; c++) {
        children[c] = fork();
        if (children[c] != 0)
            continue;
        lw_error err = {0};
        lw_store *mine = open_store(NULL, &err);
        lw_crate_record crate = {0};
        bool found = false, well = mine && lw_store_get(mine, LW_CRATES, "code", "C", &crate, &found, &err) && found;
        for (int i = 0; well && i < EACH; i++) {
            char code[16];
            (void)snprintf(code, sizeof code, "P%d-%d", c, i);
            well = put_one(mine, &crate, code, &err);
        }
        lw_store_close(mine);
        _exit(well ? 0 : 1);
    }
    for (int c = 0; c < 3; c++) {
        int status;
        assert_int_equal(waitpid(children[c], &status, 0), children[c]);
        assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    }
    store = must_open();
    assert_int_equal(cells_in(store), 3 * EACH);
    lw_store_close(store);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(each_write_fails, set_up, tear_down),
        cmocka_unit_test_setup_teardown(full_disk_leaves_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(killing_loses_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(two_processes_write, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
