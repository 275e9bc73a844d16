/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the reader of weather files, layout told by content. A file that is read must keep its promises.
 */
#include "lanewick/weather.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_weather_year year;
    lw_error err = {0};
    if (!lw_weather_read((const char *)data, size, &year, &err)) {
        if (err.family != LW_WRONG_INPUT || err.message[0] == '\0')
            abort();
        return 0;
    }
    for (int i = 0; i < LW_HOURS; i++)
        if (!(year.ghi_w_m2[i] >= 0.0 && year.ghi_w_m2[i] <= 1600.0 && year.wind_m_s[i] >= 0.0))
            abort();
    return 0;
}
