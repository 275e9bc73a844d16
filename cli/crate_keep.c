/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate export, load, backup, restore, check: keeping the records.
 */
#include "crate_cli.h"

#include <stdio.h>

static void tell(const lw_crate_job *job, const char *format, const char *file)
{
    if (job->json)
        (void)puts("{\"done\":true}");
    else
        lw_cli_print(format, file);
}

bool lw_crate_export(lw_crate_job *job, lw_error *err)
{
    if (!lw_crate_words(job, 1, 1, "FILE.zip", err) || !lw_crate_open(job, false, err) ||
        !lw_store_export(job->store, job->argv[1], err))
        return false;
    tell(job, "everything is in %s\n", job->argv[1]);
    return true;
}

bool lw_crate_load(lw_crate_job *job, lw_error *err)
{
    if (!lw_crate_words(job, 1, 1, "FILE.zip", err) || !lw_crate_open(job, true, err) ||
        !lw_store_import(job->store, job->argv[1], err))
        return false;
    tell(job, "the store now holds what is in %s\n", job->argv[1]);
    return true;
}

bool lw_crate_backup(lw_crate_job *job, lw_error *err)
{
    if (!lw_crate_words(job, 1, 1, "FILE", err) || !lw_crate_open(job, false, err) ||
        !lw_store_backup(job->store, job->argv[1], err))
        return false;
    tell(job, "the checked copy is %s\n", job->argv[1]);
    return true;
}

bool lw_crate_restore(lw_crate_job *job, lw_error *err)
{
    if (!lw_crate_words(job, 1, 1, "FILE", err) || !lw_crate_open(job, true, err) ||
        !lw_store_restore(job->store, job->argv[1], err))
        return false;
    tell(job, "the store is as it was in %s\n", job->argv[1]);
    return true;
}

bool lw_crate_check(lw_crate_job *job, lw_error *err)
{
    if (!lw_crate_words(job, 0, 0, "", err) || !lw_crate_open(job, false, err) || !lw_store_check(job->store, err))
        return false;
    tell(job, "the store is sound\n%s", "");
    return true;
}
