/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Voltage class lfp: lithium iron phosphate with graphite, charged to 3.65 V.
 */
#include "lanewick/cell_class.h"

/* Curve: electrode functions of Afshar et al. (2017) and Chen et al. (2020) in the window of Prada et al. (2013),
 * as collected in PyBaMM (BSD-3-Clause), its flat part raised by 0.03 V because measured cells lie higher. */
const lw_cell_class lw_class_lfp = {
    .name = "lfp",
    .meaning = "LFP with graphite, charged to 3.65 V",
    .source = "Afshar et al. (2017), Chen et al. (2020), Prada et al. (2013)",
    .ocv = {.n = 19,
            .charge = {0.0, 0.01, 0.02, 0.03, 0.05, 0.075, 0.10, 0.15, 0.20, 0.25, 0.30, 0.35, 0.40, 0.65, 0.70, 0.80,
                       0.95, 0.975, 1.0},
            .v = {2.5001, 2.6296, 2.7257, 2.7972, 2.8927, 2.9772, 3.0465, 3.1619, 3.2009, 3.2214, 3.2440, 3.2694,
                  3.2860, 3.3002, 3.3054, 3.3403, 3.3466, 3.3671, 3.6000}},
    .limit_v = 3.70,
    .ceiling_v = 3.55,
    .floor_v = 2.0,
    .cutoff_v = 2.8,
    .nominal_v = 3.2,
};
