/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of sheets: one line each.
 */
#include "sheet_list.h"

const lw_sheet_kind *const lw_sheet_kinds[] = {
    &lw_sheet_summary,
    &lw_sheet_pack,
};

const size_t lw_sheet_kind_count = sizeof lw_sheet_kinds / sizeof lw_sheet_kinds[0];
