/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan in words and tables, into a stream in memory.
 */
#ifndef LANEWICK_PLAN_TEXT_H
#define LANEWICK_PLAN_TEXT_H

#include "lanewick/plan.h"
#include "lanewick/words.h"

#include <stdio.h>

typedef struct lw_text {
    FILE *out;
    const lw_words *words;
    bool colour;
} lw_text;

#define SAY(english) lw_say(text->words, english)

/* "2 (1 to 5)", "0.4 (0 to 2)" */
char *lw_band_text(const lw_text *text, const lw_dark_band *band, char *out, size_t size);
/* "a path lamp", "the lamp" */
char *lw_lamp_text(const lw_text *text, const lw_plan *plan, size_t kind, char *out, size_t size);
const char *lw_month_text(const lw_text *text, int month); /* 1..12 */
/* A sentence of the core in the language of the text. */
char *lw_text_say(const lw_text *text, const char *sentence, char *out, size_t size);
/* A line as printf makes it in English, in the language of the text. */
void lw_text_line(const lw_text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* Runs of words broken at about 96 letters; lines after the first begin with `indent` spaces. These and headings that
 * are still English are said in the language too. */
void lw_text_wrap(const lw_text *text, int indent, const char *words);
void lw_text_heading(const lw_text *text, const char *words);
/* Letters of so many bytes (UTF-8). */
int lw_text_letters(const char *text, int bytes);

/* The lane: in a sentence or two; its tables (nothing when there is none). */
void lw_lane_summary(const lw_text *text, const lw_plan *plan);
void lw_lane_tables(const lw_text *text, const lw_plan *plan);
void lw_plan_tables(const lw_text *text, const lw_plan *plan);

/* What is wired: the switch made by hand, charging over the year, what flows at midnight. */
void lw_plan_wired_text(const lw_text *text, const lw_plan *plan);

#endif
