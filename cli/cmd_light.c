/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick light: photometric files and the light on a lane.
 */
#include "light_verbs.h"

#include "lanewick/desk_light.h"
#include "lanewick/light_json.h"
#include "lanewick/lm63.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 32 << 20, LANE_BYTES = 72 << 20 };

static void print_defects(const lw_lm63 *file)
{
    static const char *const severities[] = {"note", "mended", "fatal"};
    for (size_t i = 0; i < file->defect_count; i++)
        lw_cli_print("%-16s line %zu: %s\n", severities[file->defects[i].severity], file->defects[i].line,
                     file->defects[i].text);
    if (file->defects_left_out > 0)
        lw_cli_print("                 and %zu more\n", file->defects_left_out);
}

static void print_file(const lw_lm63 *file)
{
    lw_cli_print("version          %s\n", file->version);
    lw_cli_print("light            %.1f lm (integrated from the table)\n", file->lumens);
    if (file->stated_lumens > 0.0)
        lw_cli_print("lamps            %.0f lm, of which %.1f %% leave the head\n", file->stated_lumens,
                     100.0 * file->lumens / file->stated_lumens);
    lw_cli_print("largest          %.1f cd\n", lw_intensity_peak_cd(&file->table));
    lw_cli_print("type             %c, %zu vertical by %zu horizontal angles\n", "CBA"[file->type - 1],
                 file -> table.vertical_count, file->table.horizontal_count);
    if (file->type == 1) {
        const lw_beam_numbers n = lw_beam_numbers_of(&file->table);
        lw_cli_print("symmetry         %s\n", lw_symmetry_text(file->table.symmetry));
        lw_cli_print("by zones         0-30: %.0f, 30-60: %.0f, 60-80: %.0f, 80-90: %.0f, upward: %.0f lm\n",
                     n.zone_lm[0], n.zone_lm[1], n.zone_lm[2], n.zone_lm[3], n.zone_lm[4]);
    }
    lw_cli_print("power            %g W\n", file->watts);
    print_defects(file);
}

static void put_json(char *text)
{
    (void)puts(text ? text : "");
    free(text);
}

/* All that is wrong with a file that was refused, not its first defect only. */
static int refuse_file(const lw_lm63 *file, const lw_error *err, bool json)
{
    if (file->defect_count == 0)
        return lw_cli_fail(err, json);
    if (json) {
        put_json(lw_lm63_refused_to_json(file, err));
        return lw_family_exit_code(err->family);
    }
    print_defects(file);
    return lw_cli_fail(err, false);
}

static int read_file(const char *path, const lw_light_options *o)
{
    static lw_lm63 file;
    lw_error err = {0};
    char *bytes = NULL;
    size_t length = 0;
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    const bool done = lw_cli_read_file(path, LW_LM63_MAX_BYTES, &bytes, &length, &err) &&
                      lw_lm63_read(bytes, length, o->tolerant, &arena, &file, &err) &&
                      (!o->picture.path || lw_desk_file_picture(&file, &o->picture, &err));
    int code = LW_EXIT_DONE;
    if (!done)
        code = refuse_file(&file, &err, o->json);
    else if (o->json)
        put_json(lw_lm63_to_json(&file));
    else
        print_file(&file);
    free(bytes);
    free(arena.base);
    return code;
}

static const double dark_place_lx = 2.0; /* on a window, EN 12193 and CIE 150 */

static void print_lane(const lw_lane *lane, const lw_field_sum *sum, size_t count)
{
    const lw_light_class *reached = lw_light_class_reached(sum, lane->crossing);
    lw_cli_print("average          %.2f lx on the ground (%zu points)\n", sum->average_lx, count);
    lw_cli_print("darkest point    %.2f lx, brightest %.2f lx, uniformity %.2f\n", sum->minimum_lx, sum->maximum_lx,
                 sum->uniformity);
    lw_cli_print("on faces         at least %.2f lx (semi-cylindrical, 1.5 m up, both ways)\n",
                 sum->semicylindrical_minimum_lx);
    lw_cli_print("class            %s (EN 13201-2)\n", reached ? reached->name : "below the lowest");
    if (lane->wanted_class[0])
        lw_cli_print("wanted %-9s %s\n", lane->wanted_class, lw_lane_class_met(lane, sum) ? "met" : "NOT met");
    if (lw_lane_too_bright(lane, sum))
        lw_cli_print("note             the average passes 1.5 times the class: fewer lumens, or turn it down (EN "
                     "13201-2, note)\n");
    lw_cli_print("in words         %s\n", lw_light_in_words(sum));
    lw_cli_print("lost upward      %.1f %% of the light\n", 100.0 * sum->upward_share);
    lw_cli_print("glare            threshold increment %.0f %% (P classes allow 20 to 35)\n",
                 sum->threshold_increment_pct);
    for (size_t i = 0; i < lane->window_count; i++) {
        const double lux = lw_lane_window_lx(lane, &lane->windows[i]);
        if (lux > dark_place_lx)
            lw_cli_print(
                "window %-9zu %.2f lx of new lamps: TOO MUCH for dark places (at most 2); hood or turn the head\n",
                i + 1, lux);
        else
            lw_cli_print("window %-9zu %.2f lx of new lamps (at most 2 in dark places)\n", i + 1, lux);
    }
    if (lane->head.colour_k > 0.0) {
        const lw_light_colour colour = lw_lane_colour(lane, sum);
        lw_cli_print("colour           %s, %.0f K. %s\n", colour.grade, lane->head.colour_k, colour.advice);
    }
    if (lane->reach_heights > 0.0)
        lw_cli_print("note             only lamps within %g heights of a point count\n", lane->reach_heights);
}

