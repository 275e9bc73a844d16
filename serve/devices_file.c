/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The file of paired devices: see devices_file.h.
 */
#include "devices_file.h"

#include "keep.h"

#include <inttypes.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char file[] = "devices.txt", head[] = "lanewick.devices/1";
enum { LINE_BYTES = 240 };

/* The next word of a line, cut off; "" at its end. */
static char *word(char **line)
{
    char *start = *line;
    const size_t length = strcspn(start, " ");
    *line = start[length] ? start + length + 1 : start + length;
    start[length] = '\0';
    return start;
}

static bool whole(const char *text, int64_t *out)
{
    char *end = NULL;
    *out = strtoll(text, &end, 10);
    return end != text && *end == '\0' && *out >= 0;
}

static bool parse_device(lw_device *device, char *line)
{
    size_t bytes = 0;
    const char *id = word(&line), *role = word(&line), *paired = word(&line), *ends = word(&line), *hash = word(&line);
    if (strlen(id) != LW_DEVICE_ID - 1 || strspn(id, "0123456789abcdef") != LW_DEVICE_ID - 1 ||
        strlen(line) >= LW_DEVICE_NAME)
        return false;
    *device = (lw_device){.role = lw_role_of(role)};
    memcpy(device->id, id, LW_DEVICE_ID);
    (void)snprintf(device->name, sizeof device->name, "%s", line);
    return device->role != LW_ROLE_NONE && whole(paired, &device->paired_s) && whole(ends, &device->ends_s) &&
           strlen(hash) == 2 * LW_DEVICE_HASH &&
           sodium_hex2bin(device->hash, LW_DEVICE_HASH, hash, strlen(hash), NULL, &bytes, NULL) == 0 &&
           bytes == LW_DEVICE_HASH;
}

static bool parse_line(lw_devices *devices, char *line)
{
    const char *kind = word(&line);
    if (strcmp(kind, "pass") == 0 && strlen(line) < LW_PASS_HASH) {
        (void)snprintf(devices->pass, sizeof devices->pass, "%s", line);
        return true;
    }
    return strcmp(kind, "device") == 0 && devices->count < LW_DEVICES &&
           parse_device(&devices->device[devices->count++], line);
}

bool lw_devices_parse(lw_devices *devices, char *text)
{
    bool first = true, well = true;
    while (well && *text) {
        char *end = strchr(text, '\n');
        if (!end)
            return false; /* cut short */
        *end = '\0';
        well = first ? strcmp(text, head) == 0 : parse_line(devices, text);
        first = false;
        text = end + 1;
    }
    return well && !first;
}

bool lw_devices_load(lw_devices *devices, lw_error *err)
{
    char *text = NULL;
    if (!lw_keep_read(devices->folder, file, &text, err))
        return false;
    const bool well = !text || lw_devices_parse(devices, text);
    free(text);
    return well || lw_fail(err, LW_STORAGE, file,
                           "%.200s/%s is damaged. Put a copy back, or remove it and pair the devices again.",
                           devices->folder, file);
}

bool lw_devices_save(const lw_devices *devices, lw_error *err)
{
    if (!devices->folder[0])
        return true;
    const size_t room = (devices->count + 3) * LINE_BYTES;
    char *text = malloc(room);
    if (!text)
        return lw_fail(err, LW_STORAGE, "", "Memory is out.");
    int used = snprintf(text, room, "%s\n", head);
    if (devices->pass[0])
        used += snprintf(text + used, room - (size_t)used, "pass %s\n", devices->pass);
    for (size_t i = 0; i < devices->count; i++) {
        const lw_device *one = &devices->device[i];
        char hash[2 * LW_DEVICE_HASH + 1];
        if (one->ends_s - one->paired_s < 2 * LW_OWNER_HOURS * 3600)
            continue; /* an owner by passphrase */
        (void)sodium_bin2hex(hash, sizeof hash, one->hash, sizeof one->hash);
        used += snprintf(text + used, room - (size_t)used, "device %s %s %" PRId64 " %" PRId64 " %s %s\n", one->id,
                         lw_role_text(one->role), one->paired_s, one->ends_s, hash, one->name);
    }
    const bool done = lw_keep_write(devices->folder, file, text, err);
    free(text);
    return done;
}
