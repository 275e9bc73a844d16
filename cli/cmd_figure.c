/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick figure: small calculations, one at a time or in a batch.
 */
#include "cli.h"

#include "commands.h"
#include "figure_print.h"
#include "lanewick/figure.h"
#include "lanewick/figure_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 12 << 20, MAX_LINE = 4 << 20 };

static const lw_figure *find(const char *name, lw_error *err)
{
    const lw_figure *figure = lw_figure_find(name);
    if (!figure)
        (void)lw_fail(err, LW_WRONG_INPUT, "figure",
                      "There is no figure \"%.60s\"; did you mean %s? See lanewick figure.", name,
                      lw_figure_nearest(name));
    return figure;
}

int lw_figure_help(const char *name)
{
    lw_error err = {0};
    const lw_figure *figure = find(name, &err);
    if (!figure)
        return lw_cli_fail(&err, false);
    lw_figure_print_help(figure);
    return LW_EXIT_DONE;
}

static bool fill(lw_figure_call *call, int argc, char **argv, lw_arena *arena, lw_error *err)
{
    for (int i = 2; i < argc; i++) {
        char *equals = strchr(argv[i], '=');
        if (!equals)
            return lw_fail(err, LW_WRONG_INPUT, argv[i],
                           "\"%.60s\" is not of the form key=value; see lanewick figure %s --help.", argv[i],
                           call->figure->name);
        *equals = '\0';
        if (!lw_figure_set_text(call, argv[i], equals + 1, arena, err))
            return false;
    }
    return lw_figure_finish(call, arena, err);
}

static int run_one(const lw_figure *figure, int argc, char **argv, bool json)
{
    static lw_figure_call call;
    lw_error err = {0};
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    lw_figure_begin(&call, figure);
    int code = LW_EXIT_DONE;
    if (!fill(&call, argc, argv, &arena, &err)) {
        code = lw_cli_fail(&err, json);
    } else if (json) {
        char *text = lw_figure_to_json(&call);
        (void)puts(text ? text : "");
        free(text);
    } else {
        lw_figure_print_answer(&call);
    }
    free(arena.base);
    return code;
}

/* One line in, one line out; true when it was answered. */
static bool answer_line(const lw_figure *figure, const char *line, size_t length, lw_arena *arena)
{
    static lw_figure_call call;
    lw_error err = {0};
    arena->used = 0;
    lw_figure_begin(&call, figure);
    const bool blank = strspn(line, " \t\r\n") == length; /* answered too: line n out belongs to line n in */
    if (blank)
        (void)lw_fail(&err, LW_WRONG_INPUT, "", "This line is blank; write one JSON object of inputs a line.");
    const bool done =
        !blank && lw_figure_from_json(&call, line, length, arena, &err) && lw_figure_finish(&call, arena, &err);
    char *text = done ? lw_figure_to_json(&call) : lw_error_to_json(&err);
    (void)puts(text ? text : "{\"error\":{\"field\":\"\",\"message\":\"Memory is out.\"}}");
    free(text);
    return done;
}

static int run_batch(const lw_figure *figure)
{
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    char *line = NULL;
    size_t room = 0;
    ssize_t length;
    bool all = true;
    while ((length = getline(&line, &room, stdin)) >= 0) {
        if (length > MAX_LINE)
            length = MAX_LINE; /* cut in the middle: the JSON reader says what is wrong */
        all = answer_line(figure, line, (size_t)length, &arena) && all;
    }
    free(line);
    free(arena.base);
    return all ? LW_EXIT_DONE : LW_EXIT_SOME_FAILED;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    const bool batch = lw_cli_take_switch(&argc, argv, "--batch");
    const bool describe = lw_cli_take_switch(&argc, argv, "--describe");
    const bool reference = lw_cli_take_switch(&argc, argv, "--reference");
    if (!lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, json);
    if (argc < 2) {
        if (reference)
            lw_figure_print_reference();
        else
            lw_figure_print_list(json);
        return LW_EXIT_DONE;
    }
    const lw_figure *figure = find(argv[1], &err);
    if (!figure)
        return lw_cli_fail(&err, json);
    if (describe) {
        char *text = lw_figure_description_json(figure);
        (void)puts(text ? text : "");
        free(text);
        return LW_EXIT_DONE;
    }
    return batch ? run_batch(figure) : run_one(figure, argc, argv, json);
}

const lw_command lw_cmd_figure = {
    .name = "figure",
    .summary = "small calculations: list them, explain one, run one",
    .usage = "lanewick figure                      list of figures, by room (--json for a list)\n"
             "lanewick figure NAME --help          inputs, ranges, units, source, an example\n"
             "lanewick figure NAME key=value ...   readable answer; --json for one JSON object\n"
             "lanewick figure NAME --batch         one JSON object of inputs per line from standard input,\n"
             "                                     one of outputs per line, in order; exit 1 if a line failed\n"
             "lanewick figure NAME --describe      the description as JSON\n"
             "lanewick figure --reference          the reference of all figures as Markdown\n",
    .run = run,
};
