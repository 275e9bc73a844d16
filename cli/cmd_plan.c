/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick plan: from a brief to lamps that keep the wish, with their dark nights, cost and cautions.
 */
#include "cli.h"
#include "plan_if.h"

#include "lanewick/desk.h"
#include "lanewick/desk_shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const size_t brief_limit = 4 * 1024 * 1024;

static void show_progress(void *payload, double done, const char *what)
{
    (void)payload;
    (void)fprintf(stderr, "\r%3.0f %% %-12s", 100.0 * done, what);
    if (done >= 1.0)
        (void)fprintf(stderr, "\r%20s\r", "");
}

static bool write_out(const char *folder, const lw_plan *plan, const char *json, const lw_words *words, lw_error *err)
{
    char *text = lw_desk_plan_text(plan, words, false);
    if (!text)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory to write the plan.");
    const bool done = lw_desk_write(folder, "plan.json", json, err) && lw_desk_write(folder, "plan.txt", text, err);
    free(text);
    return done;
}

static int deliver(const lw_plan *plan, const lw_plan_request *request, const lw_words *words, const char *out,
                   bool json)
{
    lw_error err = {0};
    const char *no_colour = getenv("NO_COLOR");
    const bool colour = isatty(STDOUT_FILENO) && !(no_colour && no_colour[0]);
    char *document = lw_plan_to_json(plan, request->brief, request->brief_length);
    char *text = json ? NULL : lw_desk_plan_text(plan, words, colour);
    int code = plan->refused.count > 0 ? LW_EXIT_REFUSED : LW_EXIT_DONE;
    if (!document || (!json && !text)) {
        (void)lw_fail(&err, LW_STORAGE, "", "There is not enough memory to write the plan.");
        code = lw_cli_fail(&err, json);
    } else {
        (void)puts(json ? document : text);
        if (out && !write_out(out, plan, document, words, &err))
            code = lw_cli_fail(&err, false);
    }
    free(document);
    free(text);
    return code;
}

/* Where a brief comes from: a store is used for cells wherever it is known, for prices when it was asked for. */
typedef struct source {
    const char *path, *store, *prices;
    const lw_words *words; /* language of what is printed */
} source;

static void replace(char **bytes, size_t *length, char *by)
{
    if (!by)
        return;
    free(*bytes);
    *bytes = by;
    *length = strlen(by);
}

static void tell_prices(const source *from, const lw_priced_brief *how)
{
    (void)fprintf(stderr, lw_say_many(from->words, "%zu price is from %s.\n", "%zu prices are from %s.\n", how->used),
                  how->used, from->prices);
    if (how->changed)
        (void)fprintf(stderr,
                      lw_say_many(from->words, "%zu of them was told in another money and changed by its rate.\n",
                                  "%zu of them were told in another money and changed by their rate.\n", how->changed),
                      how->changed);
}

/* The usual store gives cells, not prices: the same brief gives the same plan. One who keeps prices there is told. */
static void tell_unused(const source *from, const char *bytes, size_t length)
{
    lw_error ignored = {0};
    lw_priced_brief how = {.replace = false};
    char *priced = NULL;
    const bool some = lw_desk_brief_prices(from->store, bytes, length, &how, &priced, &ignored) && how.used > 0;
    free(priced);
    if (some)
        (void)fprintf(stderr, lw_say(from->words, "The prices in %s are not used; --store %s uses them.\n"),
                      from->store, from->store);
}

/* The brief, with the cells of the crates that it names and the prices of the store. */
static bool read_brief(const source *from, char **bytes, size_t *length, lw_error *err)
{
    char *with_cells = NULL, *with_prices = NULL;
    lw_priced_brief how = {.replace = false};
    char folder[1024], *whole = NULL;
    if (!lw_cli_read_file(from->path, brief_limit, bytes, length, err))
        return false;
    lw_cli_folder_of(from->path, folder, sizeof folder);
    bool done = lw_desk_brief_files(folder, *bytes, *length, &whole, err);
    if (done) {
        replace(bytes, length, whole);
        done = lw_desk_brief_crates(from->store, *bytes, *length, &with_cells, err);
    }
    if (done) {
        replace(bytes, length, with_cells);
        done = lw_desk_brief_prices(from->prices, *bytes, *length, &how, &with_prices, err);
    }
    if (done && with_prices)
        tell_prices(from, &how);
    if (done && !from->prices)
        tell_unused(from, *bytes, *length);
    if (done)
        replace(bytes, length, with_prices);
    else
        free(*bytes);
    return done;
}

