/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An array of panels as a system states it: defaults and its power at standard conditions.
 */
#include "lanewick/panel.h"

lw_panel lw_panel_default(void)
{
    return (lw_panel){.kind = LW_PANEL_RATED,
                      .power_temp_per_k = -0.0043, /* crystalline silicon, from memory, typical */
                      .series = 1,
                      .parallel = 1,
                      .factor = 1.0,
                      .clean_share = 0.95,
                      .dust = lw_dust_default()};
}

double lw_panel_standard_w(const lw_panel *panel)
{
    const double count = (double)panel->series * (double)panel->parallel;
    if (panel->kind == LW_PANEL_RATED)
        return panel->rated_w * count * panel->factor;
    return lw_diode_max_power(&panel->diode).w * count * panel->factor;
}
