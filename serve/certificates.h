/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The workshop's own root certificate and the server's certificate under it (X.509, RFC 5280), made when missing.
 *
 * The root is limited by name constraints to private addresses and to names under .local: who trusts it on a phone
 * trusts it for the workshop's network only, even if its key were stolen.
 */
#ifndef LANEWICK_SERVE_CERTIFICATES_H
#define LANEWICK_SERVE_CERTIFICATES_H

#include "addresses.h"

#include "lanewick/error.h"

#include <stdint.h>

enum { LW_PEM_BYTES = 4096 };

typedef struct lw_certificates {
    char root[LW_PEM_BYTES], leaf[LW_PEM_BYTES], leaf_key[LW_PEM_BYTES]; /* PEM */
    char fingerprint[96];                                                /* SHA-256 of the root, in pairs with colons */
    int64_t leaf_ends_s;
} lw_certificates;

/* Reads them from the folder; makes what is missing, ends within 30 days or lacks one of the addresses, and keeps it
 * there. The root is never made anew while its file is there: phones trust it. */
LW_MUST_CHECK bool lw_certificates_ready(const char *folder, const lw_addresses *addresses, int64_t now_s,
                                         lw_certificates *out, lw_error *err);

#endif
