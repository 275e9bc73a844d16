/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small documents of the JSON API that belong to no other room.
 */
#ifndef LANEWICK_SERVE_JSON_H
#define LANEWICK_SERVE_JSON_H

#include "lanewick/error.h"

/* {"name": "lanewick", "version", "role", "door"}; free() it. */
LW_MUST_CHECK char *lw_state_to_json(const char *version, const char *role, const char *door);

#endif
