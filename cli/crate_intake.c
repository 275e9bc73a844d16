/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate import, enter.
 */
#include "crate_cli.h"

#include "lanewick/records_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

typedef struct refusals {
    bool json;
    int count;
} refusals;

static void print_refused(void *payload, int line, const char *reason)
{
    refusals *r = payload;
    r->count++;
    if (!r->json) {
        lw_cli_print("line %d refused: %s\n", line, reason);
        return;
    }
    char *text = lw_refused_to_json(line, reason);
    (void)printf("%s%s", r->count > 1 ? "," : "{\"refused\":[", text ? text : "{}");
    free(text);
}

static void print_report(const lw_crate_job *job, const lw_import_request *request, const lw_import_report *report)
{
    if (job->json) {
        (void)printf("%s],\"good\":%d,\"refused_count\":%d,\"stored\":%s}\n", report->refused ? "" : "{\"refused\":[",
                     report->good, report->refused, report->stored ? "true" : "false");
        return;
    }
    lw_cli_print("columns: %s\n", report->taken);
    if (report->passed[0])
        lw_cli_print("not used: %s\n", report->passed);
    lw_cli_print("%d good, %d refused; ", report->good, report->refused);
    if (report->stored)
        lw_cli_print("all %d cells are in crate %s\n", report->good, request->crate);
    else if (request->dry_run)
        lw_cli_print("dry run, nothing is stored\n");
    else
        lw_cli_print("nothing is stored. Correct the lines and import again\n");
}

bool lw_crate_import(lw_crate_job *job, lw_error *err)
{
    lw_import_request request = {.common = lw_cell_blank(), .refused = print_refused};
    request.dry_run = lw_cli_take_switch(&job->argc, job->argv, "--dry-run");
    char *bytes = NULL;
    const lw_text_option map = {"--map", &request.map};
    if (!lw_crate_texts(job, &map, 1, err) || !lw_crate_cell_options(job, &request.common, err) ||
        !lw_crate_words(job, 2, 2, "CRATE FILE.csv", err) || !lw_crate_open(job, false, err) ||
        !lw_cli_read_file(job->argv[2], LW_CSV_MAX_BYTES, &bytes, &request.length, err))
        return false;
    request.crate = job->argv[1];
    request.bytes = bytes;
    refusals r = {.json = job->json};
    request.payload = &r;
    lw_import_report report;
    const bool done = lw_desk_import(job->store, &request, &report, err);
    free(bytes);
    if (!done)
        return false;
    print_report(job, &request, &report);
    if (!job->json)
        lw_cli_print(
            "CAUTION: gloves and eye protection; not alone; sand box within reach. Swollen, hot or leaking cells "
            "go out of the house.\n");
    if (report.refused > 0)
        job->exit_code = LW_EXIT_WRONG;
    return true;
}

bool lw_crate_enter(lw_crate_job *job, lw_error *err)
{
    static lw_entry entry;
    static char reply[LW_ENTRY_REPLY];
    if (!lw_crate_words(job, 1, 1, "CRATE", err) || !lw_crate_open(job, false, err) ||
        !lw_entry_begin(&entry, job->store, job->argv[1], err))
        return false;
    const bool terminal = isatty(STDIN_FILENO) == 1;
    if (terminal)
        lw_cli_print("crate %s. Every line is stored when it is answered. ? lists the keys, q ends.\n"
                     "CAUTION: gloves and eye protection; not alone; sand box within reach.\n",
                     entry.crate.code);
    char *line = NULL;
    size_t room = 0;
    for (bool more = true; more;) {
        if (terminal) {
            (void)printf("%s> ", entry.cell.code);
            (void)fflush(stdout);
        }
        if (getline(&line, &room, stdin) < 0)
            break;
        more = lw_entry_line(&entry, line, reply);
        if (reply[0])
            lw_cli_print("%s\n", reply);
        if (strncmp(reply, "not stored", 10) == 0)
            job->exit_code = LW_EXIT_SOME_FAILED;
        (void)fflush(stdout);
    }
    free(line);
    return true;
}
