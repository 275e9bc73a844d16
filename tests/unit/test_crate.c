/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wishes about crates: verdicts that learn from cells of the same marking, the bench plan, packs that reserve cells
 * once, also when several people reserve at the same moment; and the small readers behind them.
 */
#include "crate_place.h"
#include "lanewick/climate.h"
#include "lanewick/desk_bench.h"
#include "lanewick/desk_crate.h"
#include "lanewick/flat_json.h"

#include <math.h>
#include <string.h>
#include <sys/wait.h>

static void add(const char *code, const char *marking, double found_v)
{
    lw_cell_record cell = lw_cell_blank();
    lw_error err = {0};
    (void)snprintf(cell.code, sizeof cell.code, "%s", code);
    (void)snprintf(cell.marking, sizeof cell.marking, "%s", marking);
    (void)snprintf(cell.voltage_class, sizeof cell.voltage_class, "4v2");
    cell.found_v = found_v;
    if (!lw_desk_cell_add(store, "C", &cell, &err))
        fail_msg("%s", err.message);
}

static void record(const lw_cell_test *test)
{
    lw_result_record results[LW_TEST_RESULTS];
    int count;
    lw_error err = {0};
    if (!lw_desk_test(store, test, results, &count, &err))
        fail_msg("%s", err.message);
}

/* Capacity off a charger, two loads, a voltage after a day: enough for "sound". */
static void test_cell(const char *code, double capacity_ah)
{
    lw_cell_test test = lw_cell_test_blank();
    test.cell = code;
    test.method = "charger";
    test.capacity_ah = capacity_ah;
    test.current_a = 0.43;
    record(&test);
    test = lw_cell_test_blank();
    test.cell = code;
    test.method = "two_pulse";
    test.pulse_v[0] = 3.97;
    test.pulse_v[1] = 3.86;
    test.pulse_a[0] = 0.41;
    test.pulse_a[1] = 2.03;
    record(&test);
    const double held_v = 4.127;
    test = lw_cell_test_blank();
    test.cell = code;
    test.method = "hold";
    test.volts_v = &held_v;
    test.n = 1;
    record(&test);
}

static unsigned char memory[4 << 20];

static const lw_judged_cell *judged(const lw_judged_cell *cells, size_t n, const char *code)
{
    for (size_t i = 0; i < n; i++)
        if (strcmp(cells[i].cell.code, code) == 0)
            return &cells[i];
    fail_msg("%s was not judged", code);
    return NULL;
}

static lw_judged_cell *judge(lw_arena *arena, size_t *n)
{
    lw_judged_cell *cells;
    lw_error err = {0};
    *arena = lw_arena_over(memory, sizeof memory);
    if (!lw_desk_judge(store, "C", arena, &cells, n, &err))
        fail_msg("%s", err.message);
    return cells;
}

static void alike_cells_teach(void **state)
{
    (void)state;
    const double capacities[] = {1.91, 2.02, 2.07, 1.98, 2.13};
    for (int i = 0; i < 5; i++) {
        char code[8];
        (void)snprintf(code, sizeof code, "A%d", i);
        add(code, "ICR18650-22", 3.63);
        test_cell(code, capacities[i]);
    }
    add("B1", "ICR18650-22", 3.58); /* untested, same marking */
    add("B2", "INR21700", 3.58);    /* untested, another one */
    add("B3", "ICR18650-22", 1.42); /* found too low */
    lw_arena arena;
    size_t n;
    const lw_judged_cell *cells = judge(&arena, &n);
    assert_int_equal(n, 8);
    assert_string_equal(judged(cells, n, "A1")->standing.verdict, "sound");
    const lw_judged_cell *taught = judged(cells, n, "B1");
    assert_string_equal(taught->standing.verdict, "unsure");
    assert_int_equal(taught->facts.capacity_ah.tests, 0);
    assert_true(fabs(taught->standing.capacity_ah - 2.02) < 0.05); /* near the mean of the five, as read at 0.43 A */
    assert_true(taught->standing.capacity_sd_ah > judged(cells, n, "A1")->standing.capacity_sd_ah);
    assert_true(isnan(judged(cells, n, "B2")->standing.capacity_ah));
    assert_string_equal(judged(cells, n, "B3")->standing.verdict, "scrap");

    const lw_bench bench = {.resistors = 1, .load_ohm = 4.0, .slots = 1, .charge_a = 1.0, .hours_day = 6.0};
    lw_bench_week week;
    lw_error err = {0};
    assert_true(lw_desk_bench_plan(cells, n, "4v2", &bench, &arena, &week, &err));
    assert_int_equal(week.count, 2); /* neither the tested ones nor the scrap one */
    assert_true(week.read_day[0] >= 2 && week.read_day[1] >= week.read_day[0] && week.days.days == week.read_day[1]);
    assert_true(week.charge_day[0] < week.read_day[0]);
    assert_true(fabs(week.charge_wh[0] + week.charge_wh[1] - week.days.energy_wh) < 1e-9);
}

