/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The machine's own addresses on local networks.
 */
#ifndef LANEWICK_SERVE_ADDRESSES_H
#define LANEWICK_SERVE_ADDRESSES_H

#include <stdbool.h>
#include <stddef.h>

enum { LW_ADDRESSES = 8, LW_ADDRESS_TEXT = 16 };

typedef struct lw_addresses {
    char text[LW_ADDRESSES][LW_ADDRESS_TEXT]; /* dotted */
    size_t count;
} lw_addresses;

/* IPv4 addresses of interfaces that are up, of the private ranges (RFC 1918) and link-local (RFC 3927) only: the
 * server never listens to the wide internet by intent. In rising order. */
lw_addresses lw_addresses_now(void);
/* Whether an address, in host byte order, is of those ranges. */
bool lw_address_is_private(unsigned long address);
bool lw_addresses_same(const lw_addresses *a, const lw_addresses *b);

#endif
