/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A bundle of slips, from a page that had no server: in order, each exactly once.
 */
#include "slip_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WAITING_MOST = 1000 };

typedef struct bundle {
    lw_store *store;
    lw_slip_told *told;
    void *payload;
    lw_slips_report *report;
    char (*waiting)[LW_ID];     /* cells whose slips wait for a person */
    size_t count, seen, before; /* slips of the bundles before this one */
    lw_error *err;
    bool failed;
} bundle;

static bool waits(const bundle *b, const char *cell)
{
    for (size_t i = 0; i < b->count; i++)
        if (strcmp(b->waiting[i], cell) == 0)
            return true;
    return false;
}

static void wait_for(bundle *b, const char *cell)
{
    if (cell[0] && !waits(b, cell) && b->count < WAITING_MOST)
        memcpy(b->waiting[b->count++], cell, LW_ID);
}

/* The id of the cell that a slip is about; "" when it cannot be read. */
static void cell_of(const char *text, size_t length, char out[LW_ID])
{
    static _Thread_local double room[3 * (LW_SLIP_READINGS + 2)];
    lw_arena arena = lw_arena_over(room, sizeof room);
    lw_slip slip;
    lw_error err = {0};
    out[0] = '\0';
    if (lw_slip_from_json(text, length, &arena, &slip, &err))
        memcpy(out, slip.target[0] ? slip.target : slip.id, LW_ID);
}

static void hold(bundle *b, size_t i, const char *cell, const char *problem)
{
    b->report->waiting++;
    wait_for(b, cell);
    b->told(b->payload, i, problem);
}

static bool take_one(void *payload, size_t place, const char *slip, size_t length)
{
    bundle *b = payload;
    const size_t i = b->before + place;
    b->seen = i + 1;
    lw_slip_reply reply = {0};
    lw_error err = {0};
    char cell[LW_ID];
    cell_of(slip, length, cell);
    if (cell[0] && waits(b, cell)) {
        hold(b, i, cell, "It waits for the slip before it about the same cell.");
        return true;
    }
    const bool done = lw_desk_slip(b->store, slip, length, &reply, &err);
    if (!done && err.family == LW_STORAGE) {
        b->failed = true;
        (void)lw_fail(b->err, err.family, err.field, "%s", err.message);
        return false;
    }
    if (!done)
        hold(b, i, cell, err.message);
    else if (reply.outcome != LW_SLIP_TAKEN)
        hold(b, i, cell, reply.detail);
    else if (reply.again)
        b->report->again++;
    else
        b->report->taken++;
    lw_slip_reply_free(&reply);
    return true;
}

/* Codes that were read one after another give a bundle a line: the next begins with a brace at the start of a line. */
static const char *next_bundle(const char *at, const char *end)
{
    for (const char *line = at; (line = memchr(line, '\n', (size_t)(end - line))) != NULL;)
        if (++line < end && *line == '{')
            return line;
    return end;
}

bool lw_desk_slips(lw_store *store, const char *text, size_t length, lw_slip_told *told, void *payload,
                   lw_slips_report *report, lw_error *err)
{
    *report = (lw_slips_report){0};
    bundle b = {.store = store, .told = told, .payload = payload, .report = report, .err = err};
    b.waiting = calloc(WAITING_MOST, sizeof *b.waiting);
    if (!b.waiting)
        return lw_fail(err, LW_STORAGE, "", "Memory is out.");
    bool read = true;
    for (const char *at = text, *end = text + length; read && !b.failed && at < end;) {
        const char *next = next_bundle(at, end);
        read = lw_slips_each(at, (size_t)(next - at), take_one, &b, err);
        b.before = b.seen;
        at = next;
    }
    free(b.waiting);
    return read && !b.failed;
}
