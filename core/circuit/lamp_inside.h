/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One lamp as built: nominal parts or one draw of scattered ones.
 */
#ifndef LANEWICK_LAMP_INSIDE_H
#define LANEWICK_LAMP_INSIDE_H

#include "lanewick/lamp_circuit.h"

typedef struct lw_lamp_build {
    lw_lamp_circuit lamp;
    double rest_vf_v;   /* forward voltage of the strings beside the first */
    double cell_v;      /* added to every cell's voltage */
    double wire_factor; /* on every wire's resistance */
    double full_factor; /* on the charger's voltage */
    double light_factor;
} lw_lamp_build;

lw_lamp_build lw_lamp_nominal(const lw_lamp_circuit *lamp);
/* near[]: all zero before the first lamp of a condition; then its node voltages, from which the others start. */
bool lw_lamp_build_solve(const lw_lamp_build *build, lw_lamp_condition condition, lw_arena *arena,
                         double near[LW_LAMP_NODES], double points[LW_TEST_POINTS], lw_error *err);

/* What the condition is: light, open-circuit voltage of a cell, state of the lamp before. */
typedef struct lw_lamp_situation {
    double lux, cell_v;
    bool was_on, torn, shorted, reversed;
} lw_lamp_situation;
lw_lamp_situation lw_lamp_situation_of(const lw_lamp_circuit *lamp, lw_lamp_condition condition);

/* Light at which its switch goes on with the nearly full pack, lux. */
double lw_lamp_switch_lux(const lw_lamp_circuit *lamp);

/* Limits of its cells, ending where its charger ends. */
lw_charge_limits lw_lamp_limits(const lw_lamp_circuit *lamp, double tolerance);

double lw_lamp_wire_ohm(const lw_lamp_wire *wire);

/* One finding more. refusal: NULL, or the word for what refuses the lamp; the level is then LW_FINDING_REFUSED. */
void lw_lamp_find(lw_lamp_readings *out, lw_finding_level level, lw_lamp_condition condition, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void lw_lamp_refuse(lw_lamp_readings *out, const char *refusal, lw_lamp_condition condition, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Whether fuse, board and wires fit one another and the lamp's currents. */
void lw_lamp_judge_guards(const lw_lamp_circuit *lamp, lw_lamp_readings *out);

/* Adds what the readings mean to out->findings. */
void lw_lamp_judge(const lw_lamp_circuit *lamp, lw_lamp_readings *out);

#endif
