/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick shelf: the parts and tools at hand and what they cost.
 */
#include "cli.h"

#include "lanewick/desk_shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct job {
    int argc; /* argv[0] is the action */
    char **argv;
    bool json;
    const char *store_path;
    lw_currency currency; /* text "": not told */
} job;

static bool open_store(const job *j, bool create, lw_store **store, lw_error *err)
{
    const char *path = j->store_path ? j->store_path : getenv("LANEWICK_STORE");
    if (!path || !path[0])
        path = "lanewick.store";
    return lw_store_open(&(lw_store_options){.path = path, .create = create}, store, err);
}

static bool take(const job *j, const char *bytes, size_t length, bool spoken, lw_error *err)
{
    const lw_words *words = lw_cli_words();
    lw_store *store = NULL;
    size_t count = 0;
    const bool done =
        open_store(j, true, &store, err) && lw_desk_shelf_take(store, bytes, length, &j->currency, spoken, &count, err);
    lw_store_close(store);
    if (done && j->json)
        (void)printf("{\"lines\":%zu}\n", count);
    else if (done)
        (void)printf(lw_say_many(words, "%zu line is on the shelf.\n", "%zu lines are on the shelf.\n", count), count);
    return done;
}

static bool import(const job *j, lw_error *err)
{
    char *bytes = NULL;
    size_t length = 0;
    if (j->argc != 2)
        return lw_fail(err, LW_WRONG_INPUT, "", "Write: lanewick shelf import PRICES.csv.");
    const bool done =
        lw_cli_read_file(j->argv[1], LW_CSV_MAX_BYTES, &bytes, &length, err) && take(j, bytes, length, false, err);
    free(bytes);
    return done;
}

/* The words as a table of one line: the same reader judges both. */
static bool set(const job *j, lw_error *err)
{
    char *bytes = NULL;
    size_t length = 0;
    if (j->argc < 3)
        return lw_fail(err, LW_WRONG_INPUT, "", "Write: lanewick shelf set NAME key=value ..., as in price=24000.");
    for (int i = 2; i < j->argc; i++)
        if (!strchr(j->argv[i], '='))
            return lw_fail(err, LW_WRONG_INPUT, "", "\"%.40s\" is no key=value, as in price=24000.", j->argv[i]);
    FILE *table = open_memstream(&bytes, &length);
    if (!table)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory.");
    (void)fputs("name", table);
    for (int i = 2; i < j->argc; i++)
        (void)fprintf(table, ",%.*s", (int)strcspn(j->argv[i], "="), j->argv[i]);
    (void)fputc('\n', table);
    lw_csv_quote(table, j->argv[1]);
    for (int i = 2; i < j->argc; i++) {
        (void)fputc(',', table);
        lw_csv_quote(table, strchr(j->argv[i], '=') + 1);
    }
    (void)fputc('\n', table);
    bool done = fclose(table) == 0 || lw_fail(err, LW_STORAGE, "", "There is not enough memory.");
    done = done && take(j, bytes, length, true, err);
    free(bytes);
    return done;
}

static void print_line(const lw_price_line *line)
{
    char money[48] = "";
    const lw_price *price = &line->price;
    if (line->currency.text[0])
        (void)lw_money_text(&line->currency, price->price_minor, money, sizeof money);
    (void)printf("  %6d  %-40.40s %14s  %-10s  %s\n", price->at_hand, price->name, money, price->date, price->shop);
}

static bool list(const job *j, lw_error *err)
{
    lw_store *store = NULL;
    lw_price_list all = {0};
    if (j->argc != 1)
        return lw_fail(err, LW_WRONG_INPUT, "", "Write: lanewick shelf list.");
    bool done = open_store(j, false, &store, err) && lw_desk_shelf_list(store, NULL, &all, err);
    lw_store_close(store);
    if (done && j->json) {
        char *text = lw_price_list_to_json(&all);
        done = text || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the list.");
        if (text)
            (void)puts(text);
        free(text);
    } else if (done) {
        const lw_words *words = lw_cli_words();
        (void)printf("%s\n", lw_say(words, "At hand, part, latest price, its day and shop:"));
        for (size_t i = 0; i < all.count; i++)
            print_line(&all.line[i]);
    }
    free(all.line);
    return done;
}

