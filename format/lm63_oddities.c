/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is odd but harmless in an LM-63 file and shows only when the whole table of type C is there.
 */
#include "lm63_inside.h"

#include <math.h>
#include <string.h>

static void equal_planes(lw_lm63_reader *r, size_t line)
{
    const lw_intensity *table = &r->out->table;
    const size_t m = table->vertical_count;
    for (size_t h = 1; h < table->horizontal_count; h++)
        if (memcmp(table->candela, table->candela + h * m, m * sizeof *table->candela) != 0)
            return;
    if (table->horizontal_count > 1)
        (void)lw_lm63_tell(r, line, LW_TOLD, "all planes are equal: one would do");
}

/* Straight down and straight up are one direction in all planes. */
static void one_direction(lw_lm63_reader *r, size_t line, size_t v)
{
    const lw_intensity *t = &r->out->table;
    const double first_cd = t->candela[v];
    for (size_t h = 1; h < t->horizontal_count; h++) {
        const double cd = t->candela[h * t->vertical_count + v];
        if (fabs(cd - first_cd) <= 0.01 * fmax(cd, first_cd))
            continue;
        if (v)
            (void)lw_lm63_tell(r, line, LW_TOLD,
                               "straight up is one direction, but the planes %g and %g degree have %g and %g cd there",
                               t->horizontal_deg[0], t->horizontal_deg[h], first_cd, cd);
        else
            (void)lw_lm63_tell(
                r, line, LW_TOLD,
                "straight down is one direction, but the planes %g and %g degree have %g and %g cd there",
                t->horizontal_deg[0], t->horizontal_deg[h], first_cd, cd);
        return;
    }
}

static void light_at_the_end(lw_lm63_reader *r, size_t line)
{
    const lw_intensity *t = &r->out->table;
    const size_t last = t->vertical_count - 1;
    double end_cd = 0.0;
    for (size_t h = 0; h < t->horizontal_count; h++)
        end_cd = fmax(end_cd, t->candela[h * t->vertical_count + last]);
    const double peak_cd = lw_intensity_peak_cd(t);
    if (peak_cd == 0.0)
        (void)lw_lm63_tell(r, line, LW_TOLD, "all candela are 0: this head gives no light");
    else if (t->vertical_deg[last] == 90.0 && end_cd > 0.05 * peak_cd)
        (void)lw_lm63_tell(r, line, LW_TOLD,
                           "the table ends at 90 degree with %g cd there: light above it is not in the file", end_cd);
}

void lw_lm63_oddities(lw_lm63_reader *r, size_t angles_line)
{
    const lw_lm63 *file = r->out;
    const lw_intensity *t = &file->table;
    const size_t last = t->vertical_count - 1;
    if (file->year != 1995 && t->horizontal_count > 1 && t->horizontal_deg[0] == 90.0)
        (void)lw_lm63_tell(r, angles_line, LW_TOLD, "planes from 90 to 270 degree belong to LM-63-1995 alone");
    if (file->year >= 2002 && file->width_m < 0.0 && file->length_m == 0.0)
        (void)lw_lm63_tell(r, r->lumens_line, LW_TOLD,
                           "the disc is written as in LM-63-1995; since 2002 its length is that negative number too");
    equal_planes(r, angles_line + 1);
    if (t->vertical_deg[0] == 0.0)
        one_direction(r, angles_line + 1, 0);
    if (t->vertical_deg[last] == 180.0)
        one_direction(r, angles_line + 1, last);
    light_at_the_end(r, angles_line + 1);
}
