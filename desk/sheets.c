/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets of a plan as files: see lanewick/desk_sheets.h.
 */
#include "lanewick/desk_sheets.h"

#include "lanewick/desk.h"
#include "sheet_walk.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

typedef struct job {
    const lw_sheets_request *request;
    const char *folder;
    lw_sheet_file *files;
    const lw_sheet_file *end;
    size_t count;
    lw_error *err;
} job;

static const char *ending(lw_paper paper)
{
    static const char *const endings[] = {"pdf", "svg", "png"};
    return endings[paper];
}

static bool save(job *j, const lw_sheet_item *item, size_t page, const lw_sheet_head *head, size_t *pages)
{
    unsigned char *bytes = NULL;
    size_t length = 0;
    const lw_paper paper = j->request->paper;
    if (j->files + j->count == j->end)
        return lw_fail(j->err, LW_NOT_COMPUTABLE, "", "There would be more than %d files; print fewer at once.",
                       LW_SHEETS_MOST);
    if (!lw_sheet_print(paper, page, head, item->sheet->draw, &item->input, &bytes, &length, pages, j->err))
        return false;
    lw_sheet_file *file = &j->files[j->count];
    const char *prefix = j->request->prefix;
    if (paper == LW_PAPER_PDF)
        (void)snprintf(file->name, sizeof file->name, "%s%s.%s", prefix, item->stem, ending(paper));
    else
        (void)snprintf(file->name, sizeof file->name, "%s%s-%zu.%s", prefix, item->stem, page, ending(paper));
    file->title = head->title;
    file->group = item->sheet->group;
    file->lamp = item->input.kind ? item->lamp : "";
    file->pages = paper == LW_PAPER_PDF ? *pages : 1;
    const bool done = lw_desk_write_bytes(j->folder, file->name, bytes, length, j->err);
    free(bytes);
    j->count += done ? 1 : 0;
    return done;
}

static bool one(void *payload, const lw_sheet_item *item)
{
    job *j = payload;
    const lw_sheet_head head = lw_sheet_item_head(item, j->request->words, j->request->date);
    size_t pages = 1;
    for (size_t page = 1; page <= pages; page++) {
        if (!save(j, item, page, &head, &pages))
            return false;
        if (j->request->paper == LW_PAPER_PDF)
            return true;
    }
    return true;
}

bool lw_desk_sheets(const lw_sheets_request *request, const char *folder, lw_sheet_file *files, size_t *count,
                    lw_error *err)
{
    job j = {request, folder, files + *count, files + LW_SHEETS_MOST, 0, err};
    const bool done = lw_sheet_walk(request->plan, request->group, request->grid, one, &j, err);
    *count += j.count;
    return done;
}

void lw_desk_today(char out[16])
{
    const time_t now = time(NULL);
    struct tm clock;
    (void)strftime(out, 16, "%Y-%m-%d", localtime_r(&now, &clock));
}
