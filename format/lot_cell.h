/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One tested cell as an object: {"id", "capacity_ah", "capacity_sd_ah", "resistance_mohm", "voltage_class", "verdict",
 * "marking"}, alike in questions about packs and in briefs.
 */
#ifndef LANEWICK_LOT_CELL_H
#define LANEWICK_LOT_CELL_H

#include "doc.h"

#include "lanewick/match.h"

/* Texts are kept in the arena; NULL: they are looked at and let go. */
lw_lot_cell lw_lot_cell_read(lw_doc *doc, lw_arena *arena);
json_t *lw_lot_cell_json(const lw_lot_cell *cell);

#endif
