/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lanes in vectors of 4, which every machine has; which width runs here.
 */
#define LW_WIDTH 4
#define LW_TARGET
#define LW_LANE_HOURS lw_lane_hours_4
#include "lane_hours.h"

lw_lane_hours *lw_lane_hours_here(void)
{
    const int width = lw_vector_width();
    return width == 16 ? lw_lane_hours_16 : width == 8 ? lw_lane_hours_8 : lw_lane_hours_4;
}

void lw_lane_resistance(lw_drive_block *drive)
{
    for (int h = 0; h < LW_HOURS; h++)
        for (int at = 0; at < LW_LANES; at += LW_WIDTH) {
            lw_v kelvin, share;
            lw_v_load(drive->pack_c[h] + at, &kelvin);
            lw_v_within(&kelvin, -60.0F, 200.0F);
            const lw_v x = 3006.976F / (kelvin + 273.15F) - 10.0854469F; /* Ea/R (1/T - 1/298.15 K) */
            lw_v_exp(&x, &share);
            lw_v_store(&share, drive->resistance[h] + at);
        }
}
