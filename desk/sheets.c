/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets of a plan as files: see lanewick/desk_sheets.h.
 */
#include "lanewick/desk_sheets.h"

#include "lanewick/desk.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct job {
    const lw_sheets_request *request;
    const char *folder;
    lw_sheet_file *files;
    const lw_sheet_file *end;
    lw_lamp_build *build; /* of every kind of the plan */
    size_t count;
    lw_error *err;
} job;

/* Letters and digits of a lamp's name; the rest becomes a hyphen. */
static void file_part(char *out, size_t size, const char *name)
{
    size_t n = 0;
    for (; *name && n + 1 < size && n < 24; name++)
        out[n++] = isalnum((unsigned char)*name) ? *name : '-';
    out[n] = '\0';
}

static const char *ending(lw_paper paper)
{
    static const char *const endings[] = {"pdf", "svg", "png"};
    return endings[paper];
}

static bool save(job *j, const lw_sheet_kind *sheet, const char *stem, size_t page, const lw_sheet_head *head,
                 const lw_sheet_input *input, size_t *pages)
{
    unsigned char *bytes = NULL;
    size_t length = 0;
    const lw_paper paper = j->request->paper;
    if (j->files + j->count == j->end)
        return lw_fail(j->err, LW_NOT_COMPUTABLE, "", "There would be more than %d files; print fewer at once.",
                       LW_SHEETS_MOST);
    if (!lw_sheet_print(paper, page, head, sheet->draw, input, &bytes, &length, pages, j->err))
        return false;
    lw_sheet_file *file = &j->files[j->count];
    if (paper == LW_PAPER_PDF)
        (void)snprintf(file->name, sizeof file->name, "%s%s.%s", j->request->prefix, stem, ending(paper));
    else
        (void)snprintf(file->name, sizeof file->name, "%s%s-%zu.%s", j->request->prefix, stem, page, ending(paper));
    file->title = head->title;
    file->pages = paper == LW_PAPER_PDF ? *pages : 1;
    const bool done = lw_desk_write_bytes(j->folder, file->name, bytes, length, j->err);
    free(bytes);
    j->count += done ? 1 : 0;
    return done;
}

static bool one(job *j, const lw_sheet_kind *sheet, size_t kind_number)
{
    const lw_plan *plan = j->request->plan;
    const lw_sheet_input input = {plan, sheet->each_kind ? &plan->kind[kind_number] : NULL,
                                  sheet->each_kind ? &j->build[kind_number] : NULL};
    if (sheet->wanted && !sheet->wanted(&input))
        return true;
    char code[16], stem[100], part[32] = "";
    lw_plan_code(plan, code);
    const char *lamp = plan->brief.name;
    if (sheet->each_kind) {
        lamp = plan->brief.want.lamp[input.kind->kind].name;
        file_part(part, sizeof part, lamp);
        (void)snprintf(stem, sizeof stem, "%s-%zu-%s", sheet->name, kind_number + 1, part);
    } else {
        (void)snprintf(stem, sizeof stem, "%s", sheet->name);
    }
    const lw_words *words = j->request->words;
    const lw_sheet_head head = {words, lw_say(words, sheet->title), lamp, code, j->request->date, sheet->bare};
    size_t pages = 1;
    for (size_t page = 1; page <= pages; page++) {
        if (!save(j, sheet, stem, page, &head, &input, &pages))
            return false;
        if (j->request->paper == LW_PAPER_PDF)
            return true;
    }
    return true;
}

/* Works every kind of lamp out for the bench; free() the list. */
static lw_lamp_build *work_out(const lw_plan *plan, lw_error *err)
{
    enum { SCRATCH = 128 * 1024 };
    lw_lamp_build *build = calloc(plan->kind_count + 1, sizeof *build);
    void *memory = malloc(SCRATCH);
    if (build && memory) {
        lw_arena scratch = lw_arena_over(memory, SCRATCH);
        for (size_t i = 0; i < plan->kind_count; i++)
            lw_lamp_build_of(plan, &plan->kind[i], &scratch, &build[i]);
    } else {
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the sheets.");
        free(build);
        build = NULL;
    }
    free(memory);
    return build;
}

static bool print_group(job *j, bool *known)
{
    const lw_sheets_request *request = j->request;
    const bool all = strcmp(request->group, "all") == 0;
    *known = all;
    for (size_t i = 0; i < lw_sheet_kind_count; i++) {
        const lw_sheet_kind *sheet = lw_sheet_kinds[i];
        if (!all && strcmp(request->group, sheet->group) != 0)
            continue;
        *known = true;
        const size_t times = sheet->each_kind ? request->plan->kind_count : 1;
        for (size_t k = 0; k < times; k++)
            if (!one(j, sheet, k))
                return false;
    }
    return true;
}

bool lw_desk_sheets(const lw_sheets_request *request, const char *folder, lw_sheet_file *files, size_t *count,
                    lw_error *err)
{
    const lw_plan *plan = request->plan;
    bool known = false;
    if (plan->refused.count > 0)
        return lw_fail(err, LW_REFUSED, plan->refused.item[0].id, "This plan is refused and gets no sheets: %s %s",
                       plan->refused.item[0].reason, plan->refused.item[0].remedy);
    job j = {request, folder, files + *count, files + LW_SHEETS_MOST, work_out(plan, err), 0, err};
    const bool done = j.build && print_group(&j, &known);
    free(j.build);
    *count += j.count;
    if (done && !known)
        return lw_fail(err, LW_WRONG_INPUT, "for",
                       "There are no sheets for \"%.30s\"; give bench, market, mast, handover, labels or all.",
                       request->group);
    return done;
}
