/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Languages of sheets and page. English texts stand in the code and are their own keys; every other language is one
 * gettext catalogue, po/CODE.po, which the build turns into a sorted table. Adding a language is adding one file.
 */
#ifndef LANEWICK_WORDS_H
#define LANEWICK_WORDS_H

#include <stddef.h>

typedef struct lw_word {
    const char *english, *text;
} lw_word;

typedef struct lw_words {
    const char *code;    /* ISO 639-1: "fr" */
    const char *name;    /* in the language itself: "Français" */
    const lw_word *word; /* in rising order of english (strcmp) */
    size_t count;
} lw_words;

/* All languages, English (an empty table) first. */
extern const lw_words *const lw_languages[];
extern const size_t lw_language_count;

/* The table of a code, NULL when there is none. */
const lw_words *lw_words_find(const char *code);
/* The text in the language; the English text itself where the catalogue has none. */
const char *lw_say(const lw_words *words, const char *english);

#endif
