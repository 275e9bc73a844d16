/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A QR code to show on a screen.
 */
#ifndef LANEWICK_DESK_QR_H
#define LANEWICK_DESK_QR_H

#include "lanewick/error.h"

/* As SVG text, side_mm wide with its quiet zone; free(*svg). */
LW_MUST_CHECK bool lw_desk_qr_svg(const char *text, double side_mm, char **svg, lw_error *err);

#endif
