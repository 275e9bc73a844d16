/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wires and fuse of a planned lamp: from its design to sections, fuse rating and the current of a short circuit.
 */
#ifndef LANEWICK_WIRING_H
#define LANEWICK_WIRING_H

#include "lanewick/plan.h"

typedef struct lw_wiring {
    double night_a, charge_a;   /* greatest currents: empty pack at full light; full sun */
    double head_a;              /* into the LEDs at full light, behind the driver */
    double fuse_a;              /* blade fuse at the pack's plus */
    double short_a;             /* what the full pack drives into a short at its terminals */
    double pack_mm2;            /* lead of the pack, 0.5 m, 1 % */
    double head_mm2, panel_mm2; /* leads up the mast, 5 m, 3 %; the panel's as the nights were computed */
} lw_wiring;

/* At 45 degC in the box, 60 degC inside a sunlit mast. LW_REFUSED when no fuse fits between current and wire. */
LW_MUST_CHECK bool lw_plan_wiring(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design,
                                  lw_wiring *out, lw_error *err);

#endif
