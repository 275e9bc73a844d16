/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A brief that names files beside it, made whole, so that its plan can be repeated from anywhere. See lanewick/desk.h.
 */
#include "read_file.h"
#include "usable.h"

#include "lanewick/brief_cells.h"
#include "lanewick/desk.h"
#include "lanewick/desk_pack.h"

#include <limits.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>

typedef struct reader {
    const char *folder;
    lw_arena arena; /* of the list that was read last */
} reader;

static void keep_usable(const lw_cell_list *list, const char *class, lw_crate_stock *out)
{
    lw_unusable left = {0};
    size_t n = 0;
    for (size_t i = 0; i < list->n; i++)
        if (lw_cell_usable(&list->cells[i], class, &left))
            list->cells[n++] = list->cells[i];
    qsort(list->cells, n, sizeof list->cells[0], lw_stronger_first);
    *out = (lw_crate_stock){.cells = list->cells, .n = n, .health = NAN};
    out->left[LW_LEFT_SCRAP] = left.scrap;
    out->left[LW_LEFT_UNSURE] = left.unsure;
    out->left[LW_LEFT_OTHER_CLASS] = left.other_class;
}

/* A file that cannot be read, or holds more than a brief can, stays named: the plan says what is wrong with it. */
static bool cells_of(void *payload, const char *file, const char *class, lw_crate_stock *out, lw_error *err)
{
    reader *r = payload;
    char path[PATH_MAX], *bytes = NULL;
    size_t length = 0;
    lw_error ignored = {0};
    lw_cell_list list = {0};
    (void)err;
    lw_file_beside(r->folder, file, path, sizeof path);
    const lw_file_ask ask = {.field = "", .path = path, .most = LW_CSV_MAX_BYTES, .advice = ""};
    bool read = lw_read_file(&ask, &bytes, &length, &ignored);
    const size_t size = read ? lw_desk_pack_memory(bytes, length) : 0;
    free(r->arena.base);
    r->arena = lw_arena_over(size ? malloc(size) : NULL, size);
    read = r->arena.base && lw_cell_csv_read(bytes, length, &r->arena, &list, &ignored);
    free(bytes);
    if (read)
        keep_usable(&list, class, out);
    if (out->n > LW_SHELF_CELLS)
        out->n = 0;
    return true;
}

/* "" when it cannot be read, or the path is too long. */
static void whole_path(void *payload, const char *file, char *out, size_t size)
{
    const reader *r = payload;
    char path[PATH_MAX], here[PATH_MAX];
    lw_file_beside(r->folder, file, path, sizeof path);
    int length = -1;
    if (access(path, R_OK) == 0 && path[0] == '/')
        length = snprintf(out, size, "%s", path);
    else if (access(path, R_OK) == 0 && getcwd(here, sizeof here))
        length = snprintf(out, size, "%s/%s", here, path);
    if (length < 0 || (size_t)length >= size)
        out[0] = '\0';
}

bool lw_desk_brief_files(const char *folder, const char *brief, size_t length, char **out, lw_error *err)
{
    reader r = {.folder = folder};
    const lw_brief_files files = {.cells = cells_of, .path = whole_path, .payload = &r};
    const bool done = lw_brief_fill_files(brief, length, &files, out, err);
    free(r.arena.base);
    return done;
}
