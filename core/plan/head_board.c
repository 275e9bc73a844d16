/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The LED board of a planned head: see lanewick/lamp_build.h. Grid of a pierced board, 2.54 mm (IEC 60097).
 */
#include "lanewick/lamp_build.h"

#include "lanewick/charging.h"
#include "lanewick/eseries.h"
#include "lanewick/led.h"
#include "lanewick/led_string.h"

#include <math.h>

static const double hole_mm = 2.54, board_k_w = 10.0, air_c = 25.0, sharing_v = 0.3;
enum { MOST_ROWS = 8, MOST_LEDS = 200 };

/* Common practice: a driver of constant current needs 0.4 V over its string, a resistor something as well. */
static const double over_string_v = 0.4;

static lw_drive drive_of(lw_shelf_driving kind)
{
    static const lw_drive drives[] = {
        [LW_SHELF_CONSTANT_CURRENT] = LW_DRIVE_CONSTANT,
        [LW_SHELF_RESISTOR] = LW_DRIVE_RESISTOR,
        [LW_SHELF_BUCK] = LW_DRIVE_BUCK,
        [LW_SHELF_BOOST] = LW_DRIVE_BOOST,
    };
    return drives[kind];
}

/* LEDs in one string at vf_v each, between the empty and the full pack. */
static int in_series(const lw_shelf_driver *driver, double vf_v, double empty_v, double full_v)
{
    if (!isnan(driver->head_v))
        return (int)fmax(1.0, round(driver->head_v / vf_v));
    if (driver->kind == LW_SHELF_BUCK)
        return (int)floor(0.8 * empty_v / vf_v);
    if (driver->kind == LW_SHELF_BOOST)
        return (int)ceil(1.15 * full_v / vf_v);
    return (int)floor((empty_v - over_string_v) / vf_v);
}

bool lw_driver_lights(const lw_shelf *shelf, int driver, int series, bool lfp, lw_error *err)
{
    const lw_shelf_driver *d = &shelf->driver[driver];
    const lw_charge_limits limits = lw_charge_limits_for(lfp ? LW_CHARGE_LFP : LW_CHARGE_4V2, false, 0.0);
    const double empty_v = series * limits.empty_v, full_v = series * limits.full_v;
    const lw_led led = lw_led_typical();
    lw_led_point point;
    if (!lw_led_solve(&led, 0.5 * led.rated_a, 1, board_k_w, air_c, &point, err))
        return false;
    const int leds = in_series(d, point.vf_v, empty_v, full_v);
    const double least_v = fmax(1, leds) * point.vf_v + (d->kind == LW_SHELF_BUCK ? 0.3 : over_string_v);
    if (d->kind == LW_SHELF_BOOST || (leds >= 1 && least_v < full_v))
        return true;
    return lw_fail(
        err, LW_WRONG_INPUT, "shelf.drivers",
        "The driver \"%s\" cannot light a white LED (%.2g V) from a pack of %d group%s (%.3g V empty, %.3g V "
        "full): a %s driver needs the pack above its head all night. Take a boost driver, or two or more "
        "groups in series.",
        d->name, point.vf_v, series, series == 1 ? "" : "s", empty_v, full_v,
        d->kind == LW_SHELF_BUCK ? "step-down" : "linear");
}

static void lay_out(lw_head_board *out)
{
    out->pitch_mm = 4.0 * hole_mm;
    const int blocks = (out->strings + MOST_ROWS - 1) / MOST_ROWS;
    out->rows = (out->strings + blocks - 1) / blocks;
    out->width_mm = blocks * (out->series + 2) * out->pitch_mm;
    out->height_mm = (out->rows + 1) * out->pitch_mm;
}

void lw_head_led_place(const lw_head_board *board, int string, int led, double *x_mm, double *y_mm)
{
    const int block = string / board->rows, row = string % board->rows;
    *x_mm = (block * (board->series + 2) + led + 1.5) * board->pitch_mm;
    *y_mm = (row + 1) * board->pitch_mm;
}

static void resistor(const lw_shelf_driver *driver, double full_v, lw_head_board *out)
{
    out->shares = driver->kind != LW_SHELF_RESISTOR;
    const double volts = out->shares ? sharing_v : full_v - out->string_v;
    out->resistor_ohm = lw_eseries_round(volts / out->led_a, LW_E24, out->shares ? LW_ROUND_NEAREST : LW_ROUND_UP);
    out->resistor_w = out->led_a * out->led_a * out->resistor_ohm;
}

bool lw_head_board_of(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design, lw_head_board *out,
                      lw_error *err)
{
    const lw_shelf_driver *driver = &brief->shelf.driver[design->driver];
    const bool lfp = brief->shelf.cell[design->cell].voltage_class == LW_SHELF_LFP;
    const lw_charge_limits limits = lw_charge_limits_for(lfp ? LW_CHARGE_LFP : LW_CHARGE_4V2, false, 0.0);
    const double empty_v = design->series * limits.empty_v, full_v = design->series * limits.full_v;
    const lw_led led = lw_led_typical();
    lw_led_point point;
    *out = (lw_head_board){.rated_a = led.rated_a, .wanted_lm = lamp->lumens};
    if (!lw_led_solve(&led, 0.5 * led.rated_a, 1, board_k_w, air_c, &point, err))
        return false;
    out->series = in_series(driver, point.vf_v, empty_v, full_v);
    if (out->series < 1)
        return lw_fail(err, LW_NOT_COMPUTABLE, "driver", "%s cannot light a white LED from %g V.", driver->name,
                       empty_v);
    const double least = fmax(lamp->head_w / point.power_w, lamp->lumens / point.lumens);
    if (!(least <= MOST_LEDS))
        return lw_fail(err, LW_NOT_COMPUTABLE, "head_w", "More than %d small LEDs would be needed.", MOST_LEDS);
    out->strings = (int)fmax(1.0, ceil(least / out->series));
    const int count = out->series * out->strings;
    out->led_a = fmin(0.5 * led.rated_a, lamp->head_w / (count * point.vf_v));
    if (!lw_led_solve(&led, out->led_a, (size_t)count, board_k_w, air_c, &point, err))
        return false;
    out->string_v = out->series * point.vf_v;
    out->light_lm = count * point.lumens;
    const lw_led_string string = {.vf_v = point.vf_v,
                                  .current_a = out->led_a,
                                  .slope_ohm = led.slope_ohm,
                                  .count = out->series,
                                  .dropout_v = 0.4,
                                  .drive = drive_of(driver->kind)};
    if (!lw_led_string_fits(&string, empty_v, full_v, err))
        return false;
    resistor(driver, full_v, out);
    lay_out(out);
    return true;
}
