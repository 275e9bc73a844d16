/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the log of a charger's trial; what it accepts is judged.
 */
#include "lanewick/charging.h"
#include "lanewick/trial_csv.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { ARENA = 24 << 20 };
    static unsigned char memory[ARENA];
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_error err = {0};
    lw_trial_log log;
    lw_charger_trial trial;
    lw_trial_verdict verdict;
    if (lw_trial_csv_read((const char *)data, size, &arena, &log, &err) &&
        lw_charger_trial_of(log.panel_v, log.panel_a, log.pack_v, log.pack_a, log.readings, 0.01, &trial, &err))
        (void)!lw_trial_judge(&trial, 1.2, 0.9, &verdict, &err);
    return 0;
}
