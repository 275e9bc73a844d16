/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Voltage class 4v2: cells charged to 4.20 V (LCO, NMC, NCA with graphite).
 */
#include "lanewick/cell_class.h"

/* Curve: mean of the resistance-corrected 1 C charge and discharge of two new NMC 18650 cells between 3.0 and
 * 4.1 V (their difference is below 3 mV): Baumhoefer et al. (2014), J. Power Sources 247, 332; processed logs
 * published with Nowacki et al. (2024), doi 10.1016/j.jpowsour.2024.235813, MIT licence. That window is taken
 * as the lower 0.91 of the charge; the last part, to 4.20 V, has the slope of the LCO curve of Ai et al. (2020). */
const lw_cell_class lw_class_4v2 = {
    .name = "4v2",
    .meaning = "LCO, NMC or NCA with graphite, charged to 4.20 V",
    .source = "Baumhoefer et al. (2014), J. Power Sources 247, 332; Nowacki et al. (2024)",
    .ocv = {.n = 19,
            .charge = {0.0, 0.0091, 0.0273, 0.0455, 0.091, 0.1365, 0.182, 0.2275, 0.273, 0.364, 0.455, 0.546, 0.637,
                       0.728, 0.819, 0.8645, 0.8873, 0.91, 1.0},
            .v = {3.0000, 3.1594, 3.2927, 3.3911, 3.4695, 3.5107, 3.5449, 3.5711, 3.5923, 3.6351, 3.6788, 3.7339,
                  3.8066, 3.8969, 3.9940, 4.0393, 4.0641, 4.0977, 4.2000}},
    .limit_v = 4.25,
    .ceiling_v = 4.10, /* reclaimed cells: costs about a tenth of the charge, slows ageing (from memory) */
    .floor_v = 2.5,
    .cutoff_v = 3.0,
    .nominal_v = 3.65,
};
