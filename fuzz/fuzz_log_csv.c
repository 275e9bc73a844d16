/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: logs of a cell; what it accepts is evaluated.
 */
#include "lanewick/log_csv.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { ARENA = 8 << 20 };
    static unsigned char memory[ARENA];
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_error err = {0};
    lw_log log;
    lw_log_charge charge;
    lw_pulse pulse;
    const lw_log_columns columns = {.where = {"step"}, .is = {"pulse"}};
    const lw_log_columns plain = {0};
    if (lw_log_csv_read((const char *)data, size, &plain, &arena, &log, &err)) {
        (void)!lw_log_capacity(&log, 3.0, &charge, &err);
        err = (lw_error){0};
        (void)!lw_pulse_resistance(&log, 10.0, &pulse, &err);
    }
    arena.used = 0;
    err = (lw_error){0};
    (void)!lw_log_csv_read((const char *)data, size, &columns, &arena, &log, &err);
    return 0;
}
