/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Layouts that have a file of their own.
 */
#ifndef LANEWICK_STRIP_LAYOUTS_H
#define LANEWICK_STRIP_LAYOUTS_H

#include "lanewick/strip_board.h"

lw_strip_layout lw_strip_trigger(void);

#endif
