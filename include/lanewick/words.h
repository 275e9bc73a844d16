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
    const char *const *forms; /* of a text that counts something; NULL: it has one form only */
} lw_word;

typedef struct lw_words {
    const char *code;    /* ISO 639-1: "fr" */
    const char *name;    /* in the language itself: "Français" */
    const lw_word *word; /* in rising order of english (strcmp) */
    size_t count;
    const char *plural; /* the form of each number below 200 as a digit; beyond by the last two digits. NULL: English */
} lw_words;

/* All languages, English (an empty table) first. */
extern const lw_words *const lw_languages[];
extern const size_t lw_language_count;

/* The table of a code, NULL when there is none. */
const lw_words *lw_words_find(const char *code);
/* The text in the language; the English text itself where the catalogue has none. */
const char *lw_say(const lw_words *words, const char *english);
/* The form of a text that goes with the number n: lw_say_many(words, "%zu file", "%zu files", n). */
const char *lw_say_many(const lw_words *words, const char *one, const char *many, size_t n);

#endif
