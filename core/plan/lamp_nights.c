/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One lamp through its synthetic years: see lanewick/lamp_nights.h.
 */
#include "lanewick/lamp_nights.h"

#include <math.h>

enum { AS_ASKED, MORE_PANEL, MORE_PACK, WAYS };

typedef struct run {
    const lw_lamp_nights_ask *ask;
    lw_synth *synth;
    lw_weather_block *weather;
    lw_drive_block *drive;
    lw_run_log *log;
    lw_system *system;
    lw_engine *box, *fresh; /* the years behind the glass and in the box; the lamp as new */
    lw_engine *worn[WAYS];  /* in the planned year */
    double tilt_deg, facing_deg;
    lw_nights_summary *draws[WAYS];
} run;

static bool refuse(const lw_refusals *refused, lw_error *err)
{
    const lw_refusal *first = &refused->item[0];
    return lw_fail(err, LW_REFUSED, first->id, "%s %s", first->reason, first->remedy);
}

static bool take(run *r, size_t draws, lw_arena *arena, lw_error *err)
{
    r->weather = lw_arena_take(arena, 1, sizeof *r->weather, err);
    r->drive = r->weather ? lw_arena_take(arena, 1, sizeof *r->drive, err) : NULL;
    r->log = r->drive ? lw_arena_take(arena, 1, sizeof *r->log, err) : NULL;
    r->system = r->log ? lw_arena_take(arena, 1, sizeof *r->system, err) : NULL;
    for (int w = 0; w < WAYS; w++)
        if (!r->system || !(r->draws[w] = lw_arena_take(arena, draws, sizeof *r->draws[w], err)))
            return false;
    return true;
}

static bool system_of(const run *r, const lw_worn *worn, lw_error *err)
{
    const lw_brief *brief = &r->ask->brief;
    return lw_plan_system(brief, &brief->want.lamp[0], &r->ask->design, worn, r->tilt_deg, r->facing_deg, r->system,
                          err);
}

/* The panel with the watts of the one that warms the box. */
static void warm_by(const lw_lamp_nights_ask *ask, lw_panel *panel)
{
    const lw_shelf_panel *label = &ask->brief.shelf.panel[ask->design.panel];
    if (isnan(ask->box_panel_w))
        return;
    const double times = ask->box_panel_w / (label->vmp_v * label->imp_a * ask->design.panels);
    panel->diode.photo_a *= times;
    panel->diode.saturation_a *= times;
    panel->diode.isc_temp_a_per_k *= times;
    panel->diode.series_ohm /= times;
    panel->diode.shunt_ohm /= times;
}

/* Weather, tilt and the lamp as new. */
static bool begin(run *r, const lw_climate *climate, lw_arena *arena, lw_error *err)
{
    const lw_brief *brief = &r->ask->brief;
    const lw_place *place = &brief->place;
    const lw_worn new = {1.0, 1.0, 1.0};
    const lw_synth_options options = {.seed = r->ask->seed, .climate_uncertainty = 1.0, .day_spread_uncertainty = 1.0};
    r->synth = lw_synth_prepare(climate, place->utc_offset_h, &options, arena, err);
    if (!r->synth)
        return false;
    lw_synth_block(r->synth, 0, r->weather);
    r->facing_deg = lw_plan_facing_deg(brief);
    r->tilt_deg = brief->build.tilt_deg;
    if (isnan(r->tilt_deg) && !lw_plan_tilt(brief, r->weather, r->facing_deg, arena, &r->tilt_deg, err))
        return false;
    if (!system_of(r, &new, err))
        return false;
    const lw_diode own = r->system->panel.diode;
    warm_by(r->ask, &r->system->panel);
    r->box = lw_engine_prepare(r->system, place->lat_deg, place->lon_deg, place->utc_offset_h, arena, err);
    r->system->panel.diode = own;
    r->fresh = r->box ? lw_engine_variant(r->box, r->system, arena, err) : NULL;
    return r->fresh != NULL;
}

static void run_block(const run *r, const lw_engine *engine, uint32_t block, int way)
{
    lw_lane_parts parts[LW_LANES];
    for (uint32_t l = 0; l < LW_LANES; l++) {
        const lw_lane_parts drawn = lw_parts_draw(r->system, r->ask->seed, block * LW_LANES + l);
        parts[l] = lw_parts_scaled(&drawn, way == MORE_PANEL ? lw_plan_quarter_more : 1.0,
                                   way == MORE_PACK ? lw_plan_quarter_more : 1.0, 1.0);
    }
    lw_engine_run(engine, r->drive, parts, r->log, r->draws[way] + (size_t)block * LW_LANES);
}

