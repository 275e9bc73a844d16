/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside the desk: short visits to a store by those who come and go. Opening takes milliseconds and closing the last
 * handle writes the log back into the file, so a few handles stay open between visits. One visit, one thread at a time.
 */
#ifndef LANEWICK_VISITS_H
#define LANEWICK_VISITS_H

#include "lanewick/store.h"

LW_MUST_CHECK bool lw_visit_begin(const lw_store_options *options, lw_store **out, lw_error *err);
void lw_visit_end(lw_store *store, const char *path); /* NULL is allowed */

#endif
