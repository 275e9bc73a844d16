/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A figure is one small calculation, declared once: name, inputs, outputs, source, example, function. The
 * command line, the JSON API, the page's forms and the reference documentation are made from that description.
 */
#ifndef LANEWICK_FIGURE_H
#define LANEWICK_FIGURE_H

#include "lanewick/arena.h"
#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum lw_kind {
    LW_NUMBER,  /* any finite number between low and high */
    LW_INTEGER, /* a whole number between low and high */
    LW_TEXT,    /* up to 400 characters */
    LW_CHOICE,  /* one of the words in choices, separated by | */
    LW_NUMBERS, /* a list of numbers, each between low and high, min_count to max_count of them */
    LW_FLAG     /* yes or no */
} lw_kind;

enum { LW_FIGURE_MAX_VALUES = 64, LW_FIGURE_MAX_LIST = 100000 };

typedef struct lw_value {
    lw_kind kind;
    bool given;         /* false: an optional input left out, or an output that does not exist (null) */
    double number;      /* NUMBER, INTEGER; FLAG: 0 or 1; CHOICE: place of the word in choices, from 0 */
    const char *text;   /* TEXT, CHOICE */
    const double *list; /* NUMBERS */
    size_t count;       /* NUMBERS */
} lw_value;

typedef struct lw_input {
    const char *name, *unit, *meaning;
    lw_kind kind;
    double low, high;            /* NUMBER, INTEGER, NUMBERS */
    const char *choices;         /* CHOICE */
    const char *fallback;        /* NULL: must be given; "": may be left out; else the default as a person types it */
    size_t min_count, max_count; /* NUMBERS; max_count 0: LW_FIGURE_MAX_LIST */
} lw_input;

typedef struct lw_output {
    const char *name, *unit, *meaning;
    lw_kind kind;
} lw_output;

/* in[i] belongs to inputs[i] (already checked against its range, defaults filled in); out[i] to outputs[i],
 * all not given at the start. Lists and texts of outputs live in the arena or in constants. */
typedef bool lw_figure_run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err);

typedef struct lw_figure {
    const char *name, *room;
    const char *summary; /* one sentence: what it tells */
    const char *source;  /* author, year, equation, or the standard's number and clause */
    const char *limits;  /* where it holds, one sentence, may be NULL */
    const char *caution; /* said at every use where work can hurt, may be NULL */
    const char *example; /* inputs as a person types them, a working line */
    const lw_input *inputs;
    size_t input_count;
    const lw_output *outputs;
    size_t output_count;
    lw_figure_run *run;
} lw_figure;

/* The register: figures in order of their rooms. */
size_t lw_figure_count(void);
const lw_figure *lw_figure_at(size_t i);
const lw_figure *lw_figure_find(const char *name); /* NULL when there is none */
const char *lw_figure_nearest(const char *name);   /* the name nearest in spelling */

/* One call, filled key by key through either door (text or JSON), then run. */
typedef struct lw_figure_call {
    const lw_figure *figure;
    lw_value in[LW_FIGURE_MAX_VALUES];
    lw_value out[LW_FIGURE_MAX_VALUES];
} lw_figure_call;

void lw_figure_begin(lw_figure_call *call, const lw_figure *figure);
/* The input of that name, or NULL with an error that names the nearest known key. */
LW_MUST_CHECK lw_value *lw_figure_input(lw_figure_call *call, const char *key, lw_error *err);
/* One key=value as a person types it; lists are separated by commas; decimal point. */
LW_MUST_CHECK bool lw_figure_set_text(lw_figure_call *call, const char *key, const char *text, lw_arena *arena,
                                      lw_error *err);
/* Fills defaults, checks every range, runs. Every number that comes out is finite or the output is not given. */
LW_MUST_CHECK bool lw_figure_finish(lw_figure_call *call, lw_arena *arena, lw_error *err);

/* Writing outputs from a run function. */
static inline lw_value lw_value_number(double x)
{
    return (lw_value){.kind = LW_NUMBER, .given = true, .number = x};
}
static inline lw_value lw_value_integer(double x)
{
    return (lw_value){.kind = LW_INTEGER, .given = true, .number = x};
}
static inline lw_value lw_value_text(const char *text)
{
    return (lw_value){.kind = LW_TEXT, .given = true, .text = text};
}
static inline lw_value lw_value_flag(bool yes)
{
    return (lw_value){.kind = LW_FLAG, .given = true, .number = yes ? 1.0 : 0.0};
}
static inline lw_value lw_value_list(const double *list, size_t count)
{
    return (lw_value){.kind = LW_NUMBERS, .given = true, .list = list, .count = count};
}

/* Spelling distance (Levenshtein 1966), for "did you mean". Words longer than 63 letters count as far. */
size_t lw_spelling_distance(const char *a, const char *b);

#endif