static int plan_file(const source *from, const char *out, const char *change, uint64_t seed, bool json)
{
    lw_error err = {0};
    char folder[1024], *bytes = NULL;
    size_t length = 0;
    if (!read_brief(from, &bytes, &length, &err))
        return lw_cli_fail(&err, json);
    lw_cli_folder_of(from->path, folder, sizeof folder);
    const lw_plan_request request = {.brief = bytes,
                                     .brief_length = length,
                                     .folder = folder,
                                     .seed = seed,
                                     .progress = isatty(STDERR_FILENO) ? show_progress : NULL};
    if (change) {
        const bool answered = lw_cli_plan_if(&request, change, from->words, json, &err);
        free(bytes);
        return answered ? LW_EXIT_DONE : lw_cli_fail(&err, json);
    }
    lw_plan *plan = malloc(sizeof *plan);
    int code;
    if (plan && lw_desk_plan(&request, plan, &err)) {
        code = deliver(plan, &request, from->words, out, json);
    } else {
        if (!plan)
            (void)lw_fail(&err, LW_STORAGE, "", "There is not enough memory for a plan.");
        code = lw_cli_fail(&err, json);
    }
    free(plan);
    free(bytes);
    return code;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    const char *out = NULL, *seed_text = NULL, *store = NULL, *change = NULL;
    uint64_t seed = 1;
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    if (!lw_cli_take_option(&argc, argv, "--out", &out, &err) ||
        !lw_cli_take_option(&argc, argv, "--store", &store, &err) ||
        !lw_cli_take_option(&argc, argv, "--if", &change, &err) ||
        !lw_cli_take_option(&argc, argv, "--seed", &seed_text, &err) || !lw_cli_read_seed(seed_text, &seed, &err) ||
        !lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, json);
    if (argc != 2) {
        (void)lw_fail(&err, LW_WRONG_INPUT, "brief",
                      "Give one brief: lanewick plan BRIEF.json; see lanewick plan --help.");
        return lw_cli_fail(&err, json);
    }
    if (out && !lw_desk_try_folder(out, &err))
        return lw_cli_fail(&err, json);
    const source from = {argv[1], store ? store : getenv("LANEWICK_STORE"), store, lw_cli_words()};
    return plan_file(&from, out, change, seed, json);
}

const lw_command lw_cmd_plan = {
    .name = "plan",
    .summary = "from a brief to lamps: panel, pack, charger, dark nights a year, cost",
    .usage =
        "usage: lanewick plan BRIEF.json [--store FILE] [--json] [--seed N] [--out DIR] [--if NAME=PRICE]\n\n"
        "  BRIEF.json    place, wish, shelf and build (format lanewick.brief/1; - reads standard input)\n"
        "  --store FILE  the workshop's records, where the brief takes cells from a crate (shelf.cells[].crate);\n"
        "                else $LANEWICK_STORE. With --store also its prices count. The plan names each cell; "
        "`lanewick crate use PLAN.json` reserves them\n"
        "  --json        the whole plan as JSON (format lanewick.plan/1)\n"
        "  --seed N      another set of simulated years; the same seed repeats to the last bit (1)\n"
        "  --out DIR     also writes DIR/plan.json and DIR/plan.txt\n"
        "  --if NAME=PRICE  what one price would change, as in \"20 W panel=36000\" or \"20 W panel=+50%\": all lamps "
        "as they\n"
        "                   are planned now, and planned anew; takes as long as two plans, writes no files\n"
        "  --language    of what is printed: en, fr, sw, ha (as lanewick language says); JSON is the same in all\n\n"
        "Exit code 3: the plan is refused for safety; the reasons say what would make it acceptable.\n"
        "Example: lanewick plan demo/nsungwi.json\n",
    .run = run,
};
