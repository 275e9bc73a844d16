/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Plans from lists of tested cells: every cell in one pack at most, sums by hand, like cells give the plan of their
 * count, unlike cells never a better one, refusals.
 */
#include "lanewick/desk.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { CELLS = 40 };
static lw_plan plan;

static const char shape[] =
    "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": 9.1, \"lon_deg\": -79.4}, \"want\": {\"lumens\": 200, "
    "\"dark_nights_per_year\": 6, \"planned_years\": 1}, \"shelf\": {\"panels\": [{\"watts\": 20, \"count\": 2, "
    "\"price\": 12.5}], \"cells\": [{\"class\": \"4v2\", \"capacity_sd_pct\": 0, %s, \"price\": 0.4}], \"chargers\": "
    "[{\"kind\": \"direct\", \"series\": 3, \"end_v_per_cell\": 4.1, \"cold_stop_c\": 0, \"hot_stop_c\": 45, "
    "\"most_input_v\": 30, \"price\": 3.75}]}}";

static bool make(const char *cells, const char *folder, bool no_files, lw_error *err)
{
    char brief[2048];
    const int n = snprintf(brief, sizeof brief, shape, cells);
    const lw_plan_request request = {
        .brief = brief, .brief_length = (size_t)n, .folder = folder, .seed = 3, .no_files = no_files};
    return lw_desk_plan(&request, &plan, err);
}

static void write_list(const char *folder, const char *name, int n, double odd_ah, double even_ah)
{
    char path[512];
    (void)snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    (void)fputs("cell_id,capacity_ah,resistance_mohm\r\n", file);
    for (int i = 0; i < n; i++)
        (void)fprintf(file, "cell-%d,%.3f,90\r\n", i, i % 2 ? odd_ah : even_ah);
    assert_int_equal(fclose(file), 0);
}

static char *make_folder(char *out, size_t size)
{
    (void)snprintf(out, size, "/tmp/lanewick-crate-XXXXXX");
    return mkdtemp(out);
}

static void clear(const char *folder)
{
    static const char *const names[] = {"like.csv", "unlike.csv", "cut.csv", "few.csv"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[512];
        (void)snprintf(path, sizeof path, "%s/%s", folder, names[i]);
        (void)remove(path);
    }
    assert_int_equal(remove(folder), 0);
}

/* The list of the repository, as this test reads it: capacity by id, 0 for cells that no pack may hold. */
static double list_ah(const char *id)
{
    FILE *file = fopen(LW_SOURCE_DIR "/tests/data/crates/forty.csv", "rb");
    assert_non_null(file);
    char line[256];
    double found = -1.0;
    while (fgets(line, sizeof line, file)) {
        char code[64], marking[64], verdict[16], class[16];
        double ah, sd, mohm;
        if (sscanf(line, "%63[^,],%63[^,],%lf,%lf,%lf,%15[^,],%15s", code, marking, &ah, &sd, &mohm, verdict, class) ==
                7 &&
            strcmp(code, id) == 0)
            found = strcmp(class, "4v2") == 0 && (strcmp(verdict, "sound") == 0 || strcmp(verdict, "tired") == 0) ? ah
                                                                                                                  : 0.0;
    }
    (void)fclose(file);
    return found;
}

static void read_whole(const char *path, char *out, size_t size, size_t *length)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    *length = fread(out, 1, size - 1, file);
    (void)fclose(file);
    out[*length] = '\0';
}

static void check_pack(const lw_plan_pack *pack)
{
    const lw_plan_kind *kind = &plan.kind[pack->kind];
    size_t next = pack->first;
    double weakest = INFINITY;
    for (int g = 0; g < kind->design.series; g++) {
        double sum = 0.0;
        for (int p = 0; p < kind->design.parallel; p++) {
            const double ah = list_ah(plan.cell_id[next++]);
            assert_true(ah > 0.0);
            sum += ah;
        }
        assert_true(fabs(sum - pack->group_ah[g]) < 1e-9);
        weakest = fmin(weakest, sum);
    }
    assert_true(fabs(weakest - pack->weakest_ah) < 1e-9);
}

