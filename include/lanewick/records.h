/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The workshop's records as plain structs: what the store keeps and what the documents about crates say.
 *
 * id: UUID version 7, "" for a record that is not stored yet. Numbers that are not known are NAN, words that are
 * not told "". Instants are UTC as text, 2026-07-14T18:05:30Z. A `const char *` is the caller's and outlives the call.
 */
#ifndef LANEWICK_RECORDS_H
#define LANEWICK_RECORDS_H

#include "lanewick/arena.h"
#include "lanewick/csv.h"
#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { LW_ID = 37, LW_CODE = 33, LW_WORD = 81, LW_NOTE = 401, LW_STAMP = 32 };

typedef struct lw_workshop_record {
    char id[LW_ID], name[LW_WORD], place[LW_WORD], currency[8], note[LW_NOTE];
} lw_workshop_record;

typedef struct lw_instrument_record {
    char id[LW_ID], name[LW_WORD], kind[16]; /* kind: meter, resistor, charger, other */
    double percent, digits, step;            /* of a meter: +- percent of the reading + digits * step */
    double ohm, tolerance_pct;               /* of a resistor */
    char note[LW_NOTE];
} lw_instrument_record;

typedef struct lw_crate_record {
    char id[LW_ID], code[LW_CODE], name[LW_WORD], origin[LW_WORD], received[LW_STAMP], note[LW_NOTE];
} lw_crate_record;

typedef struct lw_cell_record {
    char id[LW_ID], crate[LW_ID];
    char code[LW_CODE];     /* letters, digits, - _ . / */
    char marking[LW_WORD];  /* as printed on the cell */
    char voltage_class[12]; /* 4v2, 4v35, lfp, unknown */
    char shape[24];         /* 18650 */
    char origin[LW_WORD];   /* the pack it came from */
    char look[LW_WORD];     /* words of lw_look_read, in their order, with spaces */
    double found_v;         /* as it was found */
    char found_at[LW_STAMP];
    char note[LW_NOTE];
    double rated_ah; /* its capacity when it was new, as the maker states it */
} lw_cell_record;

typedef struct lw_test_record {
    char id[LW_ID], cell[LW_ID];
    char method[16]; /* resistor, log, pulse, two_pulse, rest, hold, charger, flag */
    char at[LW_STAMP];
    char meter[LW_ID], resistor[LW_ID]; /* instruments, "" */
    double temp_c;
    const char *readings; /* JSON object */
    char note[LW_NOTE];
} lw_test_record;

typedef struct lw_result_record {
    char id[LW_ID], test[LW_ID], cell[LW_ID], kind[24]; /* kind: capacity_ah, resistance_10s_ohm, ... */
    double value, sd;
    char note[LW_NOTE];
} lw_result_record;

typedef struct lw_standing_record {
    char id[LW_ID], cell[LW_ID], verdict[12]; /* sound, tired, unsure, scrap, untested */
    double capacity_ah, capacity_sd_ah, resistance_ohm, resistance_sd_ohm, self_discharge_pct, self_discharge_sd_pct;
    char reasons[1000], next_test[300], at[LW_STAMP];
} lw_standing_record;

typedef struct lw_plan_record {
    char id[LW_ID], code[LW_CODE], name[LW_WORD], at[LW_STAMP];
    const char *document; /* JSON */
} lw_plan_record;

typedef struct lw_pack_record {
    char id[LW_ID], code[LW_CODE];
    int series;
    char voltage_class[12];
    double weakest_ah, guaranteed_ah;
    char state[12]; /* reserved, built, apart */
    char plan[LW_ID], at[LW_STAMP], apart_at[LW_STAMP], note[LW_NOTE];
} lw_pack_record;

typedef struct lw_slot_record {
    char id[LW_ID], pack[LW_ID], cell[LW_ID];
    int group, place; /* from 1 */
    char since[LW_STAMP], until[LW_STAMP];
} lw_slot_record;

typedef struct lw_lamp_record {
    char id[LW_ID], code[LW_CODE], name[LW_WORD];
    double lat_deg, lon_deg;
    char keeper[LW_WORD], plan[LW_ID], pack[LW_ID], at[LW_STAMP], note[LW_NOTE];
} lw_lamp_record;

typedef struct lw_sighting_record {
    char id[LW_ID], lamp[LW_ID], at[LW_STAMP], kind[24]; /* kind: dusk_v, dawn_v, lit_h, complaint, ... */
    double value;
    char note[LW_NOTE];
} lw_sighting_record;

typedef struct lw_label_record {
    char id[LW_ID], code[LW_CODE], kind[24], thing[LW_ID], at[LW_STAMP];
} lw_label_record;

typedef struct lw_slip_record {
    char id[LW_ID], kind[16], at[LW_STAMP], taken[LW_STAMP]; /* written down; taken in */
    const char *document, *answer;                           /* JSON */
} lw_slip_record;

