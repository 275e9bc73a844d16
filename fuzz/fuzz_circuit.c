/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the circuit document, and the readings of every lamp that it accepts.
 */
#include "lanewick/circuit_json.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static unsigned char memory[1 << 20];
    static lw_lamp_readings readings;
    lw_error err = {0};
    lw_lamp_circuit lamp;
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    if (lw_lamp_circuit_from_json((const char *)data, size, &lamp, &err))
        (void)!lw_lamp_read(&lamp, 2, 1, &arena, &readings, &err);
    return 0;
}
