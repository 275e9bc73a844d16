/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast of two pipes, the upper one inside the lower one over a lap.
 */
#ifndef LANEWICK_MAST_JOINT_H
#define LANEWICK_MAST_JOINT_H

#include "lanewick/mast_check.h"

/* Strength of a pipe of the mast's material in its heat and age, thin walls counted; load factor of the wind's code. */
LW_MUST_CHECK bool lw_mast_wish_strength(const lw_mast_wish *wish, const lw_tube *pipe, lw_wall_buckling *thin,
                                         lw_mast_strength *out, lw_error *err);

/* Fills out->joint and adds the softer upper pipe to sway and swing; needs bending, vibration and base of the result.
 * LW_WRONG_INPUT: the pipes do not fit; LW_REFUSED: a lap under one and a half diameters, a loose fit, not metal. */
LW_MUST_CHECK bool lw_mast_join(const lw_mast_wish *wish, const lw_mast_load *load, lw_mast_result *out, lw_error *err);

#endif