/* A discharge through a resistor under way; ended "": still connected. */
typedef struct lw_run_record {
    char id[LW_ID], cell[LW_ID], at[LW_STAMP], resistor[LW_ID];
    double load_ohm, every_s, temp_c, open_before_v; /* the last two NAN: not told */
    char ended[LW_STAMP];
} lw_run_record;

typedef struct lw_run_reading_record {
    char id[LW_ID], run[LW_ID], at[LW_STAMP];
    double volts;
} lw_run_reading_record;

/* A part or tool of the workshop: docs/prices.md. */
typedef struct lw_part_record {
    char id[LW_ID], name[64];
    int tool, at_hand, sold_by, loss_pm, spares_pm, bench_min; /* as lw_price */
} lw_part_record;

typedef struct lw_price_record {
    char id[LW_ID], thing[64]; /* name of the part */
    int64_t minor, consumables_minor;
    char currency[12];
    int decimals;
    char at[12], shop[64]; /* at: 2026-11-02 */
} lw_price_record;

/* --- checks (format/cell_check.c) ------------------------------------------------------------------------------ */

/* A cell with nothing told: class unknown, numbers NAN. */
lw_cell_record lw_cell_blank(void);

/* The standing of a cell that nobody has judged: untested, numbers NAN. */
lw_standing_record lw_standing_blank(void);

/* Code 1 to 32 letters, digits and - _ . / beginning with a letter or digit; class known; voltage one cell's (42.0 gets
 * the guess 4.20); rated capacity 0.1 to 60 Ah (2200 gets the guess 2.2). Errors name code, voltage_class, found_v,
 * rated_ah. */
LW_MUST_CHECK bool lw_cell_check(const lw_cell_record *cell, lw_error *err);

/* The words for a look - dent, rust, swollen, torn, leak, smell, hot - in any order, parted by spaces , ; or +, into
 * the same words in their order; an unknown word is an error with the nearest known one. "-", "none" and "good" mean
 * nothing to see. */
LW_MUST_CHECK bool lw_look_read(const char *text, char look[LW_WORD], lw_error *err);

/* The class that is meant: 4v2, 4.2, nmc, lco, nca; 4v35, 4.35; lfp; unknown, "?" or "". */
LW_MUST_CHECK bool lw_class_read(const char *text, char voltage_class[12], lw_error *err);
/* A number as a person types it: decimal point or comma. */
LW_MUST_CHECK bool lw_number_read(const char *field, const char *text, double *x, lw_error *err);

/* Copies text into a field of size bytes; an error names the field when it is too long or no valid UTF-8. */
LW_MUST_CHECK bool lw_record_text(const char *field, const char *text, char *out, size_t size, lw_error *err);

/* The caution that belongs to what was just found, i-th of several; NULL after the last. */
const char *lw_found_caution(const lw_cell_record *cell, size_t i);

/* --- a table of cells ------------------------------------------------------------------------------------------ */

/* Which column of a file is which of ours. Text such as "code=Label,volts=U". Ours: code, marking, class, shape,
 * origin, look, volts, date, note, rated. Columns that are not mapped are looked for under our names and a few usual
 * ones. */
enum { LW_MAP_KEYS = 10 };
typedef struct lw_cell_map {
    char column[LW_MAP_KEYS][LW_WORD]; /* lower case; "" not mapped */
} lw_cell_map;
LW_MUST_CHECK bool lw_cell_map_read(const char *text, lw_cell_map *map, lw_error *err);

typedef struct lw_cell_rows {
    lw_csv csv;
    int column[LW_MAP_KEYS]; /* -1: the file has none */
    lw_cell_record common;
    size_t at, seen_room;
    const char **seen;    /* hash table of the codes so far */
    char taken[LW_NOTE];  /* "code from label, volts from u" */
    char passed[LW_NOTE]; /* names of columns that are not used */
} lw_cell_rows;

/* Bytes of arena that reading needs; 0: longer than 100 MB. */
size_t lw_cell_rows_memory(const char *bytes, size_t length);
/* An error means that the file as a whole cannot be read: no table, no column for the code, a mapped column that is
 * not there. What `common` tells (crate, class, shape, marking, origin, date) holds for rows that do not tell it. */
LW_MUST_CHECK bool lw_cell_rows_open(const char *bytes, size_t length, const lw_cell_map *map,
                                     const lw_cell_record *common, lw_arena *arena, lw_cell_rows *out, lw_error *err);
/* The next row; false after the last. A row that is refused has its reason in *refused, else refused->family is LW_OK.
 * A code that stands twice in the file is refused at its second place. */
bool lw_cell_rows_next(lw_cell_rows *rows, int *line, lw_cell_record *cell, lw_error *refused);

#endif
