/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A store in a folder of its own with one empty crate, C, for tests of wishes about crates.
 */
#ifndef LANEWICK_TESTS_CRATE_PLACE_H
#define LANEWICK_TESTS_CRATE_PLACE_H

#include "lanewick/store.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

#include <cmocka.h>

static char folder[64], path[100];
static lw_store *store;
static lw_crate_record crate;

static lw_store *open_store(void)
{
    lw_store *out = NULL;
    lw_error err = {0};
    if (!lw_store_open(&(lw_store_options){.path = path, .create = true, .who = "test"}, &out, &err))
        fail_msg("%s", err.message);
    return out;
}

static int set_up(void **state)
{
    (void)state;
    (void)snprintf(folder, sizeof folder, "/tmp/lanewick-crate-XXXXXX");
    if (!mkdtemp(folder))
        return 1;
    (void)snprintf(path, sizeof path, "%s/a.store", folder);
    store = open_store();
    crate = (lw_crate_record){.code = "C"};
    return lw_store_put(store, LW_CRATES, &crate, &(lw_error){0}) ? 0 : 1;
}

static int tear_down(void **state)
{
    (void)state;
    lw_store_close(store);
    static const char *const endings[] = {"", "-wal", "-shm"};
    for (size_t i = 0; i < 3; i++) {
        char name[140];
        (void)snprintf(name, sizeof name, "%s%s", path, endings[i]);
        (void)unlink(name);
    }
    return rmdir(folder); /* nothing else may have been left behind */
}

#endif
