/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The switch of a planned lamp, and what it does to the lamp's nights: see lanewick/lamp_build.h and lanewick/plan.h.
 * The nights are run under average cloud, since dark nights come in cloudy weeks; the minutes told are those of a clear
 * sky.
 */
#include "dusk_minutes.h"
#include "switch_steps.h"

#include "lanewick/lamp_build.h"
#include "lanewick/light.h"
#include "lanewick/stats.h"
#include "lanewick/units.h"

#include <math.h>

enum { DRAWS = 2000 };
static const double average_cloud = 3.0, dark_cloud = 10.0; /* Janiczek & DeYoung 1987 */
static const double hours_a_month = 730.5;
static const double panel_least_lx = 30.0; /* below it an old panel's own leak decides */
/* Standard deviation of a timer's hours: resistor 5 %, capacitor 10 %, chip 5 %, each uniform. */
static const double timer_sd = 0.0707;

/* What the switch is made for: the pack, and the panels where they are its sensor. */
typedef struct pack_kind {
    bool lfp;
    int series;
    const lw_shelf_panel *panel;
    int panels;
} pack_kind;

static lw_minutes minutes_of(const lw_dusk_table *table, const lw_dusk_spread *lux)
{
    return (lw_minutes){lw_dusk_longer_min(table, lux->nominal, 1.0), lw_dusk_longer_min(table, lux->worst_low, 1.0),
                        lw_dusk_longer_min(table, lux->worst_high, 1.0), lw_dusk_longer_min(table, lux->p05, 1.0),
                        lw_dusk_longer_min(table, lux->p95, 1.0)};
}

/* Mean and spread of what each drawn switch adds to a night: at dusk with the pack that the day filled, at dawn with
 * the empty one. */
static bool longer(const lw_dusk_table *table, const lw_switch_parts *parts, const lw_switch_wish *wish,
                   lw_arena *scratch, lw_dusk_board *out, lw_error *err)
{
    double *on = lw_arena_take(scratch, DRAWS, sizeof *on, err), *off = lw_arena_take(scratch, DRAWS, sizeof *off, err);
    double *not_told = lw_arena_take(scratch, DRAWS, sizeof *not_told, err);
    if (!on || !off || !not_told || !lw_switch_draws(parts, &out->values, wish->full_v, DRAWS, on, not_told, err) ||
        !lw_switch_draws(parts, &out->values, wish->empty_v, DRAWS, not_told, off, err))
        return false;
    double squares = 0.0;
    for (int k = 0; k < DRAWS; k++)
        on[k] = lw_dusk_longer_min(table, on[k], average_cloud) + lw_dusk_longer_min(table, off[k], average_cloud);
    out->longer_min = lw_mean(on, DRAWS);
    for (int k = 0; k < DRAWS; k++)
        squares += (on[k] - out->longer_min) * (on[k] - out->longer_min);
    out->spread_min = sqrt(squares / DRAWS);
    out->dark_cloud_min = lw_dusk_longer_min(table, out->on_full.nominal, dark_cloud) +
                          lw_dusk_longer_min(table, out->off.nominal, dark_cloud);
    return true;
}

/* A Lambertian head, and a fiftieth of its axis' light to every side from bottle, mist and mast (common practice). */
static void own_light(const lw_brief *brief, const lw_lamp_kind *lamp, lw_dusk_board *out)
{
    const double axis_cd = lw_cosine_peak_cd(lamp->lumens, 1.0);
    const double cosine = cos(brief->build.sensor.angle_deg * lw_radian_per_degree);
    out->own_lx = lw_own_light_lx(axis_cd * fmax(0.02, cosine), brief->build.sensor.distance_m,
                                  brief->build.sensor.incidence_deg, brief->build.sensor.tube_factor);
    out->own_limit_lx = 0.3 * fmin(out->off.nominal, out->off_full.nominal);
    out->own_stable =
        out->own_lx < fmin(out->off.nominal - out->on.nominal, out->off_full.nominal - out->on_full.nominal);
    out->own_blinks = out->own_lx >= fmin(out->off.p05, out->off_full.p05);
    out->own_good = out->own_lx <= out->own_limit_lx;
}

