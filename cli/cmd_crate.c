/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate: the workshop's cells from intake to the pack. This file: the table of actions and their options.
 */
#include "crate_cli.h"

#include "lanewick/figure.h"
#include "lanewick/utc.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *name;
    lw_crate_action *run;
} actions[] = {
    {"new", lw_crate_new},       {"list", lw_crate_list},   {"show", lw_crate_show},     {"add", lw_crate_add},
    {"import", lw_crate_import}, {"enter", lw_crate_enter}, {"tool", lw_crate_tool},     {"test", lw_crate_test},
    {"judge", lw_crate_judge},   {"plan", lw_crate_plan},   {"use", lw_crate_use},       {"free", lw_crate_free},
    {"export", lw_crate_export}, {"load", lw_crate_load},   {"backup", lw_crate_backup}, {"restore", lw_crate_restore},
    {"check", lw_crate_check},   {"slips", lw_crate_slips},
};
enum { ACTIONS = sizeof actions / sizeof actions[0] };

bool lw_crate_open(lw_crate_job *job, bool create, lw_error *err)
{
    const char *path = job->store_path ? job->store_path : getenv("LANEWICK_STORE");
    if (!path || !path[0])
        path = "lanewick.store";
    return lw_store_open(&(lw_store_options){.path = path, .create = create}, &job->store, err);
}

bool lw_crate_texts(lw_crate_job *job, const lw_text_option *options, size_t n, lw_error *err)
{
    for (size_t i = 0; i < n; i++)
        if (!lw_cli_take_option(&job->argc, job->argv, options[i].name, options[i].text, err))
            return false;
    return true;
}

bool lw_crate_numbers(lw_crate_job *job, const lw_number_option *options, size_t n, lw_error *err)
{
    for (size_t i = 0; i < n; i++) {
        const lw_number_option *o = &options[i];
        const char *text;
        if (!lw_cli_take_option(&job->argc, job->argv, o->name, &text, err))
            return false;
        if (text && (!lw_number_read(o->name + 2, text, o->x, err) ||
                     !lw_in_range(err, o->name + 2, *o->x, o->low, o->high, o->unit)))
            return false;
    }
    return true;
}

bool lw_crate_words(lw_crate_job *job, int least, int most, const char *names, lw_error *err)
{
    if (!lw_cli_no_more_options(job->argc, job->argv, err))
        return false;
    const int words = job->argc - 1;
    return (words >= least && words <= most) ||
           lw_fail(err, LW_WRONG_INPUT, "", "Write: lanewick crate %s %s; see lanewick crate --help.", job->argv[0],
                   names);
}

static bool take_date(const char *text, char out[LW_STAMP], lw_error *err)
{
    double days;
    if (!text)
        return true;
    if (!lw_utc_parse("date", text, &days, err))
        return false;
    lw_utc_text(days, out);
    return true;
}

bool lw_crate_cell_options(lw_crate_job *job, lw_cell_record *cell, lw_error *err)
{
    const char *class, *look, *date, *words[4];
    const lw_text_option texts[] = {{"--class", &class},      {"--look", &look},      {"--date", &date},
                                    {"--marking", &words[0]}, {"--shape", &words[1]}, {"--origin", &words[2]},
                                    {"--note", &words[3]}};
    const struct {
        char *out;
        size_t size;
    } places[] = {{cell->marking, sizeof cell->marking},
                  {cell->shape, sizeof cell->shape},
                  {cell->origin, sizeof cell->origin},
                  {cell->note, sizeof cell->note}};
    /* both are judged with the cell: 42.0 V and 2200 Ah get a guess of what was meant */
    const lw_number_option numbers[] = {{"--volts", &cell->found_v, -1e6, 1e6, "V"},
                                        {"--rated", &cell->rated_ah, -1e6, 1e6, "Ah"}};
    if (!lw_crate_texts(job, texts, sizeof texts / sizeof texts[0], err) || !lw_crate_numbers(job, numbers, 2, err))
        return false;
    for (size_t i = 0; i < 4; i++)
        if (words[i] && !lw_record_text(texts[3 + i].name + 2, words[i], places[i].out, places[i].size, err))
            return false;
    return (!class || lw_class_read(class, cell->voltage_class, err)) &&
           (!look || lw_look_read(look, cell->look, err)) && take_date(date, cell->found_at, err);
}

