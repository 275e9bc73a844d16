/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the page may call in the core: see door.c. Texts end in a zero byte; NULL: there is none. A number out of range
 * gives NULL, -1 or NAN, never a fault.
 */
#ifndef LANEWICK_WASM_DOOR_H
#define LANEWICK_WASM_DOOR_H

#include "lanewick/figure.h"

#ifdef __wasm__
#define LW_DOOR(name) __attribute__((export_name(#name))) name
#else
#define LW_DOOR(name) name
#endif

int LW_DOOR(lw_door_count)(void);
const char *LW_DOOR(lw_door_figure)(int figure, int what); /* 0 name, room, summary, source, limits, caution, example */
int LW_DOOR(lw_door_inputs)(int figure);
int LW_DOOR(lw_door_outputs)(int figure);
const char *LW_DOOR(lw_door_input)(int figure, int place, int what); /* 0 name, unit, meaning, choices, fallback */
int LW_DOOR(lw_door_input_kind)(int figure, int place);              /* an lw_kind; -1: there is none */
double LW_DOOR(lw_door_input_limit)(int figure, int place, int high);
const char *LW_DOOR(lw_door_output)(int figure, int place, int what); /* 0 name, unit, meaning */
int LW_DOOR(lw_door_output_kind)(int figure, int place);

int LW_DOOR(lw_door_begin)(int figure); /* 0, or -1 */
char *LW_DOOR(lw_door_text_room)(void); /* the caller writes a text here, with its zero byte */
int LW_DOOR(lw_door_text_bytes)(void);
int LW_DOOR(lw_door_key)(void); /* place of the input named there; -1: lw_door_fault tells */
void LW_DOOR(lw_door_number)(int place, double x);
int LW_DOOR(lw_door_text)(int place);                /* takes the text that stands there */
double *LW_DOOR(lw_door_list)(int place, int count); /* room for the list; NULL: too long */
int LW_DOOR(lw_door_finish)(void);                   /* 0, or the family of the error */
const char *LW_DOOR(lw_door_fault)(int what);        /* 0 message, 1 field, 2 kind of problem */
int LW_DOOR(lw_door_out_given)(int place);
double LW_DOOR(lw_door_out_number)(int place);
const char *LW_DOOR(lw_door_out_text)(int place);
const double *LW_DOOR(lw_door_out_list)(int place);
int LW_DOOR(lw_door_out_count)(int place);

#endif
