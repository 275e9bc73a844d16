/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every figure's description, each defined in its own core/ROOM/fig_NAME.c.
 */
#ifndef LANEWICK_REGISTER_H
#define LANEWICK_REGISTER_H

#include "lanewick/figure.h"

/* base */
extern const lw_figure lw_fig_normal_quantile;
/* sun */
extern const lw_figure lw_fig_climate;
/* light */
extern const lw_figure lw_fig_beam_flux;
extern const lw_figure lw_fig_lux_point;
/* cell */
/* pack */
/* power */
extern const lw_figure lw_fig_panel;
/* circuit */
extern const lw_figure lw_fig_nearest_value;
extern const lw_figure lw_fig_wire_drop;
extern const lw_figure lw_fig_ampacity;
extern const lw_figure lw_fig_fuse;
extern const lw_figure lw_fig_pack_fault;
extern const lw_figure lw_fig_cell_fuse;
extern const lw_figure lw_fig_dusk_switch;
extern const lw_figure lw_fig_dusk_tolerance;
extern const lw_figure lw_fig_sun_lux;
extern const lw_figure lw_fig_comparator_inputs;
/* mast */

#endif
