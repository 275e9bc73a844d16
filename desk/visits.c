/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Stores that stay open between short visits: see visits.h.
 */
#include "visits.h"

#include "lanewick/desk_slip_json.h"

#include <pthread.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

enum { IDLE_MOST = 8 };

typedef struct idle {
    lw_store *store;
    char path[1024];
    dev_t device; /* the file that was opened; another may stand under its name by now */
    ino_t inode;
} idle;

static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;
static idle kept[IDLE_MOST];
static size_t count;

/* An idle one of this very file. */
static lw_store *take(const char *path, const struct stat *file)
{
    lw_store *store = NULL;
    (void)pthread_mutex_lock(&lock);
    for (size_t i = 0; i < count && !store; i++)
        if (kept[i].inode == file->st_ino && kept[i].device == file->st_dev && strcmp(kept[i].path, path) == 0) {
            store = kept[i].store;
            kept[i] = kept[--count];
        }
    (void)pthread_mutex_unlock(&lock);
    return store;
}

bool lw_visit_begin(const lw_store_options *options, lw_store **out, lw_error *err)
{
    struct stat file;
    *out = stat(options->path, &file) == 0 ? take(options->path, &file) : NULL;
    if (!*out)
        return lw_store_open(options, out, err);
    lw_store_who(*out, options->who);
    return true;
}

void lw_visit_end(lw_store *store, const char *path)
{
    struct stat file;
    if (!store)
        return;
    lw_store_rollback(store);
    if (stat(path, &file) == 0 && strlen(path) < sizeof kept[0].path) {
        (void)pthread_mutex_lock(&lock);
        if (count < IDLE_MOST) {
            idle *place = &kept[count++];
            *place = (idle){.store = store, .device = file.st_dev, .inode = file.st_ino};
            (void)snprintf(place->path, sizeof place->path, "%s", path);
            store = NULL;
        }
        (void)pthread_mutex_unlock(&lock);
    }
    lw_store_close(store);
}

void lw_desk_visits_end(void)
{
    (void)pthread_mutex_lock(&lock);
    while (count > 0)
        lw_store_close(kept[--count].store);
    (void)pthread_mutex_unlock(&lock);
}
