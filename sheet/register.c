/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of sheets: one line each.
 */
#include "sheet_list.h"

const lw_sheet_kind *const lw_sheet_kinds[] = {
    &lw_sheet_summary, &lw_sheet_handover, &lw_sheet_calendar, &lw_sheet_rounds, &lw_sheet_market,     &lw_sheet_jigs,
    &lw_sheet_build,   &lw_sheet_pack,     &lw_sheet_test,     &lw_sheet_labels, &lw_sheet_head_board, &lw_sheet_wiring,
    &lw_sheet_dusk,    &lw_sheet_charging, &lw_sheet_mast,     &lw_sheet_lane,
};

const size_t lw_sheet_kind_count = sizeof lw_sheet_kinds / sizeof lw_sheet_kinds[0];
