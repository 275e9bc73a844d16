/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One cell, its tests and the instruments as JSON: see lanewick/desk_crate_json.h.
 */
#include "lanewick/desk_crate_json.h"

#include "crate_list.h"
#include "slip_inside.h"
#include "visits.h"

#include "lanewick/records_json.h"

#include <stdlib.h>
#include <string.h>

bool lw_desk_cell_json(const char *path, const char *code, char **json, lw_error *err)
{
    lw_store *store;
    lw_cell_record cell;
    *json = NULL;
    if (!lw_visit_begin(&(lw_store_options){.path = path, .cache_kb = LW_STORE_VISIT_KB}, &store, err))
        return false;
    const bool found = lw_desk_cell(store, code, &cell, err);
    *json = found ? lw_slip_cell_json(store, cell.code) : NULL;
    lw_visit_end(store, path);
    return found && (*json || lw_fail(err, LW_STORAGE, "", "Memory is out."));
}

typedef struct walk { /* over the tests of one cell */
    lw_store *store;
    lw_json_list list;
    const char *after;
    lw_error *err;
    bool failed;
} walk;

typedef struct found_results {
    lw_result_record results[LW_TEST_RESULTS];
    size_t n;
} found_results;

static bool keep_result(void *payload, const void *record)
{
    found_results *f = payload;
    if (f->n < LW_TEST_RESULTS)
        f->results[f->n++] = *(const lw_result_record *)record;
    return true;
}

static bool tool_name(walk *w, const char *id, char name[LW_WORD])
{
    lw_instrument_record tool;
    bool found = false;
    name[0] = '\0';
    if (id[0] && !lw_store_get(w->store, LW_INSTRUMENTS, "id", id, &tool, &found, w->err))
        return false;
    if (found)
        memcpy(name, tool.name, LW_WORD);
    return true;
}

static bool add_test(void *payload, const void *record)
{
    walk *w = payload;
    const lw_test_record *test = record;
    if (w->after && strcmp(test->id, w->after) <= 0)
        return true;
    if (w->list.count == w->list.limit) {
        w->list.count++;
        return false;
    }
    char meter[LW_WORD], resistor[LW_WORD];
    found_results f = {.n = 0};
    w->failed = !tool_name(w, test->meter, meter) || !tool_name(w, test->resistor, resistor) ||
                !lw_store_each(w->store, LW_RESULTS, "test", test->id, keep_result, &f, w->err);
    if (w->failed)
        return false;
    char *results = lw_results_to_json(f.results, f.n);
    lw_json_list_add(&w->list, results ? lw_test_to_json(test, meter, resistor, results) : NULL);
    memcpy(w->list.last, test->id, LW_ID);
    free(results);
    return !w->list.full;
}

bool lw_desk_tests_json(const char *path, const char *code, const char *after, int limit, char **json, lw_error *err)
{
    walk w = {.list = {.limit = limit}, .after = after, .err = err};
    lw_cell_record cell;
    *json = NULL;
    if (!lw_in_range(err, "limit", limit, 1.0, LW_CELLS_PAGE, "") ||
        !lw_json_list_begin(path, &w.store, &w.list, json, err))
        return false;
    (void)fputs("{\"tests\":[", w.list.out);
    const bool done = lw_desk_cell(w.store, code, &cell, err) &&
                      lw_store_each(w.store, LW_TESTS, "cell", cell.id, add_test, &w, err) && !w.failed;
    if (w.list.count > limit)
        (void)fprintf(w.list.out, "],\"after\":\"%s\"}", w.list.last);
    else
        (void)fputs("],\"after\":null}", w.list.out);
    lw_visit_end(w.store, path);
    return lw_json_list_end(&w.list, done, json, err);
}

static bool add_tool(void *payload, const void *record)
{
    lw_json_list *list = payload;
    lw_json_list_add(list, lw_instrument_to_json(record));
    return !list->full;
}

bool lw_desk_tools_json(const char *path, char **json, lw_error *err)
{
    return lw_json_list_table(path, "tools", LW_INSTRUMENTS, add_tool, json, err);
}
