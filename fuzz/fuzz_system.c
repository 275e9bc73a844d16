/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reader of systems: any bytes give a system in range, ready to be simulated, or an error with a message.
 */
#include "lanewick/system.h"

#include <math.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    static lw_system system;
    lw_error err = {0};
    const bool done = lw_system_from_json((const char *)data, size, &system, &err);
    if (done != (err.family == LW_OK) || (!done && err.message[0] == '\0'))
        abort();
    if (!done)
        return 0;
    const bool cells = system.battery.kind == LW_BATTERY_CELLS;
    if (!isfinite(lw_panel_standard_w(&system.panel)) || !(lw_battery_usable_wh(&system.battery) >= 0.0) ||
        (cells && (system.battery.series < 1 || system.battery.ocv.n < 2)))
        abort();
    return 0;
}
