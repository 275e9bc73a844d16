/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From brief to plan, one stage after the other: limits of the brief, weather, search for each kind of lamp, choice
 * from the one shelf, reasons, parts, cautions. See lanewick/desk.h.
 */
#include "plan_crate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Nothing on the shelf may be built: the reasons why parts were left out become the refusal. */
static void refuse_all(lw_plan *plan)
{
    for (size_t i = 0; i < plan->left_out.count; i++)
        lw_refuse(&plan->refused, &plan->left_out.item[i]);
    plan->left_out.count = 0;
}

/* Masts and lumens of the lane, once the other lamps are known. */
static bool find_lane(lw_plan_work *work, lw_error *err)
{
    const lw_want *want = &work->brief->want;
    lw_choice_kind kinds[LW_BRIEF_KINDS] = {{0}};
    if (!want->lane.given)
        return true;
    lw_shortlists *lists = calloc(1, sizeof *lists);
    bool done = lists || lw_fail(err, LW_STORAGE, "", "There is not enough memory for a plan.");
    for (size_t k = 0; done && k < want->lamp_count; k++) {
        if (k == want->lane.kind)
            continue;
        done = lw_work_search(work, k, true, lists->candidate[k], LW_WORK_CANDIDATES, &lists->count[k], err);
        kinds[k] = (lw_choice_kind){lists->candidate[k], lists->count[k], want->lamp[k].count};
    }
    done = done && lw_work_lane(work, kinds, err);
    free(lists);
    lw_work_tell(work, 0.5, "masts");
    return done;
}

/* The light of the lane by the schedule that the chosen lamps keep. */
static bool lane_light(lw_plan_work *work, lw_error *err)
{
    lw_plan *plan = work->plan;
    const lw_want *want = &plan->brief.want;
    lw_span spans[LW_MAX_SPANS];
    bool trimmed = false;
    if (!plan->lane.given)
        return true;
    for (size_t i = 0; i < plan->kind_count; i++)
        trimmed = trimmed || (plan->kind[i].kind == want->lane.kind && plan->kind[i].design.trimmed);
    const int count = lw_plan_spans(&want->lamp[want->lane.kind], trimmed, want->least_late_level, spans);
    return lw_plan_lane_light(&plan->brief, spans, (size_t)count, &work->arena, &plan->lane, err);
}

static bool walk(lw_plan_work *work, lw_crates *crates, lw_error *err)
{
    lw_plan *plan = work->plan;
    if (!lw_work_begin(work, err) || plan->refused.count > 0)
        return plan->refused.count > 0;
    if (!find_lane(work, err))
        return false;
    if (work->request->lane_only)
        return lane_light(work, err);
    if (!lw_work_light_most(work, crates, err))
        return false;
    if (plan->kind_count == 0 && plan->lamps_without == 0) {
        refuse_all(plan);
        return plan->refused.count > 0 ||
               lw_fail(err, LW_WRONG_INPUT, "shelf", "Nothing on the shelf makes a lamp for this brief.");
    }
    lw_plan_masts(plan);
    if (plan->refused.count > 0)
        return true;
    if (!lane_light(work, err) || !lw_work_explain(work, err))
        return false;
    lw_plan_parts(plan);
    lw_plan_wire(plan, &work->scratch[0]);
    if (plan->refused.count > 0)
        return true;
    lw_plan_cautions(plan);
    lw_work_tell(work, 1.0, "done");
    return true;
}

/* Overlaps are found by the load, which speaks of its own document. */
static void speak_of_brief(lw_error *err)
{
    char *place = strstr(err->message, "load.schedule");
    if (place)
        memcpy(place, "want", 4);
    if (strncmp(err->field, "load.schedule", 13) == 0)
        memcpy(err->field, "want", 4);
}

static bool read_brief(const lw_plan_request *request, lw_brief *brief, lw_error *err)
{
    const char *field = "place.weather_file";
    if (!lw_brief_from_json(request->brief, request->brief_length, brief, err))
        return false;
    if (request->no_files && brief->place.weather_file[0])
        return lw_fail(err, LW_WRONG_INPUT, field,
                       "%s names a file; here a brief gives monthly means or its position alone (files work on the "
                       "command line).",
                       field);
    field = "shelf.cells";
    for (size_t i = 0; request->no_files && i < brief->shelf.cell_count; i++)
        if (brief->shelf.cell[i].cells_file[0] && brief->shelf.cell[i].listed == 0)
            return lw_fail(err, LW_WRONG_INPUT, field,
                           "%s[%zu].cells_file names a file; here a brief gives a crate of the store, the cells, or "
                           "count and capacity_ah (files work on the command line).",
                           field, i + 1);
    return !request->lane_only || brief->want.lane.given ||
           lw_fail(err, LW_WRONG_INPUT, "want.lane",
                   "want.lane is missing; say there which lane is to be lit and how (docs/brief.md).");
}

bool lw_desk_brief_check(const lw_plan_request *request, lw_error *err)
{
    lw_brief *brief = malloc(sizeof *brief);
    if (!brief)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for a brief.");
    const bool done = read_brief(request, brief, err);
    free(brief);
    return done;
}

/* Tables of measured heads end with the work. */
static void forget_tables(lw_plan *plan)
{
    for (size_t i = 0; i < LW_LAYOUT_HEADS; i++)
        plan->brief.want.lane.ask.wish.head[i].beam.table = NULL;
    for (size_t i = 0; i < LW_LAYOUT_FIXED; i++)
        plan->brief.want.lane.ask.wish.fixed[i].beam.table = NULL;
    for (size_t i = 0; i < LW_BRIEF_LAMPS; i++)
        plan->lane.lamp[i].beam.table = NULL;
}

bool lw_desk_plan(const lw_plan_request *request, lw_plan *plan, lw_error *err)
{
    memset(plan, 0, sizeof *plan);
    plan->seed = request->seed;
    if (!read_brief(request, &plan->brief, err))
        return false;
    lw_crates *crates = lw_crates_read(request, plan, err);
    if (!crates)
        return false;
    if (!lw_limits_brief(&plan->brief, &plan->refused)) {
        lw_crates_free(crates);
        return true;
    }
    lw_plan_work *work = calloc(1, sizeof *work);
    bool done = false;
    if (work) {
        *work = (lw_plan_work){.request = request, .plan = plan, .brief = &plan->brief};
        done = walk(work, crates, err);
        forget_tables(plan);
        lw_work_end(work);
    } else {
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for a plan.");
    }
    free(work);
    lw_crates_free(crates);
    if (!done && err)
        speak_of_brief(err);
    return done;
}
