/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the crate of a store to a plan and back: the plan names free, judged cells only and each once; using it reserves
 * all of them or none, once, also when two processes try at the same moment; a crate of uneven cells lights as many
 * lamps as counting by hand says.
 */
#include "crate_place.h"
#include "lanewick/desk.h"
#include "lanewick/desk_crate.h"
#include "lanewick/plan_code.h"

#include <math.h>
#include <string.h>
#include <sys/wait.h>

static lw_plan plan;

#define DO(call)                         \
    do {                                 \
        lw_error err = {0};              \
        if (!(call))                     \
            fail_msg("%s", err.message); \
    } while (0)

/* A judged cell. */
static void add(const char *code, const char *verdict, double ah)
{
    lw_cell_record cell = lw_cell_blank();
    memcpy(cell.crate, crate.id, LW_ID);
    (void)snprintf(cell.code, sizeof cell.code, "%s", code);
    (void)snprintf(cell.voltage_class, sizeof cell.voltage_class, "4v2");
    cell.rated_ah = 2.4;
    DO(lw_store_put(store, LW_CELLS, &cell, &err));
    lw_standing_record standing = {.capacity_ah = ah,
                                   .capacity_sd_ah = 0.02,
                                   .resistance_ohm = 0.07,
                                   .resistance_sd_ohm = NAN,
                                   .self_discharge_pct = NAN,
                                   .self_discharge_sd_pct = NAN};
    (void)snprintf(standing.verdict, sizeof standing.verdict, "%s", verdict);
    memcpy(standing.cell, cell.id, LW_ID);
    DO(lw_store_put(store, LW_STANDINGS, &standing, &err));
}

static void add_many(const char *letter, int n, double least_ah, double step_ah)
{
    DO(lw_store_begin(store, "cells", &err));
    for (int i = 0; i < n; i++) {
        char code[12];
        (void)snprintf(code, sizeof code, "%s%d", letter, i);
        add(code, i % 3 ? "sound" : "tired", least_ah + step_ah * i);
    }
    DO(lw_store_commit(store, &err));
}

/* The plan's document; free() it. */
static char *plan_of(int lamps, int lumens)
{
    char brief[1024], *with_cells = NULL;
    const int n = snprintf(
        brief, sizeof brief,
        "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": 9.1, \"lon_deg\": -79.4}, \"want\": {\"lamps\": "
        "[{\"name\": \"path lamp\", \"count\": %d, \"lumens\": %d}], \"dark_nights_per_year\": 8, \"planned_years\": "
        "2}, \"shelf\": {\"panels\": [{\"watts\": 20, \"count\": 60, \"price\": 12.5}], \"cells\": [{\"class\": "
        "\"4v2\", \"crate\": \"C\", \"price\": 0.4}], \"chargers\": [{\"kind\": \"direct\", \"series\": 3, "
        "\"end_v_per_cell\": 4.1, \"cold_stop_c\": 0, \"hot_stop_c\": 45, \"most_input_v\": 30, \"price\": 3.75}]}}",
        lamps, lumens);
    DO(lw_desk_brief_crates(path, brief, (size_t)n, &with_cells, &err));
    assert_non_null(with_cells);
    const lw_plan_request request = {
        .brief = with_cells, .brief_length = strlen(with_cells), .seed = 1, .no_files = true};
    DO(lw_desk_plan(&request, &plan, &err));
    char *document = lw_plan_to_json(&plan, with_cells, strlen(with_cells));
    assert_non_null(document);
    free(with_cells);
    return document;
}

static bool use(lw_store *from, const char *document, lw_used_plan *out, lw_error *err)
{
    static unsigned char room[4 << 20];
    const lw_use_plan ask = {.text = document, .length = strlen(document)};
    assert_true(lw_desk_use_plan_memory(ask.length) <= sizeof room);
    lw_arena arena = lw_arena_over(room, sizeof room);
    return lw_desk_use_plan(from, &ask, &arena, out, err);
}

static bool count_one(void *payload, const void *record)
{
    (void)record;
    ++*(int *)payload;
    return true;
}

static int free_cells(void)
{
    int n = 0;
    DO(lw_store_cells(store, &(lw_cell_filter){.crate = "C", .free_only = true}, count_one, &n, &err));
    return n;
}

static bool keep_pack(void *payload, const void *record)
{
    (void)snprintf(payload, LW_CODE, "%s", ((const lw_cell_view *)record)->pack);
    return false;
}

