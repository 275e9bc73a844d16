/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick mast: does a mast stand in the wind of its place?
 */
#include "cli.h"
#include "plan_load.h"

#include "lanewick/mast_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_BYTES = 4 << 20 };

static void print_numbers(const lw_mast_result *r)
{
    lw_cli_print("wind pressure    %.0f N/m2 at the panel\n", r->wind.peak_pressure_pa);
    lw_cli_print("sideways         panel %.0f N, box %.0f N, head %.0f N, pipe %.0f N\n", r->panel_n, r->box_n,
                 r->head_n, r->pipe_n);
    lw_cli_print("at the ground    %.0f N, %.0f N m\n", r->bending.shear_n, r->bending.moment_nm);
    lw_cli_print("stress           %.4g MPa with load factor, allowed %.4g MPa\n", r->bending.factored_mpa,
                 r->bending.allowed_mpa);
    lw_cli_print("reserve          %.2f (a licensed engineer decides)\n", r->bending.reserve);
    lw_cli_print("column           buckles under %.0f kg on its top; %.1f kg are there, a quarter is allowed\n",
                 r->bending.column.critical_kg, r->bending.column.on_top_kg);
    lw_cli_print("sway             %.0f mm at the top\n", r->bending.sway_mm);
    lw_cli_print("swing            %.2f Hz; vortices shed with it at %.1f m/s\n", r->vibration.frequency_hz,
                 r->vibration.critical_m_s);
    lw_cli_print("                 the top then moves %.2g mm, stress %.2g MPa up and down\n", r->shedding.amplitude_mm,
                 r->shedding.stress_mpa);
}

static void print_base(const lw_mast_wish *wish, const lw_mast_result *r)
{
    const lw_mast_foot *f = &r->foot;
    if (wish->base != LW_BASE_PLATE) {
        lw_cli_print("base             %.2f m deep; overturns at %.1f times the wind\n", r->depth_m, r->base_margin);
        return;
    }
    if (wish->plate.on_rock)
        lw_cli_print("base             plate on rock\n");
    else
        lw_cli_print("base             block of %.2f x %.2f m, %.2f m high; held %.2f times\n", f->block_m, f->block_m,
                     f->thickness_m, f->overturning);
    if (f->pressure_pa > 0.0)
        lw_cli_print("                 its edge presses with %.0f kPa, %.0f kPa is allowed\n", 0.001 * f->pressure_pa,
                     0.001 * f->allowed_pa);
    lw_cli_print("plate            %.2f x %.2f m, %.0f mm thick; four bolts M%g on a square of %.3f m\n", f->plate_m,
                 f->plate_m, f->plate_mm, wish->plate.bolt_mm, f->spacing_m);
    lw_cli_print("bolts            %.0f N on one, strength used %.2f times", f->bolt_n, f->bolt_use);
    if (f->anchor_m > 0.0)
        lw_cli_print("; %.2f m in the concrete", f->anchor_m);
    lw_cli_print(" (a licensed engineer decides)\n");
}

static void print_joint(const lw_mast_wish *wish, const lw_mast_joint *j)
{
    lw_cli_print("joint            %.2f m up: upper pipe %g x %g mm, %.2f m long, lap of %.2f m\n", j->mouth_m,
                 wish->upper.pipe.diameter_mm, wish->upper.pipe.wall_mm, j->upper_length_m, wish->upper.lap_m);
    lw_cli_print("                 reserve of the upper pipe %.2f; wall used %.2f times, bolt M10 %.2f times\n",
                 j->bending.reserve, j->wall_use, j->bolt_use);
}

static void print_note(const char *before, const lw_mast_note *note)
{
    char text[LW_MAST_NOTE_BYTES];
    lw_mast_note_say(note, note->text, text, sizeof text);
    lw_cli_print("%s%s\n", before, text);
}

static void print(const lw_mast_wish *wish, const lw_mast_result *r)
{
    lw_cli_print("verdict          %s\n", lw_mast_verdict_text(r->verdict));
    for (size_t i = 0; i < r->reasons; i++)
        print_note("                 ", &r->notes[i]);
    if (wish->wind_given) {
        print_numbers(r);
        if (r->joint.mouth_m > 0.0)
            print_joint(wish, &r->joint);
        print_base(wish, r);
    }
    for (size_t i = r->reasons; i < r->note_count; i++)
        print_note("CAUTION: ", &r->notes[i]);
}

static void print_json(char *text)
{
    (void)puts(text ? text : "");
    free(text);
}

