/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The nights of one planned lamp, one by one: the same draws of weather and parts as the plan's own, with the pack as
 * old as in the last planned year, so that its dark nights are those of the plan.
 */
#include "plan_work.h"

#include "lanewick/desk_json.h"
#include "lanewick/ribbon_json.h"
#include "lanewick/stats.h"
#include "lanewick/sun.h"

#include <stdlib.h>
#include <string.h>

typedef struct run {
    const lw_ribbon_request *ask;
    lw_plan_work work;
    lw_plan plan;
    lw_plan_request request;
    lw_system system;
    lw_engine *engine;
    lw_run_log log;
    lw_nights_summary draws[LW_WORK_BLOCKS * LW_LANES];
} run;

static bool make_engine(run *r, const lw_worn *worn, lw_error *err)
{
    const lw_ribbon_request *ask = r->ask;
    return lw_plan_system(&r->plan.brief, &r->plan.brief.want.lamp[ask->kind], &ask->design, worn, r->plan.tilt_deg,
                          r->plan.facing_deg, &r->system, err) &&
           (r->engine = lw_engine_variant(r->work.engine[ask->kind][ask->design.trimmed], &r->system, &r->work.arena,
                                          err)) != NULL;
}

static void run_block(run *r, size_t b)
{
    lw_lane_parts parts[LW_LANES];
    for (size_t l = 0; l < LW_LANES; l++)
        parts[l] = lw_parts_draw(&r->system, r->ask->seed, (uint32_t)(b * LW_LANES + l));
    lw_engine_run(r->engine, &r->work.drive[b], parts, &r->log, r->draws + b * LW_LANES);
}

static double missing_share(const run *r, int day, size_t lane)
{
    const double wanted = (double)r->log.wanted[day][lane];
    return wanted > 0.0 ? (double)r->log.missing[day][lane] / wanted : 0.0;
}

/* Year `draw` again, night by night. */
static void tell_year(run *r, uint32_t draw, lw_ribbon_year *out)
{
    run_block(r, draw / LW_LANES);
    out->draw = draw;
    out->dark_nights = r->draws[draw].dark_nights;
    for (int d = 0; d < LW_DAYS; d++) {
        out->missing_share[d] = missing_share(r, d, draw % LW_LANES);
        out->lowest_share[d] = (double)r->log.lowest[d][draw % LW_LANES];
    }
}

/* The draw whose count of dark nights is nearest to `count`, the first of several. */
static uint32_t nearest(const run *r, double count)
{
    uint32_t best = 0;
    for (uint32_t i = 1; i < LW_WORK_BLOCKS * LW_LANES; i++) {
        const double off = (double)r->draws[i].dark_nights - count, least = (double)r->draws[best].dark_nights - count;
        if (off * off < least * least)
            best = i;
    }
    return best;
}

static void count_nights(run *r, lw_ribbon *out)
{
    const uint32_t years = LW_WORK_BLOCKS * LW_LANES;
    double counts[LW_WORK_BLOCKS * LW_LANES];
    out->years = years;
    for (size_t b = 0; b < LW_WORK_BLOCKS; b++) {
        run_block(r, b);
        for (int d = 0; d < LW_DAYS; d++)
            for (size_t l = 0; l < LW_LANES; l++)
                out->dark_share[d] += missing_share(r, d, l) > r->system.dark_limit ? 1.0 / years : 0.0;
    }
    for (uint32_t i = 0; i < years; i++)
        counts[i] = r->draws[i].dark_nights;
    out->dark.mean = lw_mean(counts, years);
    lw_sort(counts, years);
    out->dark.low = lw_quantile_sorted(counts, years, 0.05);
    out->dark.high = lw_quantile_sorted(counts, years, 0.95);
    tell_year(r, nearest(r, lw_quantile_sorted(counts, years, 0.5)), &out->middle);
    tell_year(r, nearest(r, counts[years - 1]), &out->worst);
}

static bool schedule(run *r, lw_arena *arena, lw_ribbon *out, lw_error *err)
{
    const lw_place *place = &r->plan.brief.place;
    double share[LW_HOURS];
    if (!lw_dark_shares(place->lat_deg, place->lon_deg, place->utc_offset_h, r->system.sun_method,
                        r->system.load.dusk_altitude_deg, r->system.load.dusk_midpoints, share, err))
        return false;
    lw_load_nights(&r->system.load, share, out->night);
    double *level_h = lw_arena_take(arena, (size_t)LW_HOURS * LW_RIBBON_SLOTS, sizeof *level_h, err);
    out->level_h = level_h;
    return level_h && lw_load_levels(&r->system.load, out->night, LW_RIBBON_SLOTS, level_h, err);
}

static bool compute(run *r, lw_arena *arena, lw_ribbon *out, lw_error *err)
{
    const lw_ribbon_request *ask = r->ask;
    const lw_worn fresh = {1.0, 1.0, 1.0};
    r->plan.brief = ask->brief;
    r->plan.seed = ask->seed;
    r->request = (lw_plan_request){.seed = ask->seed, .no_files = true};
    r->work = (lw_plan_work){.request = &r->request, .plan = &r->plan, .brief = &r->plan.brief};
    if (lw_limits_brief(&r->plan.brief, &r->plan.refused) && !lw_work_begin(&r->work, err))
        return false;
    if (r->plan.refused.count > 0)
        return lw_fail(err, LW_REFUSED, "brief", "%s", r->plan.refused.item[0].reason);
    if (!lw_work_engine(&r->work, ask->kind, ask->design.trimmed, &ask->design, err) || !make_engine(r, &fresh, err))
        return false;
    run_block(r, 0);
    const lw_nights_summary life = r->draws[0];
    const lw_worn worn = lw_plan_worn(&r->plan.brief.shelf, &ask->design, &life, r->plan.brief.want.planned_years);
    if (!make_engine(r, &worn, err) || !schedule(r, arena, out, err))
        return false;
    count_nights(r, out);
    return true;
}

bool lw_desk_ribbon(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_ribbon_request *ask = lw_arena_take(arena, 1, sizeof *ask, err);
    lw_ribbon *ribbon = ask ? lw_arena_take(arena, 1, sizeof *ribbon, err) : NULL;
    run *r = ribbon ? lw_arena_take(arena, 1, sizeof *r, err) : NULL;
    if (!r || !lw_ribbon_request_from_json(text, length, ask, err))
        return false;
    memset(ribbon, 0, sizeof *ribbon);
    memset(r, 0, sizeof *r);
    r->ask = ask;
    const bool done = compute(r, arena, ribbon, err);
    lw_work_end(&r->work);
    if (!done)
        return false;
    *json = lw_ribbon_to_json(ribbon);
    return *json || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}