static lw_switch_wish wish_of(const lw_brief *brief, const lw_lamp_kind *lamp, pack_kind pack)
{
    const lw_charge_limits limits = lw_charge_limits_for(pack.lfp ? LW_CHARGE_LFP : LW_CHARGE_4V2, false, 0.0);
    const lw_want *want = &brief->want;
    double hours[LW_BRIEF_STEPS] = {0.0}, levels[LW_BRIEF_STEPS] = {1.0};
    lw_switch_wish wish = {.kind = want->hand_switch ? want->switch_kind : LW_SWITCH_DUSK,
                           .wanted_lx = fmin(lw_sun_lux(want->dusk_sun_deg, 1.0), 300.0),
                           .empty_v = pack.series * limits.empty_v,
                           .full_v = pack.series * limits.full_v,
                           .middle_v = pack.series * (pack.lfp ? 3.28 : 3.70),
                           .level = 1.0,
                           .sensor = want->hand_switch ? want->switch_sensor : LW_SENSE_COMPARATOR,
                           .panel_isc_a = pack.panels * pack.panel->isc_a,
                           .panel_vmp_v = pack.panel->vmp_v,
                           .panel_w = pack.panels * pack.panel->watts,
                           .panels = pack.panels};
    if (wish.sensor == LW_SENSE_PANEL)
        wish.wanted_lx = fmax(wish.wanted_lx, panel_least_lx);
    if (want->hand_switch && lw_switch_steps(lamp, "", hours, levels, NULL)) {
        wish.step_h = hours[0];
        wish.level = lamp->span_count > 1 ? levels[1] : 0.0;
    }
    if (wish.step_h <= 0.0 && wish.kind != LW_SWITCH_PACK_DIMMING)
        wish.kind = LW_SWITCH_DUSK; /* one step until dawn needs no timer */
    return wish;
}

static bool board_of(const lw_brief *brief, const lw_lamp_kind *lamp, pack_kind pack, const lw_dusk_table *table,
                     lw_arena *scratch, lw_dusk_board *out, lw_error *err)
{
    const lw_switch_parts *parts = &brief->shelf.switch_parts;
    const lw_switch_wish wish = wish_of(brief, lamp, pack);
    const size_t used = scratch->used;
    *out = (lw_dusk_board){.kind = wish.kind, .wanted_lx = wish.wanted_lx, .pack_v = wish.middle_v};
    if (!lw_switch_values_for(parts, &wish, &out->values, err))
        return false;
    out->there =
        lw_switch_tolerance(parts, &out->values, wish.empty_v, DRAWS, scratch, &out->on, &out->off, err) &&
        lw_switch_tolerance(parts, &out->values, wish.full_v, DRAWS, scratch, &out->on_full, &out->off_full, err) &&
        longer(table, parts, &wish, scratch, out, err);
    scratch->used = used;
    if (!out->there)
        return false;
    out->on_v = out->values.low * out->pack_v;
    out->off_v = out->values.high * out->pack_v;
    out->dusk = minutes_of(table, &out->on_full);
    out->dawn = minutes_of(table, &out->off);
    out->standby_wh_month = out->values.standby_a * out->pack_v * hours_a_month;
    own_light(brief, lamp, out);
    return true;
}

bool lw_dusk_board_of(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design, lw_arena *scratch,
                      lw_dusk_board *out, lw_error *err)
{
    lw_dusk_table table;
    const pack_kind pack = {brief->shelf.cell[design->cell].voltage_class == LW_SHELF_LFP, design->series,
                            &brief->shelf.panel[design->panel], design->panels};
    return lw_dusk_table_of(&brief->place, brief->want.dusk_sun_deg, &table, err) &&
           board_of(brief, lamp, pack, &table, scratch, out, err);
}

