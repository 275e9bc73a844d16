/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files about the shelf share.
 */
#ifndef LANEWICK_SHELF_INSIDE_H
#define LANEWICK_SHELF_INSIDE_H

#include "lanewick/desk_shelf.h"

/* What a part's record tells; no price yet. */
lw_price lw_shelf_price_of(const lw_part_record *part);
/* And one price of it. */
void lw_shelf_note_price(lw_price *price, const lw_price_record *record);

#endif
