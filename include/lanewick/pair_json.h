/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Documents of pairing devices with the server.
 */
#ifndef LANEWICK_PAIR_JSON_H
#define LANEWICK_PAIR_JSON_H

#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { LW_PAIR_TEXT = 256 };

/* Texts of a body by key; those that were not asked for are unknown keys. */
typedef struct lw_pair_body {
    char code[LW_PAIR_TEXT], name[LW_PAIR_TEXT], role[LW_PAIR_TEXT], passphrase[LW_PAIR_TEXT], before[LW_PAIR_TEXT];
} lw_pair_body;

/* {"code", "name"} */
LW_MUST_CHECK bool lw_pair_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err);
/* {"role": bench, planner or owner} */
LW_MUST_CHECK bool lw_pair_code_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err);
/* {"passphrase", "name"} */
LW_MUST_CHECK bool lw_owner_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err);
/* {"passphrase" ("" takes it away), "before"} */
LW_MUST_CHECK bool lw_passphrase_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err);

typedef struct lw_device_said {
    const char *id, *name, *role;
    int64_t paired_s, ends_s;
} lw_device_said;

/* {"devices": [{"id", "name", "role", "paired_s", "ends_s"}]}; free() it. */
LW_MUST_CHECK char *lw_device_list_to_json(const lw_device_said *devices, size_t count);
/* {"token", "device"}; free() it. */
LW_MUST_CHECK char *lw_token_to_json(const char *token, const lw_device_said *device);

typedef struct lw_code_said {
    const char *code, *role;
    int64_t ends_s;
    const char *page, *install, *fingerprint; /* addresses for a phone; NULL: the local network is not let in */
    const char *page_qr, *install_qr;         /* SVG of the same */
} lw_code_said;

/* free() it. */
LW_MUST_CHECK char *lw_code_to_json(const lw_code_said *said);

#endif
