/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Voltage class 4v35: cells marked for 4.35 V. Only cells with a readable marking belong here; in doubt a cell
 * is 4v2. The limit in use stays that of 4.2 V cells, so the part above is never charged.
 */
#include "lanewick/cell_class.h"

/* Curve: LCO and graphite electrode functions of Ai et al. (2020) as collected in PyBaMM (BSD-3-Clause), up to
 * 4.20 V taken as 0.90 of the charge; straight from there to 4.35 V (from memory: such cells hold about a tenth
 * more). */
const lw_cell_class lw_class_4v35 = {
    .name = "4v35",
    .meaning = "LCO with graphite, marked 4.35 V",
    .source = "Ai et al. (2020), J. Electrochem. Soc. 167, 080512, extended to 4.35 V",
    .ocv = {.n = 18,
            .charge = {0.0, 0.009, 0.018, 0.027, 0.045, 0.0675, 0.09, 0.18, 0.27, 0.36, 0.45, 0.54, 0.63, 0.675, 0.72,
                       0.81, 0.90, 1.0},
            .v = {3.0002, 3.2195, 3.3386, 3.4241, 3.5353, 3.6172, 3.6391, 3.6953, 3.7331, 3.7622, 3.7925, 3.8365,
                  3.9089, 3.9519, 3.9944, 4.0879, 4.2000, 4.3500}},
    .limit_v = 4.25,
    .ceiling_v = 4.15,
    .floor_v = 2.5,
    .cutoff_v = 3.0,
    .nominal_v = 3.75,
};
