/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The short code of a plan, and the codes of lamps and packs built from it: on every sheet, on labels, in the store.
 */
#ifndef LANEWICK_PLAN_CODE_H
#define LANEWICK_PLAN_CODE_H

#include "lanewick/plan.h"

/* Code of a plan, short enough to be read out: from a hash of what is to be built, its cells where they are named, and
 * the seed: "K7A-3F2". */
void lw_plan_code(const lw_plan *plan, char out[16]);
/* The code that the text of a plan tells; "" for a brief and for what is no plan. */
void lw_plan_code_told(const char *text, size_t length, char out[16]);
/* Code of the n-th thing (from 1) of a kind of lamp (from 1): L lamp, P pack: "P-K7A-3F2-103". */
const char *lw_thing_code(char *out, size_t size, char letter, const char *plan_code, size_t kind_number, int n);

#endif
