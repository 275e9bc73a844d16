/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The numbers of an LM-63 file as one stream: real files break their lines anywhere (delimiters: comma, space, CR, LF).
 */
#include "lm63_inside.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void skip(lw_lm63_reader *r)
{
    for (; r->at < r->end; r->at++) {
        const char c = *r->at;
        if (c == '\n' || (c == '\r' && (r->at + 1 == r->end || r->at[1] != '\n')))
            r->line++;
        if (c != ',' && !isspace((unsigned char)c))
            return;
    }
}

/* Cuts the next word out; empty at the end of the text. */
static void next_word(lw_lm63_reader *r, char *word, size_t size)
{
    skip(r);
    size_t length = 0;
    while (r->at < r->end && *r->at != ',' && !isspace((unsigned char)*r->at)) {
        if (length + 1 < size)
            word[length++] = *r->at;
        r->at++;
    }
    word[length] = '\0';
}

bool lw_lm63_number(lw_lm63_reader *r, const char *what, double *number)
{
    char word[64];
    if (r->ends)
        return false;
    next_word(r, word, sizeof word);
    if (!word[0])
        return lw_lm63_end(r, r->line, "the file ends before %s", what);
    char *end = NULL;
    *number = strtod(word, &end);
    const bool plain = strspn(word, "+-.0123456789eE") == strlen(word);
    if (!*end && plain && isfinite(*number))
        return true;
    *number = NAN;
    return lw_lm63_tell(r, r->line, LW_FATAL, "\"%.40s\" stands where %s should be a number", word, what);
}

bool lw_lm63_whole(lw_lm63_reader *r, const char *what, int low, int high, int *number)
{
    double value = 0.0;
    *number = 0;
    if (!lw_lm63_number(r, what, &value) || isnan(value))
        return !r->ends;
    if (value != floor(value) || value < low || value > high)
        return lw_lm63_tell(r, r->line, LW_FATAL, "%s is %g; it must be a whole number from %d to %d", what, value, low,
                            high);
    *number = (int)value;
    return true;
}

bool lw_lm63_numbers(lw_lm63_reader *r, const char *what, double *numbers, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char name[80];
        (void)snprintf(name, sizeof name, "%s %zu of %zu", what, i + 1, count);
        if (!lw_lm63_number(r, name, &numbers[i]))
            return false;
    }
    return true;
}

bool lw_lm63_finish(lw_lm63_reader *r)
{
    char word[64];
    next_word(r, word, sizeof word);
    if (!word[0])
        return true;
    return lw_lm63_tell(
        r, r->line, LW_LM63_MEND(r),
        "\"%.40s\" stands after the last candela value; the counts do not match, or a decimal comma is used", word);
}
