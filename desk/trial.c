/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A charger's trial: see lanewick/desk_trial.h.
 */
#include "lanewick/desk_trial.h"

#include "lanewick/trial_csv.h"

#include <math.h>
#include <stdlib.h>

static double planned_of(const lw_shelf_charger *charger, const lw_trial_log *log)
{
    double panel = 0.0, pack = 0.0;
    for (size_t i = 0; i < log->readings; i++) {
        panel += log->panel_v[i];
        pack += log->pack_v[i];
    }
    if (charger->kind == LW_SHELF_TRACKING)
        return charger->efficiency;
    return fmin(1.0, pack / fmax(panel, 1e-9));
}

bool lw_desk_trial(const lw_plan *plan, size_t kind, const char *bytes, size_t length, lw_trial_answer *out,
                   lw_error *err)
{
    const lw_shelf_charger *charger = &plan->brief.shelf.charger[plan->kind[kind].design.charger];
    const size_t room = lw_trial_csv_memory(bytes, length);
    void *memory = room ? malloc(room) : NULL;
    if (!memory)
        return lw_fail(err, room ? LW_STORAGE : LW_WRONG_INPUT, "trial", "The log is too long.");
    lw_arena arena = lw_arena_over(memory, room);
    lw_trial_log log;
    *out = (lw_trial_answer){.charger = charger->name};
    bool done =
        lw_trial_csv_read(bytes, length, &arena, &log, err) &&
        lw_charger_trial_of(log.panel_v, log.panel_a, log.pack_v, log.pack_a, log.readings, 0.01, &out->trial, err);
    if (done) {
        out->planned = planned_of(charger, &log);
        done =
            lw_trial_judge(&out->trial, log.pack_a[0] / fmax(1e-6, log.panel_a[0]), out->planned, &out->verdict, err);
    }
    free(memory);
    return done;
}
