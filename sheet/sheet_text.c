/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Places of cells as they are spoken of, and text with values in it.
 */
#include "sheet_list.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const char *lw_cell_place(char *out, size_t size, int group, int cell)
{
    enum { LETTERS = 26 };
    if (cell < LETTERS)
        (void)snprintf(out, size, "%d%c", group + 1, 'A' + cell);
    else
        (void)snprintf(out, size, "%d%c%c", group + 1, 'A' + cell / LETTERS - 1, 'A' + cell % LETTERS);
    return out;
}

const char *lw_sheet_lamp(const lw_sheet *sheet, const lw_plan *plan, const lw_plan_kind *kind)
{
    const char *name = plan->brief.want.lamp[kind->kind].name;
    return strcmp(name, lw_lamp_unnamed) == 0 ? SAY("lamp") : name;
}

const char *lw_sheet_design(const lw_sheet *sheet, const lw_shelf *shelf, const lw_design *design, char *out,
                            size_t size)
{
    const char *panel = shelf->panel[design->panel].name;
    if (design->panels > 1)
        return lw_sheet_format(out, size, SAY("%d x %s, %d x %d cells"), design->panels, panel, design->series,
                               design->parallel);
    return lw_sheet_format(out, size, SAY("%s, %d x %d cells"), panel, design->series, design->parallel);
}

const char *lw_sheet_format(char *out, size_t size, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(out, size, format, arguments);
    va_end(arguments);
    return out;
}
