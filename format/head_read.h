/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The keys of a head, which stand alone in a head document or as a part of a lane document.
 */
#ifndef LANEWICK_HEAD_READ_H
#define LANEWICK_HEAD_READ_H

#include "doc.h"

#include "lanewick/head.h"

/* How the light is spread: closed form, file or readings, and the diffuser; the lumens are sought elsewhere. */
void lw_head_read_shape(lw_doc *doc, lw_head *out);
/* K; 0: not stated. */
double lw_head_read_colour(lw_doc *doc);
/* That with lumens and colour; not the name, date and watts. */
void lw_head_read(lw_doc *doc, lw_head *out);
/* Lumens by zones, the share upward, the intensity class. */
void lw_put_zones(json_t *object, const lw_intensity *table);

#endif
