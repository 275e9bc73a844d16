/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: slips, alone and in a bundle, into a store in memory. The store stays sound whatever comes.
 */
#include "lanewick/desk_slip.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void told(void *payload, size_t i, const char *problem)
{
    (void)payload, (void)i;
    if (!problem[0])
        abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_store *store;
    lw_error err = {0};
    lw_slip_reply reply;
    lw_slips_report report;
    const char *text = (const char *)data;
    if (!store && !lw_store_open(&(lw_store_options){.path = ":memory:", .who = "fuzz", .create = true}, &store, &err))
        abort();
    const bool done = lw_desk_slip(store, text, size, &reply, &err);
    if (done ? reply.outcome == LW_SLIP_TAKEN && !reply.answer
             : err.family != LW_WRONG_INPUT && err.family != LW_NOT_COMPUTABLE)
        abort();
    if (done)
        lw_slip_reply_free(&reply);
    err = (lw_error){0};
    if (!lw_desk_slips(store, text, size, told, NULL, &report, &err) && err.family != LW_WRONG_INPUT)
        abort();
    return 0;
}
