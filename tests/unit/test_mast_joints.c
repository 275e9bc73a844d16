/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The worked mast on a plate and as two pipes, by hand; bases and joints that fail.
 */
#include "worked_mast.h"

/* The worked mast on a plate: statics by hand. 22 kN/m3 x b2 x 0.5 m and 9.81 m against V (M/V + 0.5), lift taken off;
 * bolts by M/(sqrt 2 s) and a quarter of the lift, M16 4.6 of 157 mm2 (ISO 898-1, EN 1993-1-8 Table 3.4). */
static void on_a_plate(void **state)
{
    (void)state;
    lw_mast_wish w = worked();
    w.base = LW_BASE_PLATE;
    w.plate.bearing_pa = lw_soil_bearing_pa(LW_SOIL_SAND);
    w.depth_m = 0.0;
    const lw_mast_result r = check(&w);
    const lw_mast_foot *f = &r.foot;
    const double b = f->block_m, moment = r.bending.moment_nm + 0.5 * r.bending.shear_n;
    const double weight = 22e3 * b * b * 0.5 + 9.81 * r.total_kg - r.lift_n;
    near(f->overturning, 0.5 * b * weight / moment, 1e-9);
    near(f->pressure_pa, 4.0 * weight / (3.0 * b * (b - 2.0 * moment / weight)), 1e-9); /* beyond the kern */
    near(f->spacing_m, 0.0761 + 0.12, 1e-12);
    near(f->bolt_n, r.bending.moment_nm / (sqrt(2.0) * 0.1961) + 0.25 * r.lift_n, 1e-9);
    const double tension = 0.9 * 400.0 * 157.0 / 1.25, shear = 0.6 * 400.0 * 157.0 / 1.25;
    near(f->bolt_use, 1.5 * fmax(0.25 * r.bending.shear_n / shear + f->bolt_n / (1.4 * tension), f->bolt_n / tension),
         1e-9);
    near(f->anchor_m, fmax(0.32, 1.5 * f->bolt_n / (3.14159265358979 * 16.0 * 0.9) / 1000.0), 1e-9);
    assert_true(f->plate_mm * f->plate_mm >= 3.0 * 1.5 * f->bolt_n / 235.0);
    assert_int_equal(r.verdict, LW_MAST_ENGINEER);
    assert_true(says(&r, "welded to a plate"));
    assert_true(f->overturning >= 1.5);
    w.plate.block_m = b - 0.1; /* the smallest that holds: one step less tips or sinks */
    const lw_mast_result less = check(&w);
    assert_int_equal(less.verdict, LW_MAST_FALLS);
    near(less.foot.block_that_holds_m, b, 1e-12);
    w.plate.block_m = 0.0;
    w.flooded = true; /* 9.81 kN/m3 of water lift the concrete, the soil bears half */
    assert_true(check(&w).foot.block_m > b);
}

static void plates_that_fail(void **state)
{
    (void)state;
    lw_mast_wish w = worked();
    w.base = LW_BASE_PLATE;
    w.plate.bolt_mm = 10.0;
    w.plate.grade = LW_BOLT_4_6;
    w.height_m = 5.0;
    w.pipe = (lw_tube){139.7, 4.0};
    w.panel.height_m = 5.2;
    w.panel.area_m2 = 0.9;
    w.plate.bolt_spacing_m = 0.16;
    assert_true(says(&(lw_mast_result[]){check(&w)}[0], "thicker bolts, or further apart"));
    w.plate.bolt_spacing_m = 0.08; /* the nuts meet the pipe */
    lw_mast_result r;
    lw_error err = {0};
    assert_false(lw_mast_check(&w, &r, &err));
    assert_string_equal(err.field, "base.bolt_spacing_m");
    w = worked();
    w.base = LW_BASE_PLATE;
    w.plate.thickness_m = 0.3; /* 20 bolt diameters and 75 mm do not fit */
    assert_int_equal(check(&w).verdict, LW_MAST_FALLS);
    assert_true(says(&(lw_mast_result[]){check(&w)}[0], "the bolts must sit"));
    for (size_t material = 2; material < 8; material++) {
        w = worked();
        w.base = LW_BASE_PLATE;
        w.material = material;
        w.pipe = (lw_tube){160.0, 10.0};
        err = (lw_error){0};
        assert_false(lw_mast_check(&w, &r, &err));
        assert_int_equal(err.family, LW_REFUSED);
    }
    w = worked();
    w.base = LW_BASE_PLATE;
    w.plate.on_rock = true;
    assert_int_equal(check(&w).verdict, LW_MAST_ENGINEER);
    assert_true(says(&(lw_mast_result[]){check(&w)}[0], "bolted to rock"));
}

/* Two pipes, by closed form: 88.9 x 4 below, 76.1 x 3.2 above from 2 m; moments of what acts above the mouth, sway of a
 * stepped cantilever by moment areas, contact p = V/L + 6 (M + V L/2)/L2, wall as ring 3 q r/(4 pi) = f t2/4. */
