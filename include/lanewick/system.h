/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One lamp's electrical system: every parameter of the models of this room. As text: lanewick.system/1,
 * docs/schema/system-1.schema.json.
 */
#ifndef LANEWICK_SYSTEM_H
#define LANEWICK_SYSTEM_H

#include "lanewick/battery.h"
#include "lanewick/charger.h"
#include "lanewick/error.h"
#include "lanewick/load.h"
#include "lanewick/panel.h"
#include "lanewick/plane.h"
#include "lanewick/sun.h"

#include <stdbool.h>
#include <stddef.h>

/* One standard deviation of what the parts may differ from their stated values, in per cent. */
typedef struct lw_tolerances {
    double panel_pct, capacity_pct, resistance_pct, load_pct;
} lw_tolerances;

typedef struct lw_system {
    char name[80];
    lw_sun_method sun_method;
    lw_plane plane;
    bool facing_equator; /* the plane faces the equator of whatever place it is run at */
    lw_panel panel;
    lw_charger charger;
    lw_battery battery;
    lw_box box;
    lw_load load;
    lw_tolerances tolerances;
    double dark_limit;  /* a night is dark when more than this share of its wanted light is missing, 0.01 */
    int steps_per_hour; /* of the explicit simulation, 1..60 */
} lw_system;
lw_system lw_system_default(void);
/* Every range and every combination (a bucket under a direct charger has no voltage, ...). */
LW_MUST_CHECK bool lw_system_check(const lw_system *system, lw_error *err);

/* lanewick.system/1: unknown keys are errors that name the nearest known key. Ends with lw_system_check. */
LW_MUST_CHECK bool lw_system_from_json(const char *text, size_t length, lw_system *out, lw_error *err);

#endif
