/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Takes the sheets of an earlier plan out of a folder: those of the list beside them, where they are still as they were
 * written. See lanewick/desk_sheets.h.
 */
#include "lanewick/desk.h"
#include "lanewick/desk_sheets.h"
#include "lanewick/hash.h"
#include "lanewick/sheets_written.h"
#include "read_file.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const size_t most_list = 1 << 20, most_sheet = 256 << 20;

static bool is_file(const char *path)
{
    struct stat about;
    return lstat(path, &about) == 0 && S_ISREG(about.st_mode);
}

/* The mark of a file as it lies there; false: there is none. */
static bool mark_of(const char *folder, const char *name, uint64_t *mark)
{
    char path[1200], *bytes = NULL;
    size_t length = 0;
    lw_error ignored = {0};
    lw_file_beside(folder, name, path, sizeof path);
    const lw_file_ask ask = {.field = "out", .path = path, .most = most_sheet, .advice = ""};
    const bool read = is_file(path) && lw_read_file(&ask, &bytes, &length, &ignored);
    if (read)
        *mark = lw_hash(lw_hash_begin, bytes, length);
    free(bytes);
    return read;
}

/* The list of the last run; empty where there is none, or it is not one of ours. */
static bool read_list(const char *folder, lw_written *out)
{
    char path[1200], *text = NULL;
    size_t length = 0;
    lw_error ignored = {0};
    lw_file_beside(folder, lw_written_name, path, sizeof path);
    const lw_file_ask ask = {.field = "out", .path = path, .most = most_list, .advice = ""};
    const bool there = is_file(path);
    out->count = 0;
    if (there && lw_read_file(&ask, &text, &length, &ignored))
        (void)lw_written_read(text, length, out);
    free(text);
    return there;
}

/* Files of the earlier list that were not written now: kept in the list when they are of this plan; else removed,
 * unless somebody changed them. */
static void sort_out(const char *folder, const lw_written *before, lw_written *now, lw_written *removed)
{
    for (size_t i = 0; i < before->count; i++) {
        const char *name = before->file[i].name;
        uint64_t mark;
        char path[1200];
        if (lw_written_has(now, name) || !mark_of(folder, name, &mark) || mark != before->file[i].mark)
            continue;
        if (before->plan == now->plan) {
            (void)lw_written_add(now, name, mark);
            continue;
        }
        lw_file_beside(folder, name, path, sizeof path);
        if (unlink(path) == 0)
            (void)lw_written_add(removed, name, mark);
    }
}

/* All that the plan says, the brief apart: another plan has other numbers somewhere. */
static bool fingerprint(const lw_plan *plan, uint64_t *out)
{
    char *text = lw_plan_to_json(plan, "{}", 2);
    if (text)
        *out = lw_hash(lw_hash_begin, text, strlen(text));
    free(text);
    return text != NULL;
}

bool lw_desk_sheets_tidy(const lw_plan *plan, const char *folder, const lw_sheet_file *files, size_t count,
                         lw_written *removed, lw_error *err)
{
    lw_written *before = calloc(1, sizeof *before), *now = calloc(1, sizeof *now);
    bool done = before && now && fingerprint(plan, &now->plan);
    if (!done)
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the list of files.");
    removed->count = 0;
    for (size_t i = 0; done && i < count; i++) {
        uint64_t mark;
        if (mark_of(folder, files[i].name, &mark))
            (void)lw_written_add(now, files[i].name, mark);
    }
    if (done && (read_list(folder, before) || count > 0)) {
        sort_out(folder, before, now, removed);
        char *text = lw_written_text(now);
        done = text ? lw_desk_write(folder, lw_written_name, text, err)
                    : lw_fail(err, LW_STORAGE, "", "There is not enough memory for the list of files.");
        free(text);
    }
    free(before);
    free(now);
    return done;
}