static lw_crate_action *find_action(const char *name, lw_error *err)
{
    const char *near = actions[0].name;
    for (int i = 0; i < ACTIONS; i++) {
        if (strcmp(actions[i].name, name) == 0)
            return actions[i].run;
        if (lw_spelling_distance(actions[i].name, name) < lw_spelling_distance(near, name))
            near = actions[i].name;
    }
    (void)lw_fail(err, LW_WRONG_INPUT, "",
                  "\"%.40s\" is not known here; did you mean \"%s\"? See lanewick crate --help.", name, near);
    return NULL;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    lw_crate_job job = {.json = lw_cli_take_switch(&argc, argv, "--json")};
    bool done = lw_cli_take_option(&argc, argv, "--store", &job.store_path, &err);
    if (done && argc < 2)
        done = lw_fail(&err, LW_WRONG_INPUT, "", "Say what to do with the crate; see lanewick crate --help.");
    lw_crate_action *action = done ? find_action(argv[1], &err) : NULL;
    job.argc = argc - 1;
    job.argv = argv + 1;
    done = action && action(&job, &err);
    lw_store_close(job.store);
    return done ? job.exit_code : lw_cli_fail(&err, job.json);
}

const lw_command lw_cmd_crate = {
    .name = "crate",
    .summary = "keep the workshop's cells: intake, tests, verdicts, packs, backup",
    .usage =
        "lanewick crate new CODE [--name N] [--origin O]   a crate; the store is made when it is missing\n"
        "lanewick crate add CRATE CODE [KIND]              one cell\n"
        "lanewick crate import CRATE FILE.csv [--map code=Label,volts=U] [--dry-run] [KIND]\n"
        "        a table of cells, all or none; --dry-run stores nothing and lists every refused line\n"
        "lanewick crate slips FILE                         what phones wrote down without a connection, each exactly "
        "once\n"
        "lanewick crate enter CRATE                        the bench prompt; ? there lists its keys\n"
        "lanewick crate list [CRATE] [--search BEGINNING] [--verdict V] [--free] [--after CODE] [--limit N]\n"
        "lanewick crate show CELL|PACK                     all that is known of a cell or pack, and who changed what\n"
        "lanewick crate tool NAME [--percent P --digits D --step V] [--ohm R --tolerance PCT]\n"
        "        a meter with its uncertainty, or a resistor with its value\n"
        "lanewick crate test CELL --method M ...           records a test and says what it shows; M is\n"
        "        resistor   --load OHM --times S,... --volts V,... [--lead OHM --open-before V --open-after V\n"
        "                   --open-after-s S --end V]\n"
        "        log        --csv FILE [--map times=T,volts=U,amps=I] [--where COLUMN=VALUE] [--charge-positive]\n"
        "                   or --times --volts --amps, [--end V]\n"
        "        pulse      as log\n"
        "        two_pulse  --volts U1,U2 --amps I1,I2\n"
        "        rest       --times S,... --volts V,...\n"
        "        hold       --volts V      24 h after a full charge\n"
        "        charger    --capacity AH --current A [--end V]\n"
        "        flag       --flag hot_on_charge|no_taper|recovered|open_circuit\n"
        "        all take   [--meter NAME] [--resistor NAME] [--temp C] [--at TIME] [--note N]\n"
        "lanewick crate judge CRATE                        verdicts with reasons and the next test\n"
        "lanewick crate plan CRATE [--slots N --charge-a A --resistors N --load OHM --hours H --class C]\n"
        "        [--sun WH | (--place LAT,LON | --brief FILE) --panel W [--month M]]\n"
        "        judges, then says what to do at the bench day by day: short tests first, then which cells to charge\n"
        "        and whose capacity to read, with the sun given or that of the place on the panel (month: now)\n"
        "lanewick crate use [CRATE] --series S (--parallel P | --need-ah X) [--packs N] [--pack CODE] [--tired]\n"
        "        [--class C] [--confidence C] [--tolerance PCT] [--seed N] [--note N]\n"
        "        matches free sound cells into packs and reserves them\n"
        "lanewick crate use PLAN.json [--pack CODE] [--note N]\n"
        "        reserves the very cells that a plan names, all or none (lanewick plan; shelf.cells[].crate)\n"
        "lanewick crate free PACK [--note N]               takes a pack apart; its cells are free again\n"
        "lanewick crate export FILE.zip                    everything as CSV and JSON in one file\n"
        "lanewick crate load FILE.zip                      an export into an empty store\n"
        "lanewick crate backup FILE                        a checked copy while others work\n"
        "lanewick crate restore FILE                       a backup in the place of what is here\n"
        "lanewick crate check [--store FILE]               is the store sound?\n"
        "KIND: [--volts U] [--rated AH] [--class 4v2|4v35|lfp|unknown] [--marking M] [--shape S] [--origin O]\n"
        "        [--look \"dent rust swollen torn leak smell hot\"] [--date D] [--note N]\n"
        "--store FILE     the workshop's records; else $LANEWICK_STORE, else lanewick.store\n"
        "--json           one JSON object\n",
    .run = run,
};
