/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How far two words are apart, for "did you mean": Levenshtein (1966), Soviet Physics Doklady 10, 707.
 */
#include "lanewick/figure.h"

#include <string.h>

enum { LONGEST = 64 };

size_t lw_spelling_distance(const char *a, const char *b)
{
    const size_t rows = strlen(a), columns = strlen(b);
    if (rows >= LONGEST || columns >= LONGEST)
        return rows > columns ? rows : columns;
    size_t line[LONGEST + 1];
    for (size_t j = 0; j <= columns; j++)
        line[j] = j;
    for (size_t i = 1; i <= rows; i++) {
        size_t corner = line[0];
        line[0] = i;
        for (size_t j = 1; j <= columns; j++) {
            const size_t change = corner + (a[i - 1] == b[j - 1] ? 0 : 1);
            corner = line[j];
            const size_t insert = line[j - 1] + 1, drop = line[j] + 1;
            line[j] = insert < drop ? insert : drop;
            if (change < line[j])
                line[j] = change;
        }
    }
    return line[columns];
}
