/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The file of paired devices: a first line "lanewick.devices/1", then one line each: "pass HASH" and
 * "device ID ROLE PAIRED ENDS HASH NAME" (times in seconds since 1970, hash in hexadecimal).
 */
#ifndef LANEWICK_SERVE_DEVICES_FILE_H
#define LANEWICK_SERVE_DEVICES_FILE_H

#include "devices.h"

/* Both are called with the lock held (or before there are others). */
LW_MUST_CHECK bool lw_devices_load(lw_devices *devices, lw_error *err);
/* Owners by passphrase are not kept. */
LW_MUST_CHECK bool lw_devices_save(const lw_devices *devices, lw_error *err);

/* The text of the file into the list; false: it is damaged. */
LW_MUST_CHECK bool lw_devices_parse(lw_devices *devices, char *text);

#endif
