/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How far a given place lies outside the lane; of a polygon, from its nearest corner.
 */
#ifndef LANEWICK_LAYOUT_PLACE_H
#define LANEWICK_LAYOUT_PLACE_H

#include "lanewick/layout.h"

double lw_layout_away_m(const lw_layout_wish *wish, size_t place);

#endif
