/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ids that a phone can make offline and that sort by time: UUID version 7 (RFC 9562, section 5.7). Within one
 * millisecond the 12 free bits count up (section 6.2, method 1), so the ids of one process never go back.
 */
#include "inside.h"

#include "lanewick/utc.h"

#include <math.h>
#include <stdio.h>
#include <time.h>

void lw_uuid7_text(int64_t unix_ms, unsigned rand_a, uint64_t rand_b, char out[LW_ID])
{
    const uint64_t ms = (uint64_t)unix_ms & 0xFFFFFFFFFFFFULL;
    const uint64_t tail = (rand_b & 0x3FFFFFFFFFFFFFFFULL) | 0x8000000000000000ULL;
    (void)snprintf(out, LW_ID, "%08llx-%04llx-7%03x-%04llx-%012llx", (unsigned long long)(ms >> 16),
                   (unsigned long long)(ms & 0xFFFF), rand_a & 0xFFFU, (unsigned long long)(tail >> 48),
                   (unsigned long long)(tail & 0xFFFFFFFFFFFFULL));
}

static int64_t machine_ms(void)
{
    struct timespec now = {0};
    (void)clock_gettime(CLOCK_REALTIME, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

static int64_t now_ms(const lw_store *store)
{
    return store->now_ms ? store->now_ms(store->payload) : machine_ms();
}

void lw_store_new_id(lw_store *store, char id[LW_ID])
{
    uint64_t random[2];
    sqlite3_randomness((int)sizeof random, random);
    const int64_t now = now_ms(store);
    if (now > store->last_ms) {
        store->last_ms = now;
        store->last_a = (unsigned)(random[0] & 0x7FF); /* room to count up */
    } else if (++store->last_a > 0xFFF) {
        store->last_ms++; /* more than the counter holds, or a clock set back: go on from where we were */
        store->last_a = 0;
    }
    lw_uuid7_text(store->last_ms, store->last_a, random[1], id);
}

static void stamp_of(int64_t unix_ms, char stamp[LW_STAMP])
{
    /* days of the Unix epoch before 2000-01-01 12:00 */
    const double j2000_days = 10957.5;
    lw_utc_text(floor((double)unix_ms / 1000.0) / 86400.0 - j2000_days, stamp);
}

void lw_store_now(const lw_store *store, char stamp[LW_STAMP])
{
    stamp_of(now_ms(store), stamp);
}
