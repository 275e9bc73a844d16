/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The store with 100,000 cells: import with its journal, lists and searches, against the same work with what the
 * store does not do (one transaction for each cell; a search without an index).
 */
#include "lanewick/desk_crate.h"

#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { CELLS = 100000, SINGLE = 200, REPEATS = 20 };

static double now_s(void)
{
    struct timespec now;
    (void)clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void must(bool done, const lw_error *err)
{
    if (done)
        return;
    (void)printf("failed: %s\n", err->message);
    exit(1);
}

static char *table_of_cells(size_t *length)
{
    char *text = malloc((size_t)CELLS * 80 + 100);
    if (!text)
        exit(1);
    size_t used = (size_t)snprintf(text, 100, "code,marking,class,volts,origin\n");
    for (int i = 0; i < CELLS; i++)
        used += (size_t)snprintf(text + used, 80, "Z%06d,ICR18650-%d,4v2,%.3f,laptop %d\n", i, 20 + i % 37,
                                 2.6 + 0.001 * (i % 1500), i / 6);
    *length = used;
    return text;
}

static bool count_one(void *payload, const void *record)
{
    (void)record;
    ++*(int *)payload;
    return true;
}

static bool by_code(void *payload, const void *record)
{
    const lw_cell_view *view = record;
    lw_cell_record *cells = payload;
    cells[strtol(view->cell.code + 1, NULL, 10)] = view->cell;
    return true;
}

/* A store after years of work: nearly all cells are judged and sit in packs; a few are free, a few never judged, a few
 * scrap, all near the end of the codes, where a list that reads on would find them last. */
static void make_old(lw_store *store)
{
    lw_error err = {0};
    lw_cell_record *cells = calloc(CELLS, sizeof *cells);
    if (!cells)
        exit(1);
    must(lw_store_cells(store, &(lw_cell_filter){.crate = "C"}, by_code, cells, &err), &err);
    must(lw_store_begin(store, "years of work", &err), &err);
    lw_pack_record pack = {.code = "P", .series = 1, .voltage_class = "4v2", .state = "built"};
    must(lw_store_put(store, LW_PACKS, &pack, &err), &err);
    for (int i = 0; i < CELLS - 20; i++) {
        const bool scrap = i >= CELLS - 40;
        lw_standing_record standing = {.capacity_ah = 2.0, .reasons = "Its capacity is known.", .at = "2026"};
        (void)snprintf(standing.verdict, sizeof standing.verdict, "%s", scrap ? "scrap" : "sound");
        memcpy(standing.cell, cells[i].id, LW_ID);
        must(lw_store_put(store, LW_STANDINGS, &standing, &err), &err);
        lw_slot_record slot = {.group = 1, .place = i + 1, .since = "2026"};
        memcpy(slot.pack, pack.id, LW_ID);
        memcpy(slot.cell, cells[i].id, LW_ID);
        must(i >= CELLS - 60 || lw_store_put(store, LW_SLOTS, &slot, &err), &err);
    }
    must(lw_store_commit(store, &err), &err);
    free(cells);
}

static double best_list(lw_store *store, const lw_cell_filter *filter, int *rows)
{
    double best = 1e9;
    for (int i = 0; i < REPEATS; i++) {
        lw_error err = {0};
        const double began = now_s();
        *rows = 0;
        must(lw_store_cells(store, filter, count_one, rows, &err), &err);
        const double took = now_s() - began;
        best = took < best ? took : best;
    }
    return best;
}

static void lists(lw_store *store, const char *path)
{
    const struct {
        const char *name;
        lw_cell_filter filter;
    } asks[] = {
        {"page_of_50", {.crate = "C", .after = "Z050000", .limit = 50}},
        {"code_begins", {.search = "Z0731", .limit = 50}},
        {"marking_begins", {.search = "ICR18650-3", .limit = 50}},
        {"free_among_used", {.free_only = true, .limit = 50}},
        {"free_sound_of_crate", {.crate = "C", .verdict = "sound", .free_only = true, .limit = 50}},
        {"never_judged", {.verdict = "untested", .limit = 50}},
        {"scrap_of_crate", {.crate = "C", .verdict = "scrap", .limit = 50}},
        {"code_begins_free", {.search = "Z", .free_only = true, .limit = 50}},
        {"marking_begins_scrap", {.search = "ICR18650", .verdict = "scrap", .limit = 50}},
        {"marking_begins_none", {.crate = "C", .search = "ICR", .verdict = "tired", .free_only = true, .limit = 50}},
        {"one_cell", {.search = "Z077777", .limit = 1}},
    };
    for (size_t i = 0; i < sizeof asks / sizeof asks[0]; i++) {
        int rows;
        const double took = best_list(store, &asks[i].filter, &rows);
        (void)printf("result list_of_cells %s %.6f\n%s: %d rows\n", asks[i].name, took, asks[i].name, rows);
    }
    sqlite3 *db;
    if (sqlite3_open(path, &db) != SQLITE_OK)
        exit(1);
    const double began = now_s();
    (void)sqlite3_exec(db, "SELECT count(*) FROM cell WHERE note || code LIKE '%0731%'", NULL, NULL, NULL);
    (void)printf("result list_of_cells without_index %.6f\n", now_s() - began);
    (void)sqlite3_close(db);
}

static double one_by_one(lw_store *store)
{
    const double began = now_s();
    for (int i = 0; i < SINGLE; i++) {
        lw_error err = {0};
        lw_cell_record cell = lw_cell_blank();
        (void)snprintf(cell.code, sizeof cell.code, "Y%d", i);
        must(lw_desk_cell_add(store, "C", &cell, &err), &err);
    }
    return (now_s() - began) / SINGLE * CELLS;
}

int main(void)
{
    char folder[] = "/tmp/lanewick-speed-XXXXXX", path[100], name[3][120];
    if (!mkdtemp(folder))
        return 1;
    (void)snprintf(path, sizeof path, "%s/a.store", folder);
    lw_error err = {0};
    lw_store *store;
    must(lw_store_open(&(lw_store_options){.path = path, .create = true}, &store, &err), &err);
    lw_crate_record crate = {.code = "C"};
    must(lw_store_put(store, LW_CRATES, &crate, &err), &err);
    size_t length;
    char *text = table_of_cells(&length);
    const double began = now_s();
    lw_import_report report;
    const lw_import_request request = {.crate = "C", .bytes = text, .length = length, .common = lw_cell_blank()};
    must(lw_desk_import(store, &request, &report, &err) && report.stored && report.good == CELLS, &err);
    (void)printf("result import_100000_cells one_transaction %.6f\n", now_s() - began);
    (void)printf("result import_100000_cells cell_by_cell %.6f\n", one_by_one(store));
    make_old(store);
    lists(store, path);
    lw_store_close(store);
    free(text);
    static const char *const endings[] = {"", "-wal", "-shm"};
    for (int i = 0; i < 3; i++) {
        (void)snprintf(name[i], sizeof name[i], "%s%s", path, endings[i]);
        (void)unlink(name[i]);
    }
    return rmdir(folder);
}
