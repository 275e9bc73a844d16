/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bucket engine against maps of dark nights over array and store sizes on four real years, computed
 * independently with numpy from the same equations (tests/data/sizing-maps.csv says how).
 */
#include "lanewick/nights.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { ARENA = 16 << 20, CELLS_IN_MAPS = 168 };

static lw_system lamp_of(double panel_w, double store_wh)
{
    lw_system s = lw_system_default();
    s.sun_method = LW_SUN_SPENCER_DAILY;
    s.plane.tilt_deg = 15.0;
    s.panel.rated_w = panel_w;
    s.panel.clean_share = 1.0;
    s.charger.wire_share = 1.0;
    s.charger.tracking_share = 1.0;
    s.charger.efficiency.y[0] = 1.0;
    s.charger.charge_cutoff = false;
    s.battery = lw_battery_bucket(store_wh);
    s.box.follows_air = true;
    s.load.head_w = 1.0;
    s.load.driver.efficiency = 1.0;
    s.load.dusk_midpoints = 60;
    return s;
}

static void load_site(const char *site, lw_weather_year *year)
{
    char path[512];
    lw_error err = {0};
    (void)snprintf(path, sizeof path, LW_SOURCE_DIR "/tests/data/weather/%s.csv", site);
    FILE *file = fopen(path, "rb");
    char *bytes = malloc(2 << 20);
    assert_non_null(file);
    assert_non_null(bytes);
    const size_t length = fread(bytes, 1, 2 << 20, file);
    assert_int_equal(fclose(file), 0);
    if (!lw_weather_read(bytes, length, year, &err))
        fail_msg("%s", err.message);
    free(bytes);
}

static lw_nights run(const lw_system *system, const lw_weather_year *year, lw_arena *arena)
{
    static lw_nights nights;
    lw_error err = {0};
    if (!lw_nights_explicit(system, year, arena, &nights, &err))
        fail_msg("%s", err.message);
    return nights;
}

static void maps(void **state)
{
    (void)state;
    static lw_weather_year year;
    lw_arena arena = lw_arena_over(malloc(ARENA), ARENA);
    FILE *file = fopen(LW_SOURCE_DIR "/tests/data/sizing-maps.csv", "r");
    assert_non_null(file);
    char line[600], site[40] = "", now[40];
    double per_watt_wh = 0.0, night_wh = 0.0, array, store, unserved;
    int dark, read = 0, off = 0, worst = 0;
    while (fgets(line, sizeof line, file)) {
        if (sscanf(line, "%39[a-z-],%lf,%lf,%d,%lf", now, &array, &store, &dark, &unserved) != 5)
            continue;
        if (strcmp(now, site) != 0) {
            (void)snprintf(site, sizeof site, "%s", now);
            load_site(site, &year);
            const lw_system unit = lamp_of(1.0, 1000.0);
            const lw_nights n = run(&unit, &year, &arena);
            per_watt_wh = n.panel_year_wh / 365.0;
            night_wh = 0.0;
            for (int d = 0; d < LW_DAYS; d++)
                night_wh += n.wanted_wh[d] / 365.0;
        }
        const lw_system s = lamp_of(array * night_wh / per_watt_wh, store * night_wh / 0.97);
        const lw_nights n = run(&s, &year, &arena);
        worst = abs(n.dark_nights - dark) > worst ? abs(n.dark_nights - dark) : worst;
        off += n.dark_nights != dark;
        if (abs(n.dark_nights - dark) > 1 || fabs(n.unserved_share - unserved) > 1.5e-4)
            fail_msg("%s, array %g, store %g: %d dark nights, %.5f unserved; the map says %d, %.5f", site, array, store,
                     n.dark_nights, n.unserved_share, dark, unserved);
        read++;
    }
    assert_int_equal(fclose(file), 0);
    free(arena.base);
    print_message("%d cells of the maps, %d of them one night off, none more than %d\n", read, off, worst);
    assert_int_equal(read, CELLS_IN_MAPS);
    assert_true(off <= CELLS_IN_MAPS / 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(maps)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
