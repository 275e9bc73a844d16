/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Paired devices, the pairing code that is open, and the owner's passphrase.
 *
 * A token is "id.secret"; only a hash of the secret (BLAKE2b) is kept. A code has 8 of 32 signs that cannot be
 * mistaken for one another (40 bits), opens once, for ten minutes. Five wrong codes or passphrases lock both for a
 * minute, then each further five for twice as long, up to an hour; the person at the laptop opens a new code at any
 * time.
 */
#ifndef LANEWICK_SERVE_DEVICES_H
#define LANEWICK_SERVE_DEVICES_H

#include "http.h"

#include <pthread.h>

enum {
    LW_DEVICES = 256,
    LW_DEVICE_ID = 17, /* 64 random bits in hexadecimal and the end */
    LW_DEVICE_NAME = 64,
    LW_DEVICE_HASH = 32,
    LW_TOKEN = 64, /* id, point, 43 signs of base64, end */
    LW_CODE = 9,
    LW_PASS_HASH = 128,
    LW_TOKEN_DAYS = 400,
    LW_OWNER_HOURS = 12,
    LW_CODE_MINUTES = 10,
    LW_WRONG_TRIES = 5
};

typedef struct lw_device {
    char id[LW_DEVICE_ID], name[LW_DEVICE_NAME];
    lw_role role;
    unsigned char hash[LW_DEVICE_HASH];
    int64_t paired_s, ends_s;
} lw_device;

typedef struct lw_devices {
    pthread_mutex_t lock;
    char folder[512]; /* "": kept in memory only */
    lw_device device[LW_DEVICES];
    size_t count;
    char code[LW_CODE]; /* "": none is open */
    lw_role code_role;
    int64_t code_ends_s;
    int wrong; /* tries since the last right one */
    int64_t locked_until_s;
    char pass[LW_PASS_HASH]; /* Argon2id, "": none is set */
} lw_devices;

/* Reads what the folder holds; folder NULL: nothing is kept. */
LW_MUST_CHECK bool lw_devices_open(lw_devices *devices, const char *folder, lw_error *err);

/* Opens a code for one device of this role; a code that was open before is void. */
void lw_devices_open_code(lw_devices *devices, lw_role role, int64_t now_s, char code[LW_CODE], int64_t *ends_s);
void lw_devices_close_code(lw_devices *devices);

typedef enum lw_paired { LW_PAIRED, LW_PAIR_WRONG, LW_PAIR_LOCKED, LW_PAIR_FULL, LW_PAIR_FAILED } lw_paired;

/* The code as a person types it (small letters, spaces and hyphens do not matter). LW_PAIRED: device and token. */
lw_paired lw_devices_pair(lw_devices *devices, const char *code, const char *name, int64_t now_s, lw_device *device,
                          char token[LW_TOKEN], lw_error *err);
/* With the owner's passphrase: a token of the owner's role for some hours, not kept beyond the run. */
lw_paired lw_devices_owner(lw_devices *devices, const char *passphrase, const char *name, int64_t now_s,
                           lw_device *device, char token[LW_TOKEN], lw_error *err);
/* "" takes it away. */
LW_MUST_CHECK bool lw_devices_set_passphrase(lw_devices *devices, const char *passphrase, lw_error *err);
bool lw_devices_has_passphrase(lw_devices *devices);
int lw_devices_locked_for_s(lw_devices *devices, int64_t now_s);

/* The device of a token; false: unknown, revoked or expired. */
bool lw_devices_known(lw_devices *devices, const char *token, int64_t now_s, lw_device *device);
LW_MUST_CHECK bool lw_devices_revoke(lw_devices *devices, const char *id, bool *found, lw_error *err);
/* A copy of all that have not expired; returns how many. */
size_t lw_devices_list(lw_devices *devices, int64_t now_s, lw_device out[LW_DEVICES]);

const char *lw_role_text(lw_role role);
lw_role lw_role_of(const char *text); /* LW_ROLE_NONE: no such role */

#endif
