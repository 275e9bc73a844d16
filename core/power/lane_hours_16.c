/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lanes in vectors of 16, for machines with AVX-512.
 */
#define LW_WIDTH 16
#define LW_TARGET LW_TARGET_16
#define LW_LANE_HOURS lw_lane_hours_16
#include "lane_hours.h"
