/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick light search: masts for a wished light, with a brief also through the nights.
 */
#include "light_verbs.h"

#include "lanewick/desk.h"
#include "lanewick/desk_light.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { LANE_BYTES = 72 << 20, DOCUMENT_BYTES = 4 << 20 };

bool lw_light_document(const char *path, char **bytes, size_t *length, char *folder, size_t size, lw_error *err)
{
    lw_cli_folder_of(path, folder, size);
    return lw_cli_read_file(path, DOCUMENT_BYTES, bytes, length, err);
}

static void print_layouts(const lw_layout_request *request, const lw_layout *layouts, size_t count)
{
    if (count == 0) {
        lw_cli_print("none: no number of masts from %zu to %zu can meet the wish; allow more masts, higher ones, other "
                     "tilts or more lumens of a head (most_lumens), or ask for less.\n",
                     request->wish.fewest_masts, request->wish.most_masts);
        return;
    }
    lw_cli_print("masts  side       height  tilt  spacing  lumens  watts  together  average  darkest  on faces\n");
    for (size_t i = 0; i < count; i++) {
        const lw_layout *one = &layouts[i];
        const double watts = one->lumens_each / request->lumens_per_w[one->head];
        (void)printf("%5zu  %-9s  %4.1f m  %3.0f°  %5.1f m  %6.0f  %5.1f  %6.1f W  %4.1f lx  %4.2f lx  %5.2f lx\n",
                     one->masts, lw_layout_stand_text(&request->wish, one), one->height_m, one->tilt_deg,
                     one->spacing_m, one->lumens_each, watts, watts * (double)one->masts, one->light.average_lx,
                     one->light.minimum_lx, one->light.semicylindrical_minimum_lx);
    }
    if (request->head[layouts[0].head].colour_k > 0.0) {
        const lw_light_colour colour = lw_layout_colour(request, &layouts[0]);
        lw_cli_print("Colour: %s, %.0f K. %s\n", colour.grade, request->head[layouts[0].head].colour_k, colour.advice);
    }
    lw_cli_print("Lumens are those of a new head; the light is what is left at the stated maintenance.\n");
}

static int give(char *text)
{
    if (text)
        (void)fputs(text, stdout);
    free(text);
    return text ? LW_EXIT_DONE : LW_EXIT_STORAGE;
}

static int without_nights(const char *bytes, size_t length, const char *folder, bool json)
{
    lw_lane_layouts *found = NULL;
    lw_error err = {0};
    lw_arena arena = lw_cli_arena(LANE_BYTES);
    int code;
    if (!lw_desk_lane_layouts(bytes, length, folder, &arena, &found, &err)) {
        code = lw_cli_fail(&err, json);
    } else {
        if (json) {
            char *text = lw_layouts_to_json(&found->request, found->layout, found->count);
            (void)puts(text ? text : "");
            free(text);
        } else {
            print_layouts(&found->request, found->layout, found->count);
        }
        code = found->count > 0 ? LW_EXIT_DONE : LW_EXIT_SOME_FAILED;
    }
    free(arena.base);
    return code;
}

static int deliver(const lw_plan *plan, const lw_plan_request *request, bool json)
{
    if (plan->refused.count > 0) {
        (void)give(json ? lw_plan_to_json(plan, request->brief, request->brief_length)
                        : lw_desk_plan_text(plan, lw_cli_words(), false));
        return LW_EXIT_REFUSED;
    }
    const int given =
        give(json ? lw_plan_lane_to_json(plan) : lw_desk_lane_text(plan, lw_cli_words(), isatty(STDOUT_FILENO) != 0));
    return given == LW_EXIT_DONE && !plan->lane.chosen.fed ? LW_EXIT_SOME_FAILED : given;
}

static int with_nights(const lw_plan_request *request, bool json)
{
    lw_error err = {0};
    lw_plan *plan = malloc(sizeof *plan);
    int code;
    if (plan && lw_desk_plan(request, plan, &err)) {
        code = deliver(plan, request, json);
    } else {
        if (!plan)
            (void)lw_fail(&err, LW_STORAGE, "", "There is not enough memory for the search.");
        code = lw_cli_fail(&err, json);
    }
    free(plan);
    return code;
}

/* The wish in place of the brief's lamps. */
static int with_brief(const char *wish, size_t length, const lw_light_options *options)
{
    lw_error err = {0};
    char *bytes = NULL, *brief = NULL, folder[1024];
    size_t brief_length = 0;
    int code;
    if (lw_light_document(options->brief, &bytes, &brief_length, folder, sizeof folder, &err) &&
        lw_brief_with_lane(bytes, brief_length, wish, length, &brief, &err))
        code = with_nights(&(lw_plan_request){.brief = brief,
                                              .brief_length = strlen(brief),
                                              .folder = folder,
                                              .seed = options->seed,
                                              .lane_only = true},
                           options->json);
    else
        code = lw_cli_fail(&err, options->json);
    free(brief);
    free(bytes);
    return code;
}

int lw_light_search(const char *path, const lw_light_options *options)
{
    lw_error err = {0};
    char *bytes = NULL, folder[1024];
    size_t length = 0;
    int code;
    if (!lw_light_document(path, &bytes, &length, folder, sizeof folder, &err))
        code = lw_cli_fail(&err, options->json);
    else if (options->brief)
        code = with_brief(bytes, length, options);
    else if (lw_document_is(bytes, length, "lanewick.brief/1"))
        code = with_nights(
            &(lw_plan_request){
                .brief = bytes, .brief_length = length, .folder = folder, .seed = options->seed, .lane_only = true},
            options->json);
    else
        code = without_nights(bytes, length, folder, options->json);
    free(bytes);
    return code;
}
