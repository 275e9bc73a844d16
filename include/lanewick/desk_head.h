/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head worked out, written as an LM-63 file, drawn; a lane drawn.
 */
#ifndef LANEWICK_DESK_HEAD_H
#define LANEWICK_DESK_HEAD_H

#include "lanewick/desk_light.h"
#include "lanewick/head_json.h"
#include "lanewick/lm63.h"
#include "lanewick/sheet_light.h"

/* A head document (lanewick.head/1) and its light; both in the arena. folder: where its file lies; NULL: no files. */
LW_MUST_CHECK bool lw_desk_head(const char *text, size_t length, const char *folder, lw_arena *arena, lw_head **head,
                                lw_head_light **light, lw_error *err);

/* The head's light as an LM-63-2019 file, written whole or not at all. date YYYY-MM-DD when the head states none. */
LW_MUST_CHECK bool lw_desk_head_write(const lw_head *head, const lw_head_light *light, const char *date,
                                      const char *path, lw_error *err);

/* Pictures. The paper goes by the end of the file's name: .svg, .png or .pdf; the file is written whole or not at all.
 */
typedef struct lw_picture_wish {
    const char *path;
    lw_light_show show;
    const lw_words *words;
} lw_picture_wish;
/* Checks the name before anything is computed. */
LW_MUST_CHECK bool lw_desk_picture_paper(const char *path, lw_paper *paper, lw_error *err);
LW_MUST_CHECK bool lw_desk_lane_picture(const lw_lane_light *light, const lw_picture_wish *wish, lw_error *err);
LW_MUST_CHECK bool lw_desk_head_picture(const lw_head *head, const lw_head_light *light, const lw_picture_wish *wish,
                                        lw_error *err);
LW_MUST_CHECK bool lw_desk_file_picture(const lw_lm63 *file, const lw_picture_wish *wish, lw_error *err);
/* The lane's picture as SVG text, for the API; free() it. */
LW_MUST_CHECK bool lw_desk_lane_svg(const lw_lane_light *light, lw_light_show show, const lw_words *words, char **svg,
                                    lw_error *err);

#endif
