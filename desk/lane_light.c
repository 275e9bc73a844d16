/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light on a lane and masts for a wished light: see lanewick/desk_light.h.
 */
#include "lanewick/desk_light.h"

#include "lane_files.h"
#include "read_file.h"

#include "lanewick/lm63.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { WINDOW_LAMPS = 50 }; /* for the share of light that goes upward, when there are more */

static bool read_bytes(const char *path, char **bytes, size_t *length, lw_error *err)
{
    const lw_file_ask ask = {.field = "intensity_file", .path = path, .most = LW_LM63_MAX_BYTES, .advice = ""};
    if (!lw_read_file(&ask, bytes, length, err))
        return false;
    return *length <= LW_LM63_MAX_BYTES ||
           lw_fail(err, LW_WRONG_INPUT, "intensity_file", "intensity_file: %.200s is larger than %d bytes.", path,
                   LW_LM63_MAX_BYTES);
}

static bool read_head_file(const char *folder, const char *name, lw_arena *arena, lw_lm63 **out, lw_error *err)
{
    char path[1400], *bytes = NULL;
    size_t length = 0;
    if (!folder)
        return lw_fail(
            err, LW_WRONG_INPUT, "intensity_file",
            "intensity_file names a file; here the head is given by its cos_power (a figure, beam_fit, finds "
            "one).");
    lw_file_beside(folder, name, path, sizeof path);
    *out = lw_arena_take(arena, 1, sizeof **out, err);
    const bool done =
        *out && read_bytes(path, &bytes, &length, err) && lw_lm63_read(bytes, length, false, arena, *out, err);
    free(bytes);
    if (done && (*out)->type != 1)
        return lw_fail(err, LW_WRONG_INPUT, "intensity_file", "%.200s is of type %c; a lane needs type C.", path,
                       "CBA"[(*out)->type - 1]);
    if (done && !((*out)->lumens > 0.0))
        return lw_fail(err, LW_WRONG_INPUT, "intensity_file", "%.200s holds no light.", path);
    return done;
}

bool lw_head_work_out(const lw_head *head, const char *folder, lw_arena *arena, lw_head_light **out, lw_error *err)
{
    lw_lm63 *file = NULL;
    *out = lw_arena_take(arena, 1, sizeof **out, err);
    if (!*out || (head->intensity_file[0] && !read_head_file(folder, head->intensity_file, arena, &file, err)) ||
        !lw_head_light_of(head, file ? &file->table : NULL, arena, *out, err))
        return false;
    (*out)->file_watts = file ? file->watts : 0.0;
    return true;
}

/* A head for a wish: a closed form of 1 lm, or a table and the lumens of its bare head. */
static bool layout_head(const lw_head *stated, const char *folder, lw_arena *arena, lw_layout_head *out, lw_error *err)
{
    lw_head_light *light = NULL;
    lw_head head = *stated;
    head.lumens = head.intensity_file[0] || head.reading_count ? 0.0 : 1.0;
    if (!lw_head_work_out(&head, folder, arena, &light, err))
        return false;
    out->beam = light->beam;
    out->table_lumens = head.lumens > 0.0 ? head.lumens : lw_intensity_flux_lm(&light->bare_table, 0.0, 180.0);
    if (light->fitted)
        out->table_lumens = light->fit.flux_lm;
    if (!light->beam.table)
        out->beam.peak_cd = lw_cosine_peak_cd(1.0, light->beam.cos_power);
    return true;
}

bool lw_read_layout_heads(const char *folder, lw_layout_request *request, lw_arena *arena, lw_error *err)
{
    for (size_t i = 0; i < request->wish.head_count; i++)
        if (!lw_head_is_plain(&request->head[i]) &&
            !layout_head(&request->head[i], folder, arena, &request->wish.head[i], err))
            return false;
    for (size_t i = 0; i < request->wish.fixed_count; i++) {
        lw_head_light *light = NULL;
        if (lw_head_is_plain(&request->fixed_head[i]))
            continue;
        if (!lw_head_work_out(&request->fixed_head[i], folder, arena, &light, err))
            return false;
        request->wish.fixed[i].beam = light->beam;
    }
    return true;
}

static bool load_head(const char *folder, lw_lane *lane, lw_arena *arena, lw_error *err)
{
    lw_head_light *head = NULL;
    if (lw_head_is_plain(&lane->head))
        return true;
    if (!lw_head_work_out(&lane->head, folder, arena, &head, err))
        return false;
    lw_lane_use_beam(lane, &head->beam);
    return true;
}

bool lw_desk_lane_light(const char *text, size_t length, const char *folder, lw_arena *arena, lw_lane_light **out,
                        lw_error *err)
{
    lw_lane_light *light = *out = lw_arena_take(arena, 1, sizeof *light, err);
    if (!light || !lw_lane_from_json(text, length, &light->lane, err) || !load_head(folder, &light->lane, arena, err))
        return false;
    const lw_lane *lane = &light->lane;
    const double bay_m = lw_field_bay_m(&lane->field, lane->lamps, lane->lamp_count);
    if (!lw_field_grid(&lane->field, bay_m, arena, &light->points, &light->count, err))
        return false;
    lw_field_light(lane->lamps, lane->lamp_count, lane->reach_heights, light->points, light->count);
    light->sum = lw_field_summary(light->points, light->count);
    light->sum.upward_share = lw_upward_share(lane->lamps, lane->lamp_count < WINDOW_LAMPS ? lane->lamp_count : 1);
    light->sum.threshold_increment_pct =
        lw_threshold_increment_pct(lane->lamps, lane->lamp_count, light->points, light->count, light->sum.average_lx,
                                   lw_lane_left(lane), lane->ground_reflectance);
    return true;
}

bool lw_desk_lane_layouts(const char *text, size_t length, const char *folder, lw_arena *arena, lw_lane_layouts **out,
                          lw_error *err)
{
    lw_lane_layouts *found = *out = lw_arena_take(arena, 1, sizeof *found, err);
    return found && lw_layout_request_from_json(text, length, &found->request, err) &&
           lw_read_layout_heads(folder, &found->request, arena, err) &&
           lw_layout_search(&found->request.wish, found->request.lumens_per_w, arena, found->layout, &found->count,
                            err);
}
