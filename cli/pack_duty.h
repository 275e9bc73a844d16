/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick pack match --load-a: the matched packs in their duty.
 */
#ifndef LANEWICK_PACK_DUTY_H
#define LANEWICK_PACK_DUTY_H

#include "lanewick/desk_pack.h"

void lw_cli_print_duty(const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match,
                       const lw_duty_ask *asked, const lw_duty *duty);

#endif
