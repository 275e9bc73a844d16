/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the epw layout of weather files, whatever the first line says.
 */
#include "format/weather_inside.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_weather_year year;
    static lw_weather_reader reader;
    lw_error err = {0};
    if (lw_weather_open((const char *)data, size, &year, &reader, &err) && lw_weather_read_epw(&reader))
        return 0;
    if (err.family != LW_WRONG_INPUT || err.message[0] == '\0')
        abort();
    return 0;
}
