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
/* light */
extern const lw_figure lw_fig_beam_flux;
extern const lw_figure lw_fig_lux_point;
/* cell */
/* pack */
/* power */
extern const lw_figure lw_fig_panel;
/* circuit */
/* mast */

#endif
