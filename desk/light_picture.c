/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures of a lane, a head or an intensity file: see lanewick/desk_head.h.
 */
#include "lanewick/desk_head.h"

#include "lanewick/desk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double usual_height_m = 4.0; /* of a head that is drawn without its lane */

bool lw_desk_picture_paper(const char *path, lw_paper *paper, lw_error *err)
{
    static const char *const ends[] = {[LW_PAPER_PDF] = ".pdf", [LW_PAPER_SVG] = ".svg", [LW_PAPER_PNG] = ".png"};
    const char *end = strrchr(path, '.');
    for (int i = LW_PAPER_PDF; end && i <= LW_PAPER_PNG; i++)
        if (strcmp(end, ends[i]) == 0) {
            *paper = (lw_paper)i;
            return true;
        }
    return lw_fail(err, LW_WRONG_INPUT, "picture", "picture is \"%.100s\"; its name must end in .svg, .png or .pdf.",
                   path);
}

static bool write_page(const lw_light_page *page, const char *path, lw_error *err)
{
    lw_paper paper = LW_PAPER_PDF;
    unsigned char *bytes = NULL;
    size_t length = 0;
    const bool done = lw_desk_picture_paper(path, &paper, err) &&
                      lw_light_page_draw(page, paper, &bytes, &length, err) &&
                      lw_desk_write_path(path, bytes, length, err);
    free(bytes);
    return done;
}

static lw_light_page lane_page(const lw_lane_light *light, lw_light_show show, const lw_words *words, char *line,
                               size_t size)
{
    const lw_lane *lane = &light->lane;
    const lw_field_sum *sum = &light->sum;
    const lw_light_class *reached = lw_light_class_reached(sum, lane->crossing);
    (void)snprintf(line, size,
                   lw_say(words,
                          "On the ground: average %.2f lx, darkest %.2f lx, uniformity %.2f, class %s. On faces at "
                          "least %.2f lx."),
                   sum->average_lx, sum->minimum_lx, sum->uniformity,
                   reached ? reached->name : lw_say(words, "below the lowest"), sum->semicylindrical_minimum_lx);
    return (lw_light_page){.words = words,
                           .title = lane->name,
                           .line = line,
                           .lane = {.field = &lane->field,
                                    .lamps = lane->lamps,
                                    .lamp_count = lane->lamp_count,
                                    .points = light->points,
                                    .count = light->count},
                           .lamp = &lane->lamps[0],
                           .show = show};
}

bool lw_desk_lane_picture(const lw_lane_light *light, const lw_picture_wish *wish, lw_error *err)
{
    char line[300];
    const lw_light_page page = lane_page(light, wish->show, wish->words, line, sizeof line);
    return write_page(&page, wish->path, err);
}

bool lw_desk_lane_svg(const lw_lane_light *light, lw_light_show show, const lw_words *words, char **svg, lw_error *err)
{
    char line[300];
    unsigned char *bytes = NULL;
    size_t length = 0;
    const lw_light_page page = lane_page(light, show, words, line, sizeof line);
    *svg = NULL;
    const bool done = lw_light_page_draw(&page, LW_PAPER_SVG, &bytes, &length, err);
    *svg = done ? malloc(length + 1) : NULL;
    if (*svg) {
        memcpy(*svg, bytes, length);
        (*svg)[length] = '\0';
    }
    free(bytes);
    return done && (*svg || lw_fail(err, LW_STORAGE, "", "Memory is out."));
}

static bool beam_picture(const lw_beam *beam, bool planes, const char *title, double lumens,
                         const lw_picture_wish *wish, lw_error *err)
{
    char line[200];
    const lw_lamp lamp = {.height_m = usual_height_m, .maintenance = 1.0, .beam = *beam};
    (void)snprintf(line, sizeof line, lw_say(wish->words, "%.0f lm; light at 4 m height, as new."), lumens);
    const lw_light_page page = {
        .words = wish->words, .title = title, .line = line, .lamp = &lamp, .planes = planes, .show = wish->show};
    return write_page(&page, wish->path, err);
}

bool lw_desk_head_picture(const lw_head *head, const lw_head_light *light, const lw_picture_wish *wish, lw_error *err)
{
    return beam_picture(&light->beam, false, head->name, light->numbers.lumens, wish, err);
}

bool lw_desk_file_picture(const lw_lm63 *file, const lw_picture_wish *wish, lw_error *err)
{
    if (file->type != 1)
        return lw_fail(err, LW_WRONG_INPUT, "picture", "A file of type %c is not drawn; only type C is.",
                       "CBA"[file->type - 1]);
    const lw_beam beam = {.table = &file->table};
    return beam_picture(&beam, true, file->luminaire, file->lumens, wish, err);
}