static void two_pipes(void **state)
{
    (void)state;
    lw_mast_wish w = worked();
    w.pipe = (lw_tube){88.9, 4.0};
    const lw_mast_result one = check(&w);
    w.upper = (lw_mast_upper){{76.1, 3.2}, 0.0, 0.5};
    w.upper.lower_length_m = one.depth_m + 2.0;
    const lw_mast_result r = check(&w);
    const lw_mast_joint *j = &r.joint;
    near(j->mouth_m, 2.0, 1e-9);
    near(j->upper_length_m, 2.5, 1e-9);
    const double line = one.pipe_n / 4.0, f = one.panel_n + one.box_n;
    const grown g = grown_of(76.1, 3.2, 2.0, 6.0 * 1.2 + 4.0, 10.0, 6.0 * 2.2 + 4.0 * 2.0, 4.0);
    const double moment = (f * 2.2 + 0.5 * line * 4.0) * g.by + g.lean_nm + g.aside_nm, shear = f + 2.0 * line;
    near(j->bending.moment_nm, moment, 1e-6);
    const double pi = 3.14159265358979;
    const double iu = pi / 64.0 * (pow(76.1, 4) - pow(69.7, 4)), il = pi / 64.0 * (pow(88.9, 4) - pow(80.9, 4));
    near(j->bending.stress_mpa, 1000.0 * moment * 38.05 / iu, 1e-6);
    const double over_ei = 1e6 / 210e3 * (1.0 / iu - 1.0 / il); /* 1/(N m2) */
    const double more_m = (f * (8.0 / 3.0 + 0.4 / 2.0 * 2.0) + line * 2.0) * over_ei;
    near(r.bending.sway_mm, one.bending.sway_mm + 1000.0 * more_m, 0.02);      /* the softer column grows 1 % more */
    const double bent = 0.5 - 1.0 / pi, softer = 1.0 + bent * (il / iu - 1.0); /* Euler's line from half-way up */
    near(r.bending.column.alpha_cr, one.bending.column.alpha_cr / softer, 1e-9);
    near(r.vibration.frequency_hz, one.vibration.frequency_hz / sqrt(1.0 + 0.125 * (il / iu - 1.0)), 1e-9);
    const double contact = (shear / 0.5 + 6.0 * (moment + 0.25 * shear) / 0.25) / 1000.0;
    near(j->contact_n_mm, contact, 1e-6);
    near(j->wall_use, 1.5 * contact * 3.0 * (88.9 - 4.0) / 2.0 / (4.0 * pi) / (235.0 * 3.2 * 3.2 / 4.0), 1e-6);
    assert_int_equal(r.verdict, LW_MAST_ENGINEER);
    assert_true(says(&r, "made of two pipes"));
    /* the same pipe twice would sway as one: nothing is added */
    assert_true(r.bending.sway_mm > one.bending.sway_mm && r.bending.reserve <= one.bending.reserve);
}

static void joints_that_fail(void **state)
{
    (void)state;
    lw_mast_wish w = worked();
    lw_mast_result r;
    lw_error err = {0};
    w.pipe = (lw_tube){88.9, 4.0};
    w.upper = (lw_mast_upper){{76.1, 3.2}, 3.1, 0.12};
    assert_int_equal(check(&w).verdict, LW_MAST_FALLS); /* long enough for the rule, not for the wall */
    assert_true(says(&(lw_mast_result[]){check(&w)}[0], "walls would dent"));
    w.upper.lap_m = 0.11; /* 1.5 x 76.1 mm */
    assert_false(lw_mast_check(&w, &r, &err));
    assert_string_equal(err.field, "pipe.upper.lap_m");
    assert_int_equal(err.family, LW_REFUSED);
    w.upper = (lw_mast_upper){{60.3, 3.2}, 3.1, 0.4}; /* 20.6 mm of play */
    assert_false(lw_mast_check(&w, &r, &err));
    w.upper = (lw_mast_upper){{82.0, 3.2}, 3.1, 0.4};
    err = (lw_error){0};
    assert_false(lw_mast_check(&w, &r, &err));
    assert_int_equal(err.family, LW_WRONG_INPUT);
    w.upper = (lw_mast_upper){{76.1, 3.2}, 6.0, 0.4}; /* the lower one alone is longer */
    assert_false(lw_mast_check(&w, &r, &err));
    w.upper = (lw_mast_upper){{76.1, 0.9}, 2.6, 0.8}; /* a weak upper pipe under a large panel */
    w.pipe.wall_mm = 5.0;
    w.panel.area_m2 = 0.6;
    w.height_m = 5.0;
    w.panel.height_m = 5.2;
    assert_int_equal(check(&w).verdict, LW_MAST_FALLS);
    assert_true(says(&(lw_mast_result[]){check(&w)}[0], "upper pipe would bend over"));
    w.material = 3;
    err = (lw_error){0};
    assert_false(lw_mast_check(&w, &r, &err));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(on_a_plate),
        cmocka_unit_test(plates_that_fail),
        cmocka_unit_test(two_pipes),
        cmocka_unit_test(joints_that_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
