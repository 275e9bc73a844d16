/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick sheet: the printed sheets of a plan.
 */
#include "cli.h"
#include "plan_load.h"

#include "lanewick/desk.h"
#include "lanewick/desk_sheets.h"
#include "lanewick/utc.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool print_json(const lw_sheet_file *files, size_t count, const lw_written *removed, lw_error *err)
{
    char *text = lw_sheet_files_to_json(files, count, removed);
    if (!text)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the list of files.");
    (void)puts(text);
    free(text);
    return true;
}

static void print_files(const lw_sheet_file *files, size_t count, const lw_written *removed, const char *folder)
{
    const lw_words *words = lw_cli_words();
    for (size_t i = 0; i < count; i++) {
        char text[40];
        (void)snprintf(text, sizeof text, lw_say_many(words, "%zu page", "%zu pages", files[i].pages), files[i].pages);
        (void)printf("%-28s %s  %s\n", files[i].name, text, files[i].title);
    }
    if (count) {
        (void)printf(lw_say_many(words, "%zu file in %s. Print at 100 %% and check the 100 mm bar.",
                                 "%zu files in %s. Print at 100 %% and check the 100 mm bar.", count),
                     count, folder);
        (void)putchar('\n');
    } else {
        (void)puts(lw_say(words, "Nothing to print: a mast sheet needs the wind of the place (place.wind) and a "
                                 "mast that stands."));
    }
    for (size_t i = 0; i < removed->count; i++) {
        (void)printf(lw_say(words, "Removed, of an earlier plan: %s"), removed->file[i].name);
        (void)putchar('\n');
    }
}

typedef struct options {
    const char *group, *out, *language, *paper, *date, *labels;
    bool json;
} options;

static bool take(int *argc, char **argv, options *o, lw_error *err)
{
    o->json = lw_cli_take_switch(argc, argv, "--json");
    return lw_cli_take_option(argc, argv, "--for", &o->group, err) &&
           lw_cli_take_option(argc, argv, "--out", &o->out, err) &&
           lw_cli_take_option(argc, argv, "--language", &o->language, err) &&
           lw_cli_take_option(argc, argv, "--paper", &o->paper, err) &&
           lw_cli_take_option(argc, argv, "--labels", &o->labels, err) &&
           lw_cli_take_option(argc, argv, "--date", &o->date, err) && lw_cli_no_more_options(*argc, argv, err);
}

static bool choose(options *o, lw_sheets_request *request, lw_error *err)
{
    static const char *const papers[] = {"pdf", "svg", "png"};
    lw_date day;
    const char *paper = o->paper ? o->paper : "pdf";
    o->language = o->language ? o->language : lw_cli_words()->code;
    int chosen = 0;
    while (chosen < 3 && strcmp(papers[chosen], paper) != 0)
        chosen++;
    request->paper = (lw_paper)chosen;
    request->grid = o->labels ? o->labels : "auto";
    request->group = o->group ? o->group : "all";
    if (chosen == 3)
        return lw_fail(err, LW_WRONG_INPUT, "paper", "paper is \"%.20s\"; give pdf, svg or png.", paper);
    if (o->date && (strlen(o->date) != 10 || !lw_date_parse("date", o->date, &day, &(lw_error){0})))
        return lw_fail(err, LW_WRONG_INPUT, "date",
                       "date is \"%.20s\"; give a day that exists as YYYY-MM-DD, such as 2026-11-25.", o->date);
    return true;
}

/* The next of "en,fr" as a table; *list moves behind it. */
static const lw_words *next_language(const char **list, lw_error *err)
{
    char code[24];
    const size_t length = strcspn(*list, ",");
    (void)snprintf(code, sizeof code, "%.*s", (int)(length < 20 ? length : 20), *list);
    *list += length + ((*list)[length] == ',');
    const lw_words *words = lw_words_find(code);
    if (!words)
        (void)lw_cli_unknown_language(code, err);
    return words;
}

static bool languages_known(const char *list, lw_error *err)
{
    do {
        if (!next_language(&list, err))
            return false;
    } while (*list);
    return true;
}

