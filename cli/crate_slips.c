/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate slips.
 */
#include "crate_cli.h"

#include "lanewick/desk_slip.h"
#include "lanewick/records_json.h"

#include <stdio.h>
#include <stdlib.h>

enum { MOST_BYTES = 4 * 1024 * 1024 }; /* what a JSON document may have */

typedef struct waiting {
    bool json;
    int count;
} waiting;

static void tell(void *payload, size_t i, const char *problem)
{
    waiting *w = payload;
    w->count++;
    if (!w->json) {
        lw_cli_print("slip %zu waits: %s\n", i + 1, problem);
        return;
    }
    char *text = lw_refused_to_json((int)i + 1, problem);
    (void)printf("%s%s", w->count > 1 ? "," : "{\"waiting\":[", text ? text : "{}");
    free(text);
}

bool lw_crate_slips(lw_crate_job *job, lw_error *err)
{
    char *bytes = NULL;
    size_t length;
    if (!lw_crate_words(job, 1, 1, "FILE", err) || !lw_cli_read_file(job->argv[1], MOST_BYTES, &bytes, &length, err))
        return false;
    waiting w = {.json = job->json};
    lw_slips_report report;
    const bool done = lw_crate_open(job, true, err) && lw_desk_slips(job->store, bytes, length, tell, &w, &report, err);
    free(bytes);
    if (!done)
        return false;
    if (job->json)
        (void)printf("%s],\"taken\":%d,\"again\":%d}\n", w.count ? "" : "{\"waiting\":[", report.taken, report.again);
    else
        lw_cli_print("%d taken in, %d were there before, %d wait\n", report.taken, report.again, report.waiting);
    if (report.waiting > 0)
        job->exit_code = LW_EXIT_SOME_FAILED;
    return true;
}