/* A mast document. */
static int check_one(const char *bytes, size_t length, bool json)
{
    lw_error err = {0};
    lw_mast_wish wish;
    lw_mast_result result;
    if (!lw_mast_from_json(bytes, length, &wish, &err) || !lw_mast_check(&wish, &result, &err))
        return lw_cli_fail(&err, json);
    if (json)
        print_json(lw_mast_to_json(&wish, &result));
    else
        print(&wish, &result);
    return result.verdict == LW_MAST_FALLS ? LW_EXIT_REFUSED : LW_EXIT_DONE;
}

static void print_masts(const lw_plan *plan)
{
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        const lw_plan_mast *mast = &kind->mast;
        (void)printf("%s%d x %s\n", i ? "\n" : "", kind->count, plan->brief.want.lamp[kind->kind].name);
        if (!mast->checked) {
            lw_cli_print("verdict          %s (place.wind)\n", lw_mast_verdict_text(LW_MAST_NOT_CHECKED));
            continue;
        }
        lw_cli_print("pole             %s: %g x %g mm, %.3g m above ground, %.2f m in all\n", mast->pole_name,
                     mast->wish.pipe.diameter_mm, mast->wish.pipe.wall_mm, mast->wish.height_m, mast->length_m);
        if (mast->depth_m > 0.0)
            lw_cli_print("hole             %.2f m deep, %.2f m wide, %.2f m3 of concrete\n", mast->depth_m,
                         lw_plan_mast_hole_m(mast), mast->concrete_m3);
        print(&mast->wish, &mast->result);
    }
}

/* The planned mast of one kind of lamp as a document that can be changed and checked by itself. */
static bool print_document(const lw_plan *plan, const char *lamp, lw_error *err)
{
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_mast *mast = &plan->kind[i].mast;
        if (strcmp(plan->brief.want.lamp[plan->kind[i].kind].name, lamp) != 0)
            continue;
        if (!mast->checked)
            return lw_fail(err, LW_WRONG_INPUT, "--document", "Not checked: the brief gives no wind (place.wind).");
        print_json(lw_mast_document(&mast->wish, plan->brief.build.mast.soil));
        return true;
    }
    return lw_fail(err, LW_WRONG_INPUT, "--document", "--document is \"%.60s\"; the plan has no lamp of that name.",
                   lamp);
}

/* A plan or a brief: planned anew, then its masts; document: of which lamp, NULL: not asked. */
static int check_plan(const char *path, const char *document, bool json)
{
    lw_error err = {0};
    lw_plan *plan = malloc(sizeof *plan);
    bool done =
        plan ? lw_cli_load_plan(path, plan, &err) : lw_fail(&err, LW_STORAGE, "", "There is not enough memory.");
    if (done && plan->refused.count > 0)
        done = lw_fail(&err, LW_REFUSED, plan->refused.item[0].id, "%s %s", plan->refused.item[0].reason,
                       plan->refused.item[0].remedy);
    if (done && document)
        done = print_document(plan, document, &err);
    else if (done && json)
        print_json(lw_plan_masts_to_json(plan));
    else if (done)
        print_masts(plan);
    free(plan);
    return done ? LW_EXIT_DONE : lw_cli_fail(&err, json);
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    char *bytes = NULL;
    const char *document = NULL;
    size_t length = 0;
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    if (!lw_cli_take_option(&argc, argv, "--document", &document, &err) || !lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, json);
    if (argc != 2)
        (void)lw_fail(&err, LW_WRONG_INPUT, "file",
                      "lanewick mast needs one mast document, plan or brief; see lanewick mast --help.");
    if (argc != 2 || !lw_cli_read_file(argv[1], MAX_BYTES, &bytes, &length, &err))
        return lw_cli_fail(&err, json);
    const bool planned = lw_is_plan_or_brief(bytes, length);
    if (document && !planned)
        (void)lw_fail(&err, LW_WRONG_INPUT, "--document", "--document goes with a plan or a brief.");
    const int code = err.family ? lw_cli_fail(&err, json)
                     : planned  ? check_plan(argv[1], document, json)
                                : check_one(bytes, length, json);
    free(bytes);
    return code;
}

const lw_command lw_cmd_mast = {
    .name = "mast",
    .summary = "does a mast stand: wind, pipe, swing, base",
    .usage =
        "lanewick mast FILE.json        checks a mast (format lanewick.mast/1), or the masts of a plan or brief,\n"
        "                               which is planned anew; --json for one JSON object; exit 3 when one does\n"
        "                               not stand. A screening: a licensed engineer decides.\n"
        "         --document LAMP       instead: the planned mast of that lamp as a document, to change and check\n",
    .run = run,
};
