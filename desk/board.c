/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The LED boards of a plan as files: see lanewick/desk_board.h. A board is examined before anything of it is written.
 */
#include "lanewick/desk_board.h"

#include "file_name.h"

#include "lanewick/desk.h"
#include "lanewick/lamp_build.h"

#include <stdio.h>
#include <stdlib.h>

static bool no_memory(lw_error *err)
{
    return lw_fail(err, LW_STORAGE, "", "There is not enough memory for a board.");
}

static bool write_files(const lw_led_board *board, const char *folder, size_t number, lw_board_made *made,
                        lw_error *err)
{
    char part[32];
    lw_file_name_part(part, sizeof part, made->lamp);
    for (int f = 0; f < LW_BOARD_FILES; f++) {
        char *text = lw_board_file_text(board, (lw_board_file)f);
        (void)snprintf(made->file[f], sizeof made->file[f], "board-%zu-%s-%s", number, part,
                       lw_board_file_ending((lw_board_file)f));
        const bool done = text ? lw_desk_write(folder, made->file[f], text, err) : no_memory(err);
        free(text);
        if (!done)
            return false;
    }
    return true;
}

static bool one(const lw_board_request *request, const char *folder, size_t number, lw_led_board *board,
                lw_board_made *made, lw_error *err)
{
    const lw_plan_kind *kind = &request->plan->kind[number];
    const lw_lamp_kind *lamp = &request->plan->brief.want.lamp[kind->kind];
    lw_head_board head;
    if (!lw_head_board_of(&request->plan->brief, lamp, &kind->design, &head, err))
        return false;
    const lw_led_board_wish wish = {.series = head.series,
                                    .strings = head.strings,
                                    .led_a = head.led_a,
                                    .resistor_w = head.resistor_w,
                                    .pitch_mm = request->pitch_mm,
                                    .copper_um = request->copper_um,
                                    .led = request->lands};
    if (!lw_led_board_of(&wish, board, err) || !lw_led_board_examine(board, &made->report, err))
        return false;
    (void)snprintf(made->lamp, sizeof made->lamp, "%s", lamp->name);
    made->led_a = head.led_a;
    made->light_lm = head.light_lm;
    made->series = head.series;
    made->strings = head.strings;
    made->width_mm = board->width_mm;
    made->height_mm = board->height_mm;
    made->led_cm2 = board->led_cm2;
    made->resistor_ohm = head.resistor_ohm;
    made->resistor_rated_w = board->resistor_rated_w;
    made->rise_k = lw_led_board_rise_k(board, head.strings * (head.string_v * head.led_a + head.resistor_w));
    return write_files(board, folder, number + 1, made, err);
}

bool lw_desk_boards(const lw_board_request *request, const char *folder, lw_board_made *made, size_t *count,
                    lw_error *err)
{
    const lw_plan *plan = request->plan;
    *count = 0;
    if (plan->refused.count > 0)
        return lw_fail(err, LW_REFUSED, plan->refused.item[0].id, "This plan is refused and gets no boards: %s %s",
                       plan->refused.item[0].reason, plan->refused.item[0].remedy);
    lw_led_board *board = malloc(sizeof *board);
    bool done = board || no_memory(err);
    for (size_t i = 0; done && i < plan->kind_count; i++) {
        done = one(request, folder, i, board, &made[i], err);
        *count += done ? 1 : 0;
    }
    free(board);
    return done;
}