/* How the timer and the level scatter the energy of a night of twelve hours. */
static double load_pct(const lw_switch_values *v)
{
    if (v->timer_h <= 0.0)
        return 0.0;
    const double first_h = fmin(v->timer_h, 12.0), full_h = first_h + v->level * (12.0 - first_h);
    const double by_time = timer_sd * first_h * (1.0 - v->level) / full_h;
    const double by_level = (v->level_high - v->level_low) / sqrt(12.0) * (12.0 - first_h) / full_h;
    return 100.0 * hypot(by_time, by_level);
}

static void widen(lw_switch_burn *burn, const lw_dusk_board *board, bool first)
{
    const bool longest = first || board->longer_min > burn->longer_min;
    if (longest)
        *burn = (lw_switch_burn){board->longer_min, board->spread_min, board->values.timer_h, board->values.level,
                                 load_pct(&board->values)};
}

/* Whether some charger of the shelf fills so many groups of this class. */
static bool charges(const lw_shelf *shelf, pack_kind pack)
{
    bool cells = false, charger = false;
    for (size_t i = 0; i < shelf->cell_count; i++)
        cells = cells || (shelf->cell[i].voltage_class == LW_SHELF_LFP) == pack.lfp;
    for (size_t i = 0; i < shelf->charger_count; i++)
        charger =
            charger || (pack.series >= shelf->charger[i].series_min && pack.series <= shelf->charger[i].series_max);
    return cells && charger;
}

/* One pack with every panel that may be its sensor; without such a sensor the first stands for all. */
static bool of_pack(const lw_brief *brief, lw_lamp_kind *lamp, pack_kind pack, const lw_dusk_table *table,
                    lw_arena *scratch, bool *any, lw_error *why)
{
    const bool sees = brief->want.switch_sensor == LW_SENSE_PANEL;
    const size_t kinds = sees ? brief->shelf.panel_count : 1;
    double most_a = NAN;
    for (size_t p = 0; p < kinds; p++)
        for (int n = 1; n == 1 || (sees && n <= brief->shelf.most_panels && n <= brief->shelf.panel[p].count); n++) {
            lw_dusk_board board;
            pack.panel = &brief->shelf.panel[p];
            pack.panels = n;
            if (!board_of(brief, lamp, pack, table, scratch, &board, why))
                return false;
            most_a = fmax(most_a, board.values.standby_a);
            widen(&lamp->burn, &board, !*any);
            *any = true;
        }
    lamp->switch_standby_a[pack.lfp ? 1 : 0][pack.series] = most_a;
    return true;
}

static bool of_lamp(const lw_brief *brief, lw_lamp_kind *lamp, const lw_dusk_table *table, lw_arena *scratch,
                    lw_error *err)
{
    bool any = false;
    lw_error why = {0};
    for (int lfp = 0; lfp < 2; lfp++)
        for (int series = 1; series <= LW_BRIEF_SERIES; series++) {
            const pack_kind pack = {.lfp = lfp == 1, .series = series};
            lamp->switch_standby_a[lfp][series] = NAN;
            if (charges(&brief->shelf, pack))
                (void)of_pack(brief, lamp, pack, table, scratch, &any, &why);
        }
    return any ||
           lw_fail(err, LW_NOT_COMPUTABLE, "shelf.switch_parts", "No dusk switch can be made by hand: %s", why.message);
}

bool lw_plan_switching(lw_brief *brief, lw_arena *scratch, lw_error *err)
{
    lw_dusk_table table;
    if (!brief->want.hand_switch)
        return true;
    if (!lw_dusk_table_of(&brief->place, brief->want.dusk_sun_deg, &table, err))
        return false;
    for (size_t i = 0; i < brief->want.lamp_count; i++)
        if (!of_lamp(brief, &brief->want.lamp[i], &table, scratch, err))
            return false;
    return true;
}
