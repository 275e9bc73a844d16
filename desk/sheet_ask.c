/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sheets one by one, for a browser: the list, one sheet, all of a group in one PDF. See lanewick/desk_sheets.h.
 */
#include "lanewick/desk_sheets.h"

#include "sheet_walk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool find_language(const char *code, const lw_words **words, lw_error *err)
{
    char known[120] = "";
    *words = lw_words_find(code);
    for (size_t i = 0; i < lw_language_count; i++)
        (void)snprintf(known + strlen(known), sizeof known - strlen(known), "%s%s", i ? ", " : "",
                       lw_languages[i]->code);
    return *words ||
           lw_fail(err, LW_WRONG_INPUT, "language", "There is no language \"%.20s\"; there are %s.", code, known);
}

typedef struct listing {
    lw_sheet_file *files;
    size_t count;
    const lw_words *words;
    lw_error *err;
} listing;

static bool note(void *payload, const lw_sheet_item *item)
{
    listing *l = payload;
    const lw_sheet_head head = lw_sheet_item_head(item, l->words, "");
    lw_sheet_file *file = &l->files[l->count];
    if (l->count == LW_SHEETS_MOST)
        return lw_fail(l->err, LW_NOT_COMPUTABLE, "", "There are more than %d sheets.", LW_SHEETS_MOST);
    (void)snprintf(file->name, sizeof file->name, "%s", item->stem);
    file->title = head.title;
    file->group = item->sheet->group;
    file->lamp = item->input.kind ? item->lamp : "";
    l->count++;
    return lw_sheet_count(&head, item->sheet->draw, &item->input, &file->pages, l->err);
}

static char *list_text(const lw_plan *plan, const listing *l)
{
    char code[16];
    const char **languages = calloc(2 * lw_language_count, sizeof *languages);
    if (!languages)
        return NULL;
    for (size_t i = 0; i < lw_language_count; i++) {
        languages[2 * i] = lw_languages[i]->code;
        languages[2 * i + 1] = lw_languages[i]->name;
    }
    lw_plan_code(plan, code);
    const lw_sheets_said said = {code, l->words->code, languages, lw_language_count, l->files, l->count};
    char *text = lw_sheets_to_json(&said);
    free(languages);
    return text;
}

bool lw_desk_sheet_list(const lw_sheet_ask *ask, char **json, lw_error *err)
{
    listing l = {.err = err};
    *json = NULL;
    if (!find_language(ask->language, &l.words, err))
        return false;
    l.files = calloc(LW_SHEETS_MOST, sizeof *l.files);
    bool done = l.files || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the sheets.");
    if (done && lw_sheet_walk(ask->plan, ask->group, ask->grid, note, &l, err)) {
        *json = list_text(ask->plan, &l);
        done = *json || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the sheets.");
    } else {
        done = false;
    }
    free(l.files);
    return done;
}

typedef struct printing {
    const lw_sheet_ask *ask;
    const lw_words *words;
    lw_paper paper;
    char date[16];
    bool all;
    size_t printed; /* sheets */
    lw_sheet_bytes *out;
    lw_error *err;
} printing;

/* The first sheet, or one more behind those that are there. */
static bool add(printing *p, unsigned char *bytes, size_t length)
{
    lw_sheet_bytes *out = p->out;
    if (p->printed++ == 0) {
        out->bytes = bytes;
        out->length = length;
        return true;
    }
    const bool done = lw_pdf_join(&out->bytes, &out->length, bytes, length, p->err);
    free(bytes);
    return done;
}

static bool print(void *payload, const lw_sheet_item *item)
{
    printing *p = payload;
    unsigned char *bytes = NULL;
    size_t length = 0, pages = 0;
    if (!p->all && strcmp(item->stem, p->ask->name) != 0)
        return true;
    const lw_sheet_head head = lw_sheet_item_head(item, p->words, p->date);
    return lw_sheet_print(p->paper, p->ask->page, &head, item->sheet->draw, &item->input, &bytes, &length, &pages,
                          p->err) &&
           add(p, bytes, length);
}

static bool choose_paper(printing *p)
{
    static const char *const papers[] = {"pdf", "svg", "png"};
    static const char *const types[] = {"application/pdf", "image/svg+xml", "image/png"};
    int chosen = 0;
    while (chosen < 3 && strcmp(papers[chosen], p->ask->paper) != 0)
        chosen++;
    if (chosen == 3)
        return lw_fail(p->err, LW_WRONG_INPUT, "paper", "paper is \"%.20s\"; give pdf, svg or png.", p->ask->paper);
    p->paper = (lw_paper)chosen;
    p->out->type = types[chosen];
    if (p->all && p->paper != LW_PAPER_PDF)
        return lw_fail(p->err, LW_WRONG_INPUT, "paper", "All sheets together come as pdf only.");
    if (p->paper == LW_PAPER_PDF)
        (void)snprintf(p->out->file, sizeof p->out->file, "%s-%.80s.pdf", p->words->code,
                       p->all ? p->ask->group : p->ask->name);
    else
        (void)snprintf(p->out->file, sizeof p->out->file, "%s-%.80s-%zu.%s", p->words->code, p->ask->name, p->ask->page,
                       papers[chosen]);
    return true;
}

bool lw_desk_sheet_bytes(const lw_sheet_ask *ask, lw_sheet_bytes *out, lw_error *err)
{
    printing p = {.ask = ask, .all = strcmp(ask->name, "all") == 0, .out = out, .err = err};
    *out = (lw_sheet_bytes){0};
    lw_desk_today(p.date);
    bool done = find_language(ask->language, &p.words, err) && choose_paper(&p) &&
                lw_sheet_walk(ask->plan, p.all ? ask->group : "all", ask->grid, print, &p, err);
    if (done && p.printed == 0)
        done = lw_fail(err, LW_WRONG_INPUT, "name",
                       "This plan has no sheet \"%.60s\"; the list of its sheets names all.", ask->name);
    if (done && ask->prints && p.paper == LW_PAPER_PDF)
        done = lw_pdf_prints(&out->bytes, &out->length, err);
    if (!done) {
        free(out->bytes);
        *out = (lw_sheet_bytes){0};
    }
    return done;
}
