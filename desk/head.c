/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head document worked out and written as an LM-63 file: see lanewick/desk_head.h.
 */
#include "lanewick/desk_head.h"

#include "lane_files.h"

#include "lanewick/desk.h"
#include "lanewick/lm63.h"

#include <stdio.h>
#include <stdlib.h>

enum { READ_BYTES = 64 << 20 };

bool lw_desk_head(const char *text, size_t length, const char *folder, lw_arena *arena, lw_head **head,
                  lw_head_light **light, lw_error *err)
{
    *head = lw_arena_take(arena, 1, sizeof **head, err);
    if (!*head || !lw_head_from_json(text, length, *head, err) || !lw_head_work_out(*head, folder, arena, light, err))
        return false;
    if ((*head)->watts == 0.0 && (*head)->lumens == 0.0) /* light as the file has it, and so its watts */
        (*head)->watts = (*light)->file_watts;
    return true;
}

/* How the numbers came about, for the one who gets the file. */
static void note_of(const lw_head *head, const lw_head_light *light, char *note, size_t size)
{
    char way[200] = "Computed from stated lumens and a closed form, not measured.";
    if (head->intensity_file[0])
        (void)snprintf(way, sizeof way, "From another intensity file%s.",
                       head->lumens > 0.0 ? ", scaled to stated lumens" : "");
    if (head->reading_count)
        (void)snprintf(
            way, sizeof way,
            "%s of %zu lux meter readings at %g m, no laboratory; lumens +-%.0f %% (one standard deviation).",
            head->as_read ? "Straight lines" : "Fit of a cosine power", head->reading_count, head->distance_m,
            100.0 * light->lumens_sd_share);
    int used = snprintf(note, size, "%s", way);
    if (head->has_diffuser && used > 0 && (size_t)used < size)
        (void)snprintf(note + used, size - (size_t)used, " Behind a %s of %s, %g years old: computed, not measured.",
                       head->diffuser_kind, head->diffuser_material, head->diffuser.years);
}

/* What is handed to others must pass the strict reader: digits of the file may make two angles one. */
static bool reads_back(const char *text, size_t length, lw_error *err)
{
    lw_error inner = {0};
    lw_lm63 *file = malloc(sizeof *file);
    void *memory = malloc(READ_BYTES);
    lw_arena arena = lw_arena_over(memory, READ_BYTES);
    bool done = file && memory;
    if (!done)
        (void)lw_fail(err, LW_STORAGE, "out", "There is not enough memory for the file.");
    else if (!lw_lm63_read(text, length, false, &arena, file, &inner))
        done = lw_fail(err, LW_WRONG_INPUT, "out", "The file is not written: its reader would refuse it. %.300s",
                       inner.message);
    free(memory);
    free(file);
    return done;
}

bool lw_desk_head_write(const lw_head *head, const lw_head_light *light, const char *date, const char *path,
                        lw_error *err)
{
    char note[400];
    note_of(head, light, note, sizeof note);
    const char *day = head->date[0] ? head->date : date;
    const size_t length = lw_lm63_write(&light->table, head->watts, head->name, day, note, NULL, 0);
    char *text = malloc(length + 1);
    if (!text)
        return lw_fail(err, LW_STORAGE, "out", "There is not enough memory for the file.");
    (void)lw_lm63_write(&light->table, head->watts, head->name, day, note, text, length + 1);
    const bool done =
        reads_back(text, length, err) && lw_desk_write_path(path, (const unsigned char *)text, length, err);
    free(text);
    return done;
}
