/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick light: photometric files and the light on a lane.
 */
#include "cli.h"

#include "lanewick/lane_json.h"
#include "lanewick/layout_json.h"
#include "lanewick/light_json.h"
#include "lanewick/lm63.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 32 << 20 };

static void print_file(const lw_lm63 *file)
{
    static const char *const severities[] = {"note", "mended", "fatal"};
    (void)printf("version          %s\n", file->version);
    (void)printf("light            %.1f lm (integrated from the table)\n", file->lumens);
    if (file->stated_lumens > 0.0)
        (void)printf("lamps            %.0f lm, of which %.1f %% leave the head\n", file->stated_lumens,
                     100.0 * file->lumens / file->stated_lumens);
    (void)printf("largest          %.1f cd\n", lw_intensity_peak_cd(&file->table));
    (void)printf("type             %c, %zu vertical by %zu horizontal angles\n", "CBA"[file->type - 1],
                 file -> table.vertical_count, file->table.horizontal_count);
    if (file->type == 1)
        (void)printf("symmetry         %s\n", lw_symmetry_text(file->table.symmetry));
    (void)printf("power            %g W\n", file->watts);
    for (size_t i = 0; i < file->defect_count; i++)
        (void)printf("%-16s line %zu: %s\n", severities[file->defects[i].severity], file->defects[i].line,
                     file->defects[i].text);
}

static int read_file(const char *path, bool tolerant, bool json)
{
    static lw_lm63 file;
    lw_error err = {0};
    char *bytes = NULL;
    size_t length = 0;
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    const bool done = lw_cli_read_file(path, LW_LM63_MAX_BYTES, &bytes, &length, &err) &&
                      lw_lm63_read(bytes, length, tolerant, &arena, &file, &err);
    int code = LW_EXIT_DONE;
    if (!done) {
        code = lw_cli_fail(&err, json);
    } else if (json) {
        char *text = lw_lm63_to_json(&file);
        (void)puts(text ? text : "");
        free(text);
    } else {
        print_file(&file);
    }
    free(bytes);
    free(arena.base);
    return code;
}

static void print_lane(const lw_lane *lane, const lw_field_sum *sum, size_t count)
{
    const lw_light_class *reached = lw_light_class_reached(sum, lane->crossing);
    (void)printf("average          %.2f lx on the ground (%zu points)\n", sum->average_lx, count);
    (void)printf("darkest point    %.2f lx, brightest %.2f lx, uniformity %.2f\n", sum->minimum_lx, sum->maximum_lx,
                 sum->uniformity);
    (void)printf("on faces         at least %.2f lx (semi-cylindrical, 1.5 m up, both ways)\n",
                 sum->semicylindrical_minimum_lx);
    (void)printf("class            %s (EN 13201-2)\n", reached ? reached->name : "below the lowest");
    if (lane->wanted_class[0])
        (void)printf("wanted %-9s %s\n", lane->wanted_class, lw_lane_class_met(lane, sum) ? "met" : "NOT met");
    (void)printf("in words         %s\n", lw_light_in_words(sum));
    (void)printf("lost upward      %.1f %% of the light\n", 100.0 * sum->upward_share);
    (void)printf("glare            threshold increment %.0f %% (P classes allow 20 to 35)\n",
                 sum->threshold_increment_pct);
    for (size_t i = 0; i < lane->window_count; i++) {
        const lw_window *w = &lane->windows[i];
        (void)printf("window %-9zu %.2f lx (at most 2 in dark places)\n", i + 1,
                     lw_window_lx(lane->lamps, lane->lamp_count, w->x_m, w->y_m, w->z_m, w->facing_deg));
    }
    if (lane->reach_heights > 0.0)
        (void)printf("note             only lamps within %g heights of a point count\n", lane->reach_heights);
}

/* The head's intensity file stands beside the lane document. */
static bool load_head(const char *document, lw_lane *lane, lw_arena *arena, lw_error *err)
{
    static lw_lm63 file;
    char path[1024];
    const char *slash = strrchr(document, '/');
    const int folder = slash ? (int)(slash - document) + 1 : 0;
    (void)snprintf(path, sizeof path, "%.*s%s", folder, document, lane->intensity_file);
    char *bytes = NULL;
    size_t length = 0;
    bool done = lw_cli_read_file(path, LW_LM63_MAX_BYTES, &bytes, &length, err) &&
                lw_lm63_read(bytes, length, false, arena, &file, err);
    free(bytes);
    if (done && file.type != 1)
        done = lw_fail(err, LW_WRONG_INPUT, "intensity_file", "%.200s is of type %c; a lane needs type C.", path,
                       "CBA"[file.type - 1]);
    if (done && lane->intensity_scale_lm > 0.0)
        for (size_t i = 0; i < lane->lamp_count; i++)
            lane->lamps[i].maintenance *= lane->intensity_scale_lm / file.lumens;
    if (done)
        lw_lane_use_table(lane, &file.table);
    return done;
}