static bool drop(const job *j, lw_error *err)
{
    const lw_words *words = lw_cli_words();
    lw_store *store = NULL;
    if (j->argc != 2)
        return lw_fail(err, LW_WRONG_INPUT, "", "Write: lanewick shelf remove NAME.");
    const bool done = open_store(j, false, &store, err) && lw_desk_shelf_remove(store, j->argv[1], err);
    lw_store_close(store);
    if (done && j->json)
        (void)puts("{\"removed\":1}");
    else if (done)
        (void)printf(lw_say(words, "\"%s\" is off the shelf, with its prices.\n"), j->argv[1]);
    return done;
}

static bool read_currency(job *j, const char *text, const char *decimals, lw_error *err)
{
    if (!text && !decimals)
        return true;
    if (!text || !text[0] || strlen(text) >= sizeof j->currency.text)
        return lw_fail(err, LW_WRONG_INPUT, "currency", "--currency is a text of 1 to %zu letters, such as K.",
                       sizeof j->currency.text - 1);
    (void)snprintf(j->currency.text, sizeof j->currency.text, "%s", text);
    j->currency.decimals = decimals ? decimals[0] - '0' : -1; /* as the store has it, else 2 */
    if (decimals && (decimals[0] < '0' || decimals[0] > '3' || decimals[1] != '\0'))
        return lw_fail(err, LW_WRONG_INPUT, "decimals", "--decimals is \"%.20s\"; it must be 0, 1, 2 or 3.", decimals);
    return true;
}

static int run(int argc, char **argv)
{
    static const struct {
        const char *name;
        bool (*act)(const job *, lw_error *);
    } actions[] = {{"list", list}, {"import", import}, {"set", set}, {"remove", drop}};
    lw_error err = {0};
    const char *currency = NULL, *decimals = NULL;
    job j = {.json = lw_cli_take_switch(&argc, argv, "--json")};
    bool done = lw_cli_take_option(&argc, argv, "--store", &j.store_path, &err) &&
                lw_cli_take_option(&argc, argv, "--currency", &currency, &err) &&
                lw_cli_take_option(&argc, argv, "--decimals", &decimals, &err) &&
                read_currency(&j, currency, decimals, &err) && lw_cli_no_more_options(argc, argv, &err);
    if (!done)
        return lw_cli_fail(&err, j.json);
    j.argc = argc - 1;
    j.argv = argv + 1;
    for (size_t i = 0; argc > 1 && i < sizeof actions / sizeof actions[0]; i++)
        if (strcmp(argv[1], actions[i].name) == 0)
            return actions[i].act(&j, &err) ? LW_EXIT_DONE : lw_cli_fail(&err, j.json);
    (void)lw_fail(&err, LW_WRONG_INPUT, "",
                  "Write: lanewick shelf list, import, set or remove; see lanewick shelf --help.");
    return lw_cli_fail(&err, j.json);
}

const lw_command lw_cmd_shelf = {
    .name = "shelf",
    .summary = "parts and tools at hand, what they cost, where and since when",
    .usage =
        "usage: lanewick shelf list [--store FILE] [--json]\n"
        "       lanewick shelf import PRICES.csv [--currency K --decimals 0] [--store FILE] [--json]\n"
        "       lanewick shelf set NAME key=value ... [--currency K --decimals 0] [--store FILE] [--json]\n"
        "       lanewick shelf remove NAME [--store FILE] [--json]\n\n"
        "  PRICES.csv       columns name, price, date, shop, consumables, bench_min, loss_pct, at_hand, sold_by,\n"
        "                   spares_a_year, tool (docs/prices.md); empty fields leave what is known\n"
        "  set              the same keys for one part; \"hour at the bench\" is the wage, \"1 USD\" what one USD\n"
        "                   costs in another money: the rate for prices that are told in USD\n"
        "  remove           the part and its prices; the journal keeps them\n"
        "  --currency, --decimals   of these prices; may be left out while all are in one money\n"
        "  --store FILE     the workshop's records; else $LANEWICK_STORE, else lanewick.store\n\n"
        "A price of another day stands beside the earlier ones; the latest counts.\n"
        "Example: lanewick shelf set \"20 W panel\" price=24000 shop=\"radio shop\" at_hand=3\n",
    .run = run,
};