static void cells_of_the_list(void **state)
{
    (void)state;
    char brief[8192];
    size_t length;
    lw_error err = {0};
    read_whole(LW_SOURCE_DIR "/tests/briefs/crate.json", brief, sizeof brief, &length);
    const lw_plan_request request = {
        .brief = brief, .brief_length = length, .folder = LW_SOURCE_DIR "/tests/briefs", .seed = 1};
    if (!lw_desk_plan(&request, &plan, &err))
        fail_msg("%s", err.message);
    assert_int_equal(plan.refused.count, 0);
    assert_int_equal(plan.lamps_without, 0);
    assert_int_equal(plan.pack_count, 3);
    assert_int_equal(plan.brief.shelf.cell[0].count, 34);
    for (size_t i = 0; i < plan.pack_count; i++)
        check_pack(&plan.pack[i]);
    for (size_t i = 0; i < plan.cell_count; i++)
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(plan.cell_id[i], plan.cell_id[k]);
    assert_int_equal(plan.left_out.count, 1);
    assert_non_null(strstr(plan.left_out.item[0].reason, "6 of 40"));
    double mean = 0.0, sure = 0.0; /* the same nights with weaker packs: never fewer dark ones, and here some more */
    for (size_t k = 0; k < plan.kind_count; k++) {
        assert_true(plan.kind[k].guaranteed);
        assert_true(plan.kind[k].guaranteed_dark.mean >= plan.kind[k].outcome.dark.mean);
        mean += plan.kind[k].outcome.dark.mean;
        sure += plan.kind[k].guaranteed_dark.mean;
    }
    assert_true(sure > mean);
}

/* A list of like cells is the count of them. */
static void like_cells(void **state)
{
    (void)state;
    char folder[64];
    lw_error err = {0};
    assert_non_null(make_folder(folder, sizeof folder));
    if (!make("\"capacity_ah\": 2.05, \"count\": 40", ".", false, &err))
        fail_msg("%s", err.message);
    const lw_plan_kind counted = plan.kind[0];
    assert_int_equal(plan.pack_count, 0);
    write_list(folder, "like.csv", CELLS, 2.05, 2.05);
    if (!make("\"cells_file\": \"like.csv\"", folder, false, &err))
        fail_msg("%s", err.message);
    assert_int_equal(plan.pack_count, 1);
    assert_true(lw_design_same(&counted.design, &plan.kind[0].design));
    assert_true(counted.outcome.dark.mean == plan.kind[0].outcome.dark.mean);
    assert_true(counted.keeps == plan.kind[0].keeps);
    assert_false(plan.kind[0].guaranteed); /* no uncertainty is told */
    clear(folder);
}

/* 2.6 and 1.5 Ah in turn: the same mean. An odd number in parallel cannot be made even, and the plan sees it; in no
 * case is the weakest group stronger than what the cells hold. */
static void unlike_cells(void **state)
{
    (void)state;
    char folder[64];
    lw_error err = {0};
    assert_non_null(make_folder(folder, sizeof folder));
    write_list(folder, "unlike.csv", CELLS, 2.6, 1.5);
    if (!make("\"cells_file\": \"unlike.csv\"", folder, false, &err))
        fail_msg("%s", err.message);
    assert_int_equal(plan.pack_count, 1);
    const lw_plan_pack *pack = &plan.pack[0];
    const lw_design *design = &plan.kind[0].design;
    double sum = 0.0;
    for (int g = 0; g < design->series; g++)
        sum += pack->group_ah[g];
    assert_true(fabs(plan.brief.shelf.cell[0].capacity_ah - 2.05) < 1e-9);
    assert_true(pack->weakest_ah <= sum / design->series + 1e-9);
    assert_true(pack->weakest_ah >= 1.5 * design->parallel - 1e-9);
    clear(folder);
}

static void refusals(void **state)
{
    (void)state;
    char folder[64];
    lw_error err = {0};
    assert_non_null(make_folder(folder, sizeof folder));
    assert_false(make("\"cells_file\": \"none.csv\"", folder, false, &err));
    assert_int_equal(err.family, LW_WRONG_INPUT);
    assert_string_equal(err.field, "shelf.cells[1].cells_file");
    err = (lw_error){0};
    write_list(folder, "cut.csv", 0, 1.0, 1.0);
    assert_false(make("\"cells_file\": \"cut.csv\"", folder, false, &err));
    err = (lw_error){0};
    write_list(folder, "few.csv", 9, 2.0, 2.0);
    assert_false(make("\"cells_file\": \"few.csv\"", folder, true, &err)); /* a brief from elsewhere */
    if (!strstr(err.message, "names a file"))
        fail_msg("%s", err.message);
    err = (lw_error){0};
    assert_false(make("\"cells_file\": \"few.csv\", \"verdict\": \"sound\"", folder, false, &err));
    assert_non_null(strstr(err.message, "leave those three out"));
    clear(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(cells_of_the_list), cmocka_unit_test(like_cells),
                                       cmocka_unit_test(unlike_cells), cmocka_unit_test(refusals)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
