/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a mast document and the mast of a brief say in the same words.
 */
#ifndef LANEWICK_MAST_READ_H
#define LANEWICK_MAST_READ_H

#include "doc.h"

/* Block, plate and bolts; soil under the block as out->bearing_pa has it, which must be told where it is 0. */
void lw_doc_plate(lw_doc *base, lw_plate_wish *out);

/* The object "upper" of a pipe; of a whole mast it also says how long the lower pipe is, a shelf says how long the
 * upper one is: *upper_length_m, NULL for a mast. */
void lw_doc_upper(lw_doc *pipe, lw_mast_upper *out, double *upper_length_m);

#endif