static void pack_of(const char *code, char pack[LW_CODE])
{
    DO(lw_store_cells(store, &(lw_cell_filter){.search = code, .limit = 1}, keep_pack, pack, &err));
}

static void plan_takes_judged_cells_and_use_reserves_them(void **state)
{
    (void)state;
    add_many("A", 30, 1.7, 0.02);
    add("X1", "scrap", 2.4);
    add("X2", "unsure", 2.4);
    char *document = plan_of(2, 110);
    assert_int_equal(plan.pack_count, 2);
    assert_int_equal(plan.lamps_without, 0);
    assert_non_null(strstr(plan.left_out.item[0].reason, "2 of 32 cells of C are left out: 1 scrap, 1 unsure"));
    /* 1.7 to 2.28 Ah, mean 1.99, of 2.4 Ah when new */
    assert_true(fabs(plan.brief.shelf.cell[0].health - 1.99 / 2.4) < 1e-9);
    for (size_t i = 0; i < plan.cell_count; i++) {
        assert_true(plan.cell_id[i][0] == 'A');
        for (size_t k = 0; k < i; k++)
            assert_string_not_equal(plan.cell_id[i], plan.cell_id[k]);
    }
    const int named = (int)plan.cell_count;
    char first[LW_PLAN_CELL_ID], pack[LW_CODE] = "";
    memcpy(first, plan.cell_id[0], sizeof first);
    lw_used_plan used;
    DO(use(store, document, &used, &err));
    assert_int_equal(used.planned.packs, 2);
    assert_int_equal(free_cells(), 32 - named);
    pack_of(first, pack);
    char of[16], label[48];
    lw_plan_code(&plan, of);
    assert_string_equal(pack, lw_thing_code(label, sizeof label, 'P', of, 1, 1)); /* as on its label */
    /* a second time: refused, and nothing half-reserved */
    lw_error why = {0};
    assert_false(use(store, document, &used, &why));
    assert_int_equal(why.family, LW_WRONG_INPUT);
    assert_non_null(strstr(why.message, "sits in pack P"));
    assert_int_equal(free_cells(), 32 - named);
    int plans = 0;
    DO(lw_store_each(store, LW_PLANS, NULL, NULL, count_one, &plans, &err));
    assert_int_equal(plans, 1);
    /* a plan made now takes others */
    char *second = plan_of(2, 110);
    for (size_t i = 0; i < plan.cell_count; i++)
        assert_string_not_equal(plan.cell_id[i], first);
    assert_non_null(strstr(plan.left_out.item[0].reason, "in packs"));
    int freed;
    DO(lw_desk_free(store, label, "weak", &freed, &err));
    assert_int_equal(freed, named / 2);
    pack_of(first, pack);
    assert_string_equal(pack, "");
    DO(lw_store_check(store, &err));
    free(document);
    free(second);
}

/* One cell of the plan has become scrap since: refused for safety, and none of the others is reserved. */
static void use_is_all_or_nothing(void **state)
{
    (void)state;
    add_many("A", 30, 1.7, 0.02);
    char *document = plan_of(1, 110);
    lw_cell_record cell;
    lw_standing_record standing;
    bool found;
    DO(lw_store_get(store, LW_CELLS, "code", plan.cell_id[plan.cell_count - 1], &cell, &found, &err));
    DO(lw_store_get(store, LW_STANDINGS, "cell", cell.id, &standing, &found, &err));
    (void)snprintf(standing.verdict, sizeof standing.verdict, "scrap");
    DO(lw_store_put(store, LW_STANDINGS, &standing, &err));
    lw_used_plan used;
    lw_error why = {0};
    assert_false(use(store, document, &used, &why));
    assert_int_equal(why.family, LW_REFUSED);
    assert_non_null(strstr(why.message, "is now scrap"));
    assert_int_equal(free_cells(), 30);
    why = (lw_error){0};
    assert_false(use(store, "{\"format\": \"lanewick.plan/1\", \"refused\": []}", &used, &why));
    assert_int_equal(why.family, LW_REFUSED);
    static const char *const wrong[] = {
        "{}", "{\"format\": \"lanewick.plan/1\", \"lamps\": []}",
        "{\"format\": \"lanewick.plan/1\", \"lamps\": [{\"name\": \"a\", \"pack\": {\"voltage_class\": \"4v2\", "
        "\"groups\": [[\"A1\"], [\"a1\"]]}}]}",
        "{\"format\": \"lanewick.plan/1\", \"lamps\": [{\"name\": \"a\", \"pack\": {\"voltage_class\": \"4v2\", "
        "\"groups\": [[]]}}]}"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        why = (lw_error){0};
        assert_false(use(store, wrong[i], &used, &why));
        assert_int_equal(why.family, LW_WRONG_INPUT);
    }
    assert_int_equal(free_cells(), 30);
    free(document);
}