/* Several languages go into one folder, each with its code before the names. */
static bool print_all(const options *o, const lw_sheets_request *wish, lw_sheet_file *files, size_t *count,
                      lw_error *err)
{
    const char *list = o->language;
    const bool several = strchr(list, ',') != NULL;
    do {
        char prefix[8] = "";
        lw_sheets_request request = *wish;
        request.words = next_language(&list, err);
        if (several && request.words)
            (void)snprintf(prefix, sizeof prefix, "%s-", request.words->code);
        request.prefix = prefix;
        if (!request.words || !lw_desk_sheets(&request, o->out, files, count, err))
            return false;
    } while (*list);
    return true;
}

/* What belongs to an earlier plan goes when everything new is there. */
static bool print_tidily(const options *o, const lw_sheets_request *wish, lw_sheet_file *files, size_t *count,
                         lw_written *removed, lw_error *err)
{
    return print_all(o, wish, files, count, err) &&
           lw_desk_sheets_tidy(wish->plan, o->out, files, *count, removed, err);
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    options o = {0};
    lw_sheets_request request = {0};
    char today[16];
    lw_desk_today(today);
    if (!take(&argc, argv, &o, &err) || !choose(&o, &request, &err) || !languages_known(o.language, &err))
        return lw_cli_fail(&err, o.json);
    if (argc != 2 || !o.out) {
        (void)lw_fail(&err, LW_WRONG_INPUT, "out",
                      "Give a plan and a folder: lanewick sheet PLAN.json --out DIR; see lanewick sheet --help.");
        return lw_cli_fail(&err, o.json);
    }
    lw_plan *plan = malloc(sizeof *plan);
    lw_sheet_file *files = calloc(LW_SHEETS_MOST, sizeof *files);
    lw_written *removed = calloc(1, sizeof *removed);
    size_t count = 0;
    int code = LW_EXIT_DONE;
    request.plan = plan;
    request.date = o.date ? o.date : today;
    if (!plan || !files || !removed)
        (void)lw_fail(&err, LW_STORAGE, "", "There is not enough memory for a plan.");
    if (err.family != LW_OK || !lw_cli_load_plan(argv[1], plan, &err) ||
        !print_tidily(&o, &request, files, &count, removed, &err))
        code = lw_cli_fail(&err, o.json);
    else if (!o.json)
        print_files(files, count, removed, o.out);
    else if (!print_json(files, count, removed, &err))
        code = lw_cli_fail(&err, true);
    free(removed);
    free(files);
    free(plan);
    return code;
}

const lw_command lw_cmd_sheet = {
    .name = "sheet",
    .summary = "the printed sheets of a plan: bench, market, mast, handover, labels",
    .usage =
        "usage: lanewick sheet PLAN.json --out DIR [--for bench|market|mast|handover|labels|all]\n"
        "                      [--language CODE[,CODE...]] [--paper pdf|svg|png] [--labels GRID] [--date YYYY-MM-DD]\n"
        "                      [--json]\n\n"
        "  PLAN.json        a plan as written by lanewick plan --out, or a brief; it is computed anew\n"
        "  --out DIR        folder for the files; each is written whole or not at all. Unchanged sheets that an "
        "earlier\n"
        "                   run wrote there of another plan are removed (lanewick-sheets.txt lists them)\n"
        "  --for            which sheets (all)\n"
        "  --language CODE  en, fr, sw, ha (as lanewick language says); several by commas: each file's name "
        "begins with its code\n"
        "  --paper          pdf (default); svg and png: one file a page\n"
        "  --labels GRID    labels across and down of an A4 sheet: 3x8 (70 x 37 mm) and 4x10 (52.5 x 29.7 mm) with cut "
        "lines,\n"
        "                   2x7 (99.1 x 38.1 mm), 3x7 (63.5 x 38.1 mm); auto (default): 3x8, or 4x10 where that saves "
        "a nearly\n"
        "                   empty page\n"
        "  --date           printed on every sheet (today)\n"
        "  --json           the files with their page counts, and what was removed, as JSON\n\n"
        "A refused plan gets no sheets (exit code 3).\n",
    .run = run,
};