static int light_lane(const char *path, const lw_light_options *o)
{
    lw_lane_light *light = NULL;
    lw_error err = {0};
    char *bytes = NULL, folder[1024];
    size_t length = 0;
    lw_arena arena = lw_cli_arena(LANE_BYTES);
    const bool done = lw_light_document(path, &bytes, &length, folder, sizeof folder, &err) &&
                      lw_desk_lane_light(bytes, length, folder, &arena, &light, &err) &&
                      (!o->picture.path || lw_desk_lane_picture(light, &o->picture, &err));
    int code = LW_EXIT_DONE;
    if (!done) {
        code = lw_cli_fail(&err, o->json);
    } else if (o->json) {
        put_json(lw_lane_to_json(&light->lane, &light->sum, light->points, light->count));
    } else {
        print_lane(&light->lane, &light->sum, light->count);
    }
    free(bytes);
    free(arena.base);
    return code;
}

/* --picture FILE --show WORD */
static bool take_picture(int *argc, char **argv, lw_picture_wish *wish, lw_error *err)
{
    static const char *const shows[] = {"all", "lane", "intensity", "section"};
    const char *show = NULL;
    lw_paper paper;
    wish->words = lw_cli_words();
    if (!lw_cli_take_option(argc, argv, "--picture", &wish->path, err) ||
        !lw_cli_take_option(argc, argv, "--show", &show, err) ||
        (wish->path && !lw_desk_picture_paper(wish->path, &paper, err)))
        return false;
    int chosen = 0;
    while (show && chosen < 4 && strcmp(show, shows[chosen]) != 0)
        chosen++;
    wish->show = (lw_light_show)chosen;
    return chosen < 4 || lw_fail(err, LW_WRONG_INPUT, "show", "show is \"%.20s\"; give %s.", show, LW_LIGHT_SHOW_WORDS);
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    lw_light_options o = {.json = lw_cli_take_switch(&argc, argv, "--json"),
                          .tolerant = lw_cli_take_switch(&argc, argv, "--tolerant")};
    const char *seed = NULL;
    if (!lw_cli_take_option(&argc, argv, "--out", &o.out, &err) ||
        !lw_cli_take_option(&argc, argv, "--brief", &o.brief, &err) ||
        !lw_cli_take_option(&argc, argv, "--seed", &seed, &err) || !lw_cli_read_seed(seed, &o.seed, &err) ||
        !take_picture(&argc, argv, &o.picture, &err) || !lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, o.json);
    if (argc == 3 && strcmp(argv[1], "read") == 0)
        return read_file(argv[2], &o);
    if (argc == 3 && strcmp(argv[1], "head") == 0)
        return lw_light_head(argv[2], &o);
    if (argc == 3 && strcmp(argv[1], "lane") == 0)
        return light_lane(argv[2], &o);
    if (argc == 3 && strcmp(argv[1], "search") == 0)
        return lw_light_search(argv[2], &o);
    (void)lw_fail(&err, LW_WRONG_INPUT, "light",
                  "Say what to do: read FILE.ies, head HEAD.json, lane LANE.json or search WISH.json; see lanewick "
                  "light --help.");
    return lw_cli_fail(&err, o.json);
}

const lw_command lw_cmd_light = {
    .name = "light",
    .summary = "intensity files and the light on a lane",
    .usage =
        "lanewick light read FILE.ies    lumens, largest intensity, symmetry and defects of an LM-63 file\n"
        "lanewick light head HEAD.json   a head's lumens, shape and bottle, from lux meter readings too "
        "(docs/head.md)\n"
        "  --out FILE.ies                write it as an LM-63-2019 file\n"
        "lanewick light lane LANE.json   lux on a lane, a square or any polygon, and the class reached (docs/lane.md)\n"
        "lanewick light search WISH.json  masts for a wished class (docs/lane.md)\n"
        "  --brief BRIEF.json            with its place and shelf: the nights simulated, the cheapest way, what more "
        "costs\n"
        "lanewick light search BRIEF.json  the same for the brief's own want.lane\n"
        "  --seed N                      another set of simulated years (1)\n"
        "  --picture FILE.svg|png|pdf    draw the lane, the head's intensity and a person under the lamp (read, head, "
        "lane)\n"
        "  --show all|lane|intensity|section\n"
        "  --tolerant                    mend what can be mended and say so; without it a defect is refused\n"
        "  --json                        one JSON object\n",
    .run = run,
};
