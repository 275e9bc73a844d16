/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The dark nights of one lamp whose sizes are known, as the plan counts them: the same weather, parts and wear, by one
 * thread and in the caller's memory alone. docs/models/nights.md.
 */
#ifndef LANEWICK_LAMP_NIGHTS_H
#define LANEWICK_LAMP_NIGHTS_H

#include "lanewick/plan.h"

enum { LW_LAMP_NIGHTS_YEARS = 2000 };

typedef struct lw_lamp_nights_ask {
    lw_brief brief;     /* its first kind of lamp; want.planned_years: the year whose wear the pack has */
    lw_design design;   /* of that shelf */
    double box_panel_w; /* panel whose charger warms the box; NAN: that of the design. A plan takes the shelf's first */
    uint32_t years;     /* 1..LW_LAMP_NIGHTS_YEARS; a plan draws 160 */
    uint64_t seed;
} lw_lamp_nights_ask;

typedef struct lw_lamp_nights {
    lw_outcome outcome, more_panel, more_pack; /* as asked, and with a quarter more of one part */
    double tilt_deg, facing_deg;
    double capacity_share; /* of the pack today, in the planned year */
    int limit_month;       /* 1..12 */
    const char *limit_what;
} lw_lamp_nights;

/* About 6 MB of arena. LW_REFUSED: a hard limit of voltage or charging temperature, with its reason. */
LW_MUST_CHECK bool lw_lamp_nights_of(const lw_lamp_nights_ask *ask, lw_arena *arena, lw_lamp_nights *out,
                                     lw_error *err);

#endif
