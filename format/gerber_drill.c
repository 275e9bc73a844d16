/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Holes of an LED board: Excellon drill format, metric, decimal points, nothing plated. The lines "; #@!" carry the X2
 * attributes as the specification gives them for drill files.
 */
#include "gerber_inside.h"

#include "lanewick/version.h"

enum { TOOLS = 12 };

typedef struct tools {
    double diameter_mm[TOOLS];
    int count;
} tools;

static void want(tools *list, double diameter_mm)
{
    int i = 0;
    while (i < list->count && list->diameter_mm[i] != diameter_mm)
        i++;
    if (i == list->count && list->count < TOOLS)
        list->diameter_mm[list->count++] = diameter_mm;
}

static void hole(FILE *out, double diameter_mm, double tool_mm, double x_mm, double y_mm)
{
    if (diameter_mm == tool_mm)
        (void)fprintf(out, "X%.4fY%.4f\n", x_mm, y_mm);
}

void lw_gerber_drill(FILE *out, const lw_led_board *board)
{
    tools list = {.count = 0};
    for (size_t i = 0; i < board->pad_count; i++)
        if (board->pad[i].drill_mm > 0.0)
            want(&list, board->pad[i].drill_mm);
    for (size_t i = 0; i < board->mounting_count; i++)
        want(&list, board->mounting[i].diameter_mm);
    (void)fprintf(out,
                  "M48\n; #@! TF.GenerationSoftware,lanewick,lanewick,%s\n; #@! TF.FileFunction,NonPlated,1,2,NPTH\n"
                  "METRIC\n",
                  LW_VERSION);
    for (int t = 0; t < list.count; t++)
        (void)fprintf(out, "T%02dC%.3f\n", t + 1, list.diameter_mm[t]);
    (void)fputs("%\nG90\nG05\n", out);
    for (int t = 0; t < list.count; t++) {
        (void)fprintf(out, "T%02d\n", t + 1);
        for (size_t i = 0; i < board->pad_count; i++)
            hole(out, board->pad[i].drill_mm, list.diameter_mm[t], board->pad[i].x_mm, board->pad[i].y_mm);
        for (size_t i = 0; i < board->mounting_count; i++)
            hole(out, board->mounting[i].diameter_mm, list.diameter_mm[t], board->mounting[i].x_mm,
                 board->mounting[i].y_mm);
    }
    (void)fputs("M30\n", out);
}