static void two_people_use_one_plan(void **state)
{
    (void)state;
    add_many("A", 30, 1.7, 0.02);
    char *document = plan_of(2, 110);
    const int named = (int)plan.cell_count;
    lw_store_close(store);
    pid_t children[3];
    for (int c = 0; c < 3; c++) {
        children[c] = fork();
        if (children[c] != 0)
            continue;
        lw_store *mine = open_store();
        lw_used_plan used;
        lw_error err = {0};
        const bool got = use(mine, document, &used, &err);
        lw_store_close(mine);
        _exit(got ? 0 : err.family == LW_WRONG_INPUT ? 3 : 1);
    }
    int got = 0, told = 0;
    for (int c = 0; c < 3; c++) {
        int status;
        assert_int_equal(waitpid(children[c], &status, 0), children[c]);
        got += WIFEXITED(status) && WEXITSTATUS(status) == 0;
        told += WIFEXITED(status) && WEXITSTATUS(status) == 3;
    }
    store = open_store();
    assert_int_equal(got, 1);
    assert_int_equal(told, 2);
    assert_int_equal(free_cells(), 30 - named);
    free(document);
}

/* 24 strong cells (2.24 Ah) and 27 weak ones (1.5 Ah). A lamp of 200 lm needs more than 2 x 1.85 Ah a group, their
 * mean: mixed, three in a group make 51 / 9 = 5 lamps. Apart, the strong make 24 / 6 = 4 lamps of two in a group, which
 * hold 4.48 Ah, and the weak 27 / 9 = 3 lamps of three, which hold 4.5 Ah. */
static void uneven_cells_light_most_in_grades(void **state)
{
    (void)state;
    add_many("S", 24, 2.24, 0.0);
    add_many("W", 27, 1.5, 0.0);
    free(plan_of(20, 200));
    int lit = 0;
    for (size_t k = 0; k < plan.kind_count; k++)
        lit += plan.kind[k].keeps ? plan.kind[k].count : 0;
    assert_int_equal(lit, 7);
    for (size_t i = 0; i < plan.pack_count; i++) {
        const lw_plan_pack *pack = &plan.pack[i];
        const lw_design *design = &plan.kind[pack->kind].design;
        const char letter = plan.cell_id[pack->first][0];
        for (int c = 0; c < design->series * design->parallel; c++)
            assert_true(plan.cell_id[pack->first + (size_t)c][0] == letter); /* of one grade */
        assert_int_equal(design->parallel, letter == 'S' ? 2 : 3);
    }
}

static void without_a_store(void **state)
{
    (void)state;
    const char brief[] = "{\"shelf\": {\"cells\": [{\"class\": \"4v2\", \"crate\": \"C\"}]}}";
    char *out;
    lw_error why = {0};
    assert_false(lw_desk_brief_crates(NULL, brief, sizeof brief - 1, &out, &why));
    assert_non_null(strstr(why.message, "say which store"));
    why = (lw_error){0};
    assert_false(lw_desk_brief_crates(path, brief, sizeof brief - 1, &out, &why)); /* no cells yet */
    assert_int_equal(why.family, LW_REFUSED);
    const char other[] = "{\"shelf\": {\"cells\": [{\"class\": \"4v2\", \"crate\": \"Z\"}]}}";
    why = (lw_error){0};
    assert_false(lw_desk_brief_crates(path, other, sizeof other - 1, &out, &why));
    assert_int_equal(why.family, LW_WRONG_INPUT);
    const char none[] = "{\"shelf\": {\"cells\": [{\"class\": \"4v2\", \"count\": 3}]}}";
    DO(lw_desk_brief_crates(NULL, none, sizeof none - 1, &out, &err));
    assert_null(out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(plan_takes_judged_cells_and_use_reserves_them, set_up, tear_down),
        cmocka_unit_test_setup_teardown(use_is_all_or_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(two_people_use_one_plan, set_up, tear_down),
        cmocka_unit_test_setup_teardown(uneven_cells_light_most_in_grades, set_up, tear_down),
        cmocka_unit_test_setup_teardown(without_a_store, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