/* Two ways to the same sun: the days of the synthetic years on a nearly flat plane behind glass, and the monthly means
 * that they were made from. Within 10 degrees of the equator tilt and glass change little (Duffie and Beckman): each
 * month within 20 %, the year within 8 %. */
static void bench_sun_is_that_of_the_climate(void **state)
{
    (void)state;
    lw_climate_data data;
    lw_climate climate;
    lw_place place = {.lat_deg = -1.3, .lon_deg = 36.8, .elev_m = NAN};
    lw_bench_sun sun;
    lw_error err = {0};
    assert_true(lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, &err));
    assert_true(lw_climate_at(&data, -1.3, 36.8, NAN, &climate, &err));
    assert_true(lw_desk_bench_sun(&place, NULL, 20.0, &sun, &err));
    double given = 0.0, found = 0.0;
    for (int m = 0; m < 12; m++) {
        assert_true(fabs(sun.kwh_m2_day[m] / climate.ghi_kwh_m2_day[m] - 1.0) < 0.2);
        assert_true(fabs(sun.wh_day[m] - 20.0 * 0.75 * sun.kwh_m2_day[m]) < 1e-9);
        assert_true(sun.poor_wh[m] > 0.0 && sun.poor_wh[m] < sun.wh_day[m]);
        given += climate.ghi_kwh_m2_day[m];
        found += sun.kwh_m2_day[m];
    }
    assert_true(fabs(found / given - 1.0) < 0.08);
    place.lat_deg = 91.0;
    assert_false(lw_desk_bench_sun(&place, NULL, 20.0, &sun, &err));
}

/* A brief's own monthly means, twice as bright in July as in January and otherwise alike: the bench's sun follows them,
 * not the climate of the position. */
static void bench_sun_is_that_of_the_brief(void **state)
{
    (void)state;
    lw_place place = {.lat_deg = -1.3, .lon_deg = 36.8, .elev_m = 1600.0, .monthly = true};
    lw_bench_sun sun;
    lw_error err = {0};
    for (int m = 0; m < 12; m++) {
        place.ghi_kwh_m2_day[m] = m == 6 ? 6.0 : m == 0 ? 3.0 : 4.5;
        place.t_mean_c[m] = place.t_range_c[m] = place.wind_10m_ms[m] = place.rain_mm[m] = NAN;
    }
    assert_true(lw_desk_bench_sun(&place, NULL, 20.0, &sun, &err));
    assert_true(fabs(sun.kwh_m2_day[6] / sun.kwh_m2_day[0] - 2.0) < 0.35);
    place.ghi_kwh_m2_day[3] = 40.0;
    assert_false(lw_desk_bench_sun(&place, NULL, 20.0, &sun, &err));
    assert_non_null(strstr(err.message, "place.monthly."));
}

static bool use_one(lw_store *from, lw_use *use, lw_error *err)
{
    static unsigned char room[80 << 20];
    lw_arena arena = lw_arena_over(room, sizeof room);
    const lw_use_request request = {.series = 1, .parallel = 2, .packs = 1, .confidence = 0.9, .seed = 1};
    return lw_desk_use(from, &request, &arena, use, err);
}

static bool count_open(void *payload, const void *record_)
{
    const lw_slot_record *slot = record_;
    *(int *)payload += slot->until[0] == '\0';
    return true;
}

