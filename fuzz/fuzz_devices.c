/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The file of paired devices: any bytes are refused or give a list in which each device has a role and an id.
 */
#include "serve/devices_file.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    static lw_devices devices;
    char *text = malloc(size + 1);
    if (!text)
        return 0;
    memcpy(text, data, size);
    text[size] = '\0';
    devices.count = 0;
    if (lw_devices_parse(&devices, text))
        for (size_t i = 0; i < devices.count; i++)
            if (devices.device[i].role == LW_ROLE_NONE || strlen(devices.device[i].id) != LW_DEVICE_ID - 1)
                abort();
    free(text);
    return 0;
}