static int light_lane(const char *path, bool json)
{
    static lw_lane lane;
    lw_error err = {0};
    char *bytes = NULL;
    size_t length = 0, count = 0;
    lw_field_point *points = NULL;
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    bool done = lw_cli_read_file(path, 4 << 20, &bytes, &length, &err) &&
                lw_lane_from_json(bytes, length, &lane, &err) &&
                (!lane.intensity_file[0] || load_head(path, &lane, &arena, &err)) &&
                lw_field_grid(&lane.field, &arena, &points, &count, &err);
    int code = LW_EXIT_DONE;
    if (!done) {
        code = lw_cli_fail(&err, json);
    } else {
        lw_field_light(lane.lamps, lane.lamp_count, lane.reach_heights, points, count);
        lw_field_sum sum = lw_field_summary(points, count);
        sum.upward_share = lw_upward_share(lane.lamps, lane.lamp_count < 50 ? lane.lamp_count : 1);
        sum.threshold_increment_pct = lw_threshold_increment_pct(lane.lamps, lane.lamp_count, points, count,
                                                                 sum.average_lx, lane.ground_reflectance);
        char *text = json ? lw_lane_to_json(&lane, &sum, points, count) : NULL;
        if (json)
            (void)puts(text ? text : "");
        else
            print_lane(&lane, &sum, count);
        free(text);
    }
    free(bytes);
    free(arena.base);
    return code;
}

static void print_layouts(const lw_layout_request *request, const lw_layout *layouts, size_t count)
{
    (void)puts("masts  side       height  tilt  spacing  lumens  watts  together  average  darkest  on faces");
    for (size_t i = 0; i < count; i++) {
        const lw_layout *one = &layouts[i];
        const double watts = one->lumens_each / request->lumens_per_w;
        (void)printf("%5zu  %-9s  %4.1f m  %3.0f°  %5.1f m  %6.0f  %5.1f  %6.1f W  %4.1f lx  %4.2f lx  %5.2f lx\n",
                     one->masts, lw_side_text(one->side), one->height_m, one->tilt_deg, one->spacing_m,
                     one->lumens_each, watts, watts * (double)one->masts, one->light.average_lx, one->light.minimum_lx,
                     one->light.semicylindrical_minimum_lx);
    }
    if (count == 0)
        (void)puts("none: no number of masts up to most_masts can meet the wish; allow more masts, more lumens or "
                   "higher masts.");
    (void)puts("Lumens are those of a new head; the light is what is left at the stated maintenance.");
}

static bool search(const char *bytes, size_t length, lw_layout_request *request, lw_arena *arena, lw_layout *layouts,
                   size_t *count, lw_error *err)
{
    if (!lw_layout_request_from_json(bytes, length, request, err))
        return false;
    if (request->intensity_file[0])
        return lw_fail(err, LW_WRONG_INPUT, "intensity_file",
                       "The search takes cos_power; fit one with lanewick figure beam_fit.");
    return lw_layout_search(&request->wish, arena, layouts, count, err);
}

static int light_search(const char *path, bool json)
{
    static lw_layout_request request;
    static lw_layout layouts[LW_LAYOUT_MAX_MASTS];
    lw_error err = {0};
    char *bytes = NULL;
    size_t length = 0, count = 0;
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    const bool done = lw_cli_read_file(path, 4 << 20, &bytes, &length, &err) &&
                      search(bytes, length, &request, &arena, layouts, &count, &err);
    int code = LW_EXIT_DONE;
    if (!done) {
        code = lw_cli_fail(&err, json);
    } else if (json) {
        char *text = lw_layouts_to_json(&request, layouts, count);
        (void)puts(text ? text : "");
        free(text);
    } else {
        print_layouts(&request, layouts, count);
    }
    free(bytes);
    free(arena.base);
    return code;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    const bool tolerant = lw_cli_take_switch(&argc, argv, "--tolerant");
    if (!lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, json);
    if (argc == 3 && strcmp(argv[1], "read") == 0)
        return read_file(argv[2], tolerant, json);
    if (argc == 3 && strcmp(argv[1], "lane") == 0)
        return light_lane(argv[2], json);
    if (argc == 3 && strcmp(argv[1], "search") == 0)
        return light_search(argv[2], json);
    (void)lw_fail(
        &err, LW_WRONG_INPUT, "light",
        "Say what to do: lanewick light read FILE.ies or lanewick light lane LANE.json; see lanewick light --help.");
    return lw_cli_fail(&err, json);
}

const lw_command lw_cmd_light = {
    .name = "light",
    .summary = "intensity files and the light on a lane",
    .usage =
        "lanewick light read FILE.ies    lumens, largest intensity, symmetry and defects of an LM-63 file\n"
        "lanewick light lane LANE.json   lux on a lane, a square or any polygon, and the class reached (docs/lane.md)\n"
        "  --tolerant                    mend what can be mended and say so; without it a defect is refused\n"
        "  --json                        one JSON object\n",
    .run = run,
};
