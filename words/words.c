/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks a text up in the table of a language: see lanewick/words.h.
 */
#include "lanewick/words.h"

#include <string.h>

const lw_words *lw_words_find(const char *code)
{
    for (size_t i = 0; i < lw_language_count; i++)
        if (strcmp(lw_languages[i]->code, code) == 0)
            return lw_languages[i];
    return NULL;
}

static const lw_word *find(const lw_words *words, const char *english)
{
    size_t low = 0, high = words ? words->count : 0;
    while (low < high) {
        const size_t middle = low + (high - low) / 2;
        const int order = strcmp(english, words->word[middle].english);
        if (order == 0)
            return &words->word[middle];
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}

const char *lw_say(const lw_words *words, const char *english)
{
    const lw_word *word = find(words, english);
    return word ? word->text : english;
}

const char *lw_say_many(const lw_words *words, const char *one, const char *many, size_t n)
{
    const lw_word *word = find(words, one);
    if (!word || !word->forms)
        return n == 1 ? one : many;
    return word->forms[words->plural[n < 200 ? n : 100 + n % 100] - '0'];
}