/* The first block as new says how the pack lives; the lamp as it is then in the planned year. */
static bool wear(run *r, int way, lw_arena *arena, double *capacity_share, lw_error *err)
{
    const lw_brief *brief = &r->ask->brief;
    run_block(r, r->fresh, 0, way);
    const lw_nights_summary life = r->draws[way][0];
    const lw_worn worn = lw_plan_worn(&brief->shelf, &r->ask->design, &life, brief->want.planned_years);
    if (capacity_share)
        *capacity_share = worn.capacity_factor;
    r->worn[way] = system_of(r, &worn, err) ? lw_engine_variant(r->box, r->system, arena, err) : NULL;
    return r->worn[way] != NULL;
}

/* All blocks in each way; how the box runs in them. */
static lw_box_life run_all(const run *r, uint32_t blocks)
{
    lw_box_life life = {.coldest_c = INFINITY, .hottest_c = -INFINITY};
    for (uint32_t b = 0; b < blocks; b++) {
        lw_synth_block(r->synth, b * LW_LANES, r->weather);
        lw_engine_drive(r->box, r->weather, r->drive);
        for (int w = 0; w < WAYS; w++)
            run_block(r, r->worn[w], b, w);
        const lw_box_life one = lw_plan_box_life(r->drive, 1);
        life.coldest_c = fmin(life.coldest_c, one.coldest_c);
        life.hottest_c = fmax(life.hottest_c, one.hottest_c);
        life.cold_h += one.cold_h / blocks;
        life.hot_h += one.hot_h / blocks;
    }
    return life;
}

static bool tell(const run *r, lw_arena *arena, lw_lamp_nights *out, lw_error *err)
{
    const lw_want *want = &r->ask->brief.want;
    double *scratch = lw_arena_take(arena, r->ask->years, sizeof *scratch, err);
    if (!scratch)
        return false;
    lw_outcome *const outcomes[] = {&out->outcome, &out->more_panel, &out->more_pack};
    for (int w = 0; w < WAYS; w++)
        lw_outcome_of(r->draws[w], r->ask->years, want->dark_nights_per_year, want->sure_share, scratch, outcomes[w]);
    out->tilt_deg = r->tilt_deg;
    out->facing_deg = r->facing_deg;
    out->limit_month = lw_outcome_limit_month(&out->outcome);
    out->limit_what = lw_outcome_limit_part(&out->more_panel, &out->more_pack);
    return true;
}

static bool climate_of(const lw_place *place, lw_climate *out, lw_error *err)
{
    lw_climate_data data;
    return lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err) &&
           lw_climate_at(&data, place->lat_deg, place->lon_deg, place->elev_m, out, err);
}

bool lw_lamp_nights_of(const lw_lamp_nights_ask *ask, lw_arena *arena, lw_lamp_nights *out, lw_error *err)
{
    const lw_brief *brief = &ask->brief;
    const uint32_t blocks = (ask->years + LW_LANES - 1) / LW_LANES;
    run r = {.ask = ask};
    lw_refusals refused = {0};
    lw_climate climate;
    if (!lw_in_range(err, "years", ask->years, 1.0, LW_LAMP_NIGHTS_YEARS, "") ||
        !climate_of(&brief->place, &climate, err))
        return false;
    if (!lw_limits_design(brief, &ask->design, lw_plan_coldest_c(&climate), &refused))
        return refuse(&refused, err);
    if (!take(&r, (size_t)blocks * LW_LANES, arena, err) || !begin(&r, &climate, arena, err))
        return false;
    lw_engine_drive(r.box, r.weather, r.drive);
    for (int w = 0; w < WAYS; w++)
        if (!wear(&r, w, arena, w == AS_ASKED ? &out->capacity_share : NULL, err))
            return false;
    const lw_box_life box = run_all(&r, blocks);
    if (!lw_limits_box(&brief->shelf.charger[ask->design.charger], &box, &refused))
        return refuse(&refused, err);
    return tell(&r, arena, out, err);
}
