/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The verdict on a mast, its reasons and the cautions of the work.
 */
#ifndef LANEWICK_MAST_NOTES_H
#define LANEWICK_MAST_NOTES_H

#include "lanewick/mast_check.h"

void lw_mast_write_notes(const lw_mast_wish *wish, lw_mast_result *out);

#endif
