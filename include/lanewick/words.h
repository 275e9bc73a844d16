/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Languages of sheets, page and command line. English texts stand in the code and are their own keys; every other
 * language is one gettext catalogue, po/CODE.po, which the build turns into a sorted table. Adding a language is adding
 * one file.
 */
#ifndef LANEWICK_WORDS_H
#define LANEWICK_WORDS_H

#include <stddef.h>

typedef struct lw_word {
    const char *english, *text;
    const char *const *forms; /* of a text that counts something; NULL: it has one form only */
} lw_word;

/* A text with places for values (printf's), found by the rarest word that stands in it. */
typedef struct lw_template {
    const char *anchor; /* that word; in rising order (strcmp) */
    unsigned word;      /* place of the text in lw_words.word */
    unsigned weight;    /* letters outside the places */
} lw_template;

typedef struct lw_words {
    const char *code;    /* ISO 639-1: "fr" */
    const char *name;    /* in the language itself: "Français" */
    const lw_word *word; /* in rising order of english (strcmp) */
    size_t count;
    const char *plural; /* the form of each number below 200 as a digit; beyond by the last two digits. NULL: English */
    const lw_template *template;
    size_t template_count;
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

/* A finished English sentence in the language. The core writes its sentences with printf and knows no language; so the
 * sentence is compared with the texts of the catalogue: the one with most letters that fits wholly says it, its
 * values are put into the translation, and values that are sentences or known words themselves are said in turn. What
 * fits no text is taken apart at its joints (. ; : , brackets) and said piece by piece; what is unknown stays English.
 * out takes size bytes at most (1 or more) with the zero at the end, cut between letters; returns their number without
 * it. Nothing is allocated, and the work is bounded by the length of the sentence. */
size_t lw_say_sentence(const lw_words *words, const char *sentence, char *out, size_t size);

#endif
