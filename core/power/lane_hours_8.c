/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lanes in vectors of 8, for machines with AVX2.
 */
#define LW_WIDTH 8
#define LW_TARGET LW_TARGET_8
#define LW_LANE_HOURS lw_lane_hours_8
#include "lane_hours.h"
