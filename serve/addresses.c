/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The machine's own addresses: see addresses.h.
 */
#include "addresses.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <stdlib.h>
#include <string.h>

bool lw_address_is_private(unsigned long address)
{
    return address >> 24 == 10 || address >> 20 == 0xAC1 || address >> 16 == 0xC0A8 || address >> 16 == 0xA9FE;
}

enum { IS_UP = 1 }; /* IFF_UP, which strict POSIX headers hide */

static int compare(const void *a, const void *b)
{
    return strcmp(a, b);
}

lw_addresses lw_addresses_now(void)
{
    lw_addresses found = {0};
    struct ifaddrs *all = NULL;
    if (getifaddrs(&all) != 0)
        return found;
    for (const struct ifaddrs *one = all; one && found.count < LW_ADDRESSES; one = one->ifa_next) {
        struct sockaddr_in address;
        if (!one->ifa_addr || one->ifa_addr->sa_family != AF_INET || !(one->ifa_flags & IS_UP))
            continue;
        memcpy(&address, one->ifa_addr, sizeof address);
        if (lw_address_is_private(ntohl(address.sin_addr.s_addr)) &&
            inet_ntop(AF_INET, &address.sin_addr, found.text[found.count], LW_ADDRESS_TEXT))
            found.count++;
    }
    freeifaddrs(all);
    qsort(found.text, found.count, sizeof found.text[0], compare);
    return found;
}

bool lw_addresses_same(const lw_addresses *a, const lw_addresses *b)
{
    bool same = a->count == b->count;
    for (size_t i = 0; same && i < a->count; i++)
        same = strcmp(a->text[i], b->text[i]) == 0;
    return same;
}
