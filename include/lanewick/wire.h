/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wire of a lamp: resistance, voltage drop, the current it may carry, what a fault current does to it.
 */
#ifndef LANEWICK_WIRE_H
#define LANEWICK_WIRE_H

#include "lanewick/error.h"

typedef enum lw_wire_metal { LW_COPPER, LW_TINNED_COPPER, LW_ALUMINIUM, LW_COPPER_CLAD_ALUMINIUM } lw_wire_metal;
#define LW_WIRE_METAL_WORDS "copper|tinned_copper|aluminium|copper_clad_aluminium"

/* Extra-low voltage as this project draws the line (DESIGN: refusal above it): 60 V d.c. */
#define LW_ELV_LIMIT_V 60.0

/* Air around the wires, degC: in the box, and by day inside a sunlit mast (common practice). */
#define LW_BOX_C 45.0
#define LW_MAST_C 60.0

/* AWG n (-3 stands for 0000): diameter 0.127 mm x 92^((36 - n) / 39), ASTM B258 (from memory). */
double lw_awg_diameter_mm(double awg);
double lw_awg_area_mm2(double awg);

/* Resistance of one conductor at 20 degC, ohm/km. conductor_class 1, 2, 5 or 6: table of IEC 60228 (as printed in
 * two cable makers' tables); between and outside its sections the resistivity of the nearest rows. Class 0: a solid
 * wire of this very area at 0.017241 ohm mm2/m (IACS copper), as AWG is usually given. Aluminium by the ratio
 * 0.028264 / 0.017241; copper-clad aluminium 1.5 times copper (from memory). */
double lw_wire_ohm_per_km(double area_mm2, int conductor_class, lw_wire_metal metal);
/* Resistance at temperature_c over that at 20 degC: 1 + 0.00393 (T - 20), aluminium 0.00403 (from memory). */
double lw_wire_temperature_factor(lw_wire_metal metal, double temperature_c);

/* Current that two loaded PVC-insulated copper wires may carry in pipe (IEC 60364-5-52 method B2, two loaded, from
 * memory; below 1.5 mm2 the flexible cord table of IEC 60335-1, below 0.5 mm2 common practice), at 30 degC times
 * sqrt((70 - ambient) / 40). 0 at 70 degC and above. Never interpolated upwards: the next smaller section counts. */
double lw_wire_ampacity_a(double area_mm2, double ambient_c);

/* The thinnest usual copper section (0.22 to 25 mm2, class 5) that carries the current and keeps the drop of a pair,
 * length one way; 0 when none does. */
double lw_wire_section_mm2(double length_m, double amps, double most_drop_v, double ambient_c);

/* Energy let through that PVC-insulated copper stands in a fault, A2s: (115 S)^2, IEC 60364-4-43 434.5.2 (from
 * memory). */
double lw_wire_fault_a2s(double area_mm2);

/* Thin copper wire as a cell fuse. Long time in open air: Preece, 80.0 d^1.5 A (10244 d^1.5 with d in inch);
 * short time without cooling: Onderdonk, I^2 t in A2s from ambient_c to 1083 degC. */
double lw_fuse_wire_long_a(double diameter_mm);
double lw_fuse_wire_a2s(double area_mm2, double ambient_c);

#endif
