/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading a JSON document key by key. Each call names a key, its range and its default; the names asked for are
 * remembered, so that lw_doc_done() can refuse any other key and name the nearest. The first error stays and
 * every later call on the same document does nothing, so readers are plain lists of keys.
 */
#ifndef LANEWICK_DOC_H
#define LANEWICK_DOC_H

#include "lanewick/brief.h"
#include "lanewick/error.h"

#include <jansson.h>
#include <stdint.h>

enum { LW_DOC_KEYS = 64, LW_DOC_PATH = 80, LW_DOC_WORD = 40 };

/* What all parts of one document share. */
typedef struct lw_doc_root {
    lw_error *err;
    lw_assumptions *assumed; /* may be NULL */
    bool failed;
} lw_doc_root;

typedef struct lw_doc {
    lw_doc_root *root;
    const json_t *object; /* NULL: the part is missing, every key takes its default */
    char path[LW_DOC_PATH];
    const char *known[LW_DOC_KEYS];
    size_t known_count;
} lw_doc;

/* A value to use when the key is missing; why is told as an assumption, NULL: not worth telling. */
typedef struct lw_doc_or {
    double value;
    const char *unit, *why;
} lw_doc_or;

lw_doc lw_doc_open(lw_doc_root *root, const json_t *object, const char *path);

/* A whole document of one format ("lanewick.mast/1"). Its name is for people: it is checked and not kept. */
typedef struct lw_doc_file {
    json_t *json;
    lw_doc_root root;
    lw_doc doc;
} lw_doc_file;
LW_MUST_CHECK bool lw_doc_file_open(lw_doc_file *file, const char *text, size_t length, const char *format,
                                    lw_error *err);
/* Ends as lw_doc_done() and lets the text go. */
bool lw_doc_file_close(lw_doc_file *file);
/* The object under a key; missing: an empty one (needed: an error). */
lw_doc lw_doc_part(lw_doc *doc, const char *key, bool needed);
bool lw_doc_has(lw_doc *doc, const char *key);
/* The list under a key, NULL when missing; count between least and most. */
const json_t *lw_doc_list(lw_doc *doc, const char *key, size_t least, size_t most);
/* Element i of a list as an object, path "key[i+1]". */
lw_doc lw_doc_element(lw_doc *doc, const char *key, const json_t *list, size_t i);

double lw_doc_number(lw_doc *doc, const char *key, double low, double high, const char *unit);
double lw_doc_number_or(lw_doc *doc, const char *key, double low, double high, lw_doc_or fallback);
/* A number that replaces *value when the key is there. */
void lw_doc_set(lw_doc *doc, const char *key, double low, double high, const char *unit, double *value);
int lw_doc_integer_or(lw_doc *doc, const char *key, int low, int high, lw_doc_or fallback);
bool lw_doc_flag_or(lw_doc *doc, const char *key, bool fallback, const char *why);
/* Exactly count numbers; false when the key is missing. */
bool lw_doc_numbers(lw_doc *doc, const char *key, double low, double high, const char *unit, double *out, size_t count);
/* The place of the text in words (separated by |), or fallback when missing (below 0: an error). */
int lw_doc_choice(lw_doc *doc, const char *key, const char *words, int fallback, const char *why);
/* The other way: word i of them as a value, shorter than LW_DOC_WORD. */
json_t *lw_doc_word(const char *words, int i);
/* Text of at most size - 1 bytes without control signs; missing: fallback (NULL: an error). */
void lw_doc_text(lw_doc *doc, const char *key, const char *fallback, char *out, size_t size);

/* Any key that was not asked for is an error. Returns true when all went well so far. */
bool lw_doc_done(lw_doc *doc);

/* An error about key in the manner of lw_fail. */
void lw_doc_fail(lw_doc *doc, const char *key, const char *format, ...) __attribute__((format(printf, 3, 4)));

#endif
