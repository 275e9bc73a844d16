/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Switching circuits a workshop can solder, and what each can do: a schedule may use only what the chosen circuit can.
 */
#ifndef LANEWICK_SWITCHING_H
#define LANEWICK_SWITCHING_H

#include "lanewick/error.h"

#include <stddef.h>

typedef enum lw_switch_kind {
    LW_SWITCH_DUSK,         /* on from dusk to dawn */
    LW_SWITCH_DUSK_TIMER,   /* on from dusk for a fixed time, then dark */
    LW_SWITCH_TWO_LEVELS,   /* full from dusk for a fixed time, then one lower level until dawn */
    LW_SWITCH_PACK_DIMMING, /* fades with the pack's voltage until dawn, by itself */
    LW_SWITCH_KIND_COUNT
} lw_switch_kind;
#define LW_SWITCH_WORDS "dusk|dusk_timer|two_levels|pack_dimming"

/* What tells a switch made by hand that it is dark. */
typedef enum lw_switch_sensor {
    LW_SENSE_COMPARATOR,  /* photoresistor and comparator */
    LW_SENSE_TRANSISTORS, /* photoresistor and three transistors */
    LW_SENSE_PANEL,       /* the panel's own volts and a comparator */
    LW_SENSE_COUNT
} lw_switch_sensor;
#define LW_SENSE_WORDS "comparator|transistors|panel"
const char *lw_switch_sensor_name(lw_switch_sensor sensor);
const char *lw_switch_sensor_parts(lw_switch_sensor sensor); /* in words; those of the circuit come on top */

typedef struct lw_switch_circuit {
    double standby_ma; /* day and night, with photoresistor and bipolar comparator */
    bool timed;
    double time_error_pct; /* worst case of its timed step */
    const char *parts;     /* beside those of its sensor */
} lw_switch_circuit;

const lw_switch_circuit *lw_switch_circuit_of(lw_switch_kind kind);
/* All parts of such a switch in words. */
void lw_switch_parts_text(lw_switch_kind kind, lw_switch_sensor sensor, char *out, size_t size);

/* Steps from dusk: hours (0: until dawn, only the last) and levels from 0 to 1. LW_WRONG_INPUT naming the step that the
 * circuit cannot do. */
LW_MUST_CHECK bool lw_switch_can(lw_switch_kind kind, const double *hours, const double *levels, size_t steps,
                                 lw_error *err);

#endif