/* Four processes take two of six cells each, at once: three get a pack, one is told that nothing is left. */
static void cells_are_reserved_once(void **state)
{
    (void)state;
    for (int i = 0; i < 6; i++) {
        char code[8];
        (void)snprintf(code, sizeof code, "A%d", i);
        add(code, "", 3.63);
        test_cell(code, 1.9 + 0.037 * i);
    }
    lw_arena arena;
    size_t n;
    (void)judge(&arena, &n);
    lw_store_close(store);
    pid_t children[4];
    for (int c = 0; c < 4; c++) {
        children[c] = fork();
        if (children[c] != 0)
            continue;
        lw_store *mine = open_store();
        lw_use use;
        lw_error err = {0};
        const bool got = use_one(mine, &use, &err);
        lw_store_close(mine);
        _exit(got ? 0 : err.family == LW_NOT_COMPUTABLE ? 3 : 1);
    }
    int packs = 0, refused = 0;
    for (int c = 0; c < 4; c++) {
        int status;
        assert_int_equal(waitpid(children[c], &status, 0), children[c]);
        packs += WIFEXITED(status) && WEXITSTATUS(status) == 0;
        refused += WIFEXITED(status) && WEXITSTATUS(status) == 3;
    }
    assert_int_equal(packs, 3);
    assert_int_equal(refused, 1);
    store = open_store();
    lw_error err = {0};
    int open_slots = 0, freed = 0;
    assert_true(lw_store_each(store, LW_SLOTS, NULL, NULL, count_open, &open_slots, &err));
    assert_int_equal(open_slots, 6);
    assert_true(lw_desk_free(store, "P2", "for its cells", &freed, &err));
    assert_int_equal(freed, 2);
    lw_use use;
    assert_true(use_one(store, &use, &err)); /* the two are free again */
    assert_string_equal(use.pack[0].code, "P4");
    assert_true(lw_store_check(store, &err));
    assert_false(lw_desk_free(store, "P9", NULL, &freed, &err));
}

static bool sum_up(void *payload, const lw_flat_value *value, lw_error *err)
{
    (void)err;
    double *sum = payload;
    *sum += value->kind == LW_FLAT_TEXT ? 100.0 : value->kind == LW_FLAT_NULL ? 1000.0 : value->real;
    return true;
}

static void small_readers(void **state)
{
    (void)state;
    lw_error err = {0};
    double sum = 0.0;
    const char json[] = "{\"a\":\"x\",\"b\":null,\"c\":2,\"d\":0.25}";
    assert_true(lw_flat_json_read(json, sizeof json - 1, sum_up, &sum, &err));
    assert_true(sum == 1102.25);
    static const char *const bad[] = {"{\"a\":[1]}", "{\"a\":true}", "[1]", "{\"a\":1,\"a\":2}", "{\"a\":", ""};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        err = (lw_error){0};
        assert_false(lw_flat_json_read(bad[i], strlen(bad[i]), sum_up, &sum, &err));
        assert_int_equal(err.family, LW_WRONG_INPUT);
    }
    char text[8], class[12], look[LW_WORD];
    assert_true(lw_record_text("note", "\xC3\xA9t\xC3\xA9", text, sizeof text, &err));
    static const char *const unfit[] = {"much too long", "\xFF", "\xC3", "a\nb", "\xE2\x82"};
    for (size_t i = 0; i < sizeof unfit / sizeof unfit[0]; i++)
        assert_false(lw_record_text("note", unfit[i], text, sizeof text, &err));
    assert_true(lw_class_read("NCA", class, &err) && strcmp(class, "4v2") == 0);
    assert_true(lw_class_read("4,35", class, &err) && strcmp(class, "4v35") == 0);
    assert_false(lw_class_read("5v", class, &err));
    assert_true(lw_look_read("smells; DENT/rusty", look, &err) && strcmp(look, "dent rust smell") == 0);
    assert_true(lw_look_read("-", look, &err) && look[0] == '\0');
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(alike_cells_teach, set_up, tear_down),
        cmocka_unit_test(bench_sun_is_that_of_the_climate),
        cmocka_unit_test(bench_sun_is_that_of_the_brief),
        cmocka_unit_test_setup_teardown(cells_are_reserved_once, set_up, tear_down),
        cmocka_unit_test(small_readers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
