/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the page may ask of the desk: a document in, a document out, value by value. See desk_door.c.
 */
#ifndef LANEWICK_WASM_DESK_DOOR_H
#define LANEWICK_WASM_DESK_DOOR_H

#include "door.h"
#include "values/jansson.h"

#include <stddef.h>

/* The most that the core takes of the browser's memory [bytes]; more is an error that says so (linker: max-memory). */
enum { LW_DESK_DOOR_BYTES = 256 << 20 };

/* Wishes by number. A plan and a search of masts with a brief tell their progress to page.progress(0..1). */
typedef enum lw_desk_wish {
    LW_WISH_PLAN,
    LW_WISH_LANE,
    LW_WISH_LANE_SEARCH,
    LW_WISH_PACK,
    LW_WISH_MAST,
    LW_WISH_CIRCUIT,
    LW_WISH_RIBBON,
    LW_WISH_LAMP_MAST,
    LW_WISH_COUNT
} lw_desk_wish;

/* A new question: all earlier values are let go. */
void LW_DOOR(lw_desk_door_begin)(void);
/* Room for so many bytes of a key or a text, for the page to write to; NULL: memory is out. */
char *LW_DOOR(lw_desk_door_room)(int bytes);

/* The question, in the order of writing; each 0, or -1: out of place or memory is out. A key is the text that stands
 * in the room and goes before its value. */
int LW_DOOR(lw_desk_door_open)(int list);
int LW_DOOR(lw_desk_door_close)(void);
int LW_DOOR(lw_desk_door_key)(void);
int LW_DOOR(lw_desk_door_number)(double x);
int LW_DOOR(lw_desk_door_text)(void);
int LW_DOOR(lw_desk_door_flag)(int yes);
int LW_DOOR(lw_desk_door_none)(void);

/* 0, or the family of the error, which lw_desk_door_fault() tells: 0 message, 1 field, 2 kind of problem. seed: of a
 * plan. */
int LW_DOOR(lw_desk_door_run)(int wish, double seed);
const char *LW_DOOR(lw_desk_door_fault)(int what);

/* The answer: a value is named by what these give; NULL: there is none. */
const json_t *LW_DOOR(lw_desk_door_answer)(void);
int LW_DOOR(lw_desk_door_kind)(const json_t *value); /* a json_type */
int LW_DOOR(lw_desk_door_count)(const json_t *value);
const json_t *LW_DOOR(lw_desk_door_entry)(const json_t *value, int place);
const char *LW_DOOR(lw_desk_door_entry_key)(const json_t *value, int place);
double LW_DOOR(lw_desk_door_value)(const json_t *value);
const char *LW_DOOR(lw_desk_door_words)(const json_t *value);

#endif
