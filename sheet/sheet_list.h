/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every sheet, each defined in its own sheet_NAME.c, and small helpers that several share.
 */
#ifndef LANEWICK_SHEET_LIST_H
#define LANEWICK_SHEET_LIST_H

#include "lanewick/sheets.h"
#include "lanewick/strip_board.h"

extern const lw_sheet_kind lw_sheet_summary;
extern const lw_sheet_kind lw_sheet_handover;
extern const lw_sheet_kind lw_sheet_calendar;
extern const lw_sheet_kind lw_sheet_rounds;
extern const lw_sheet_kind lw_sheet_market;
extern const lw_sheet_kind lw_sheet_jigs;
extern const lw_sheet_kind lw_sheet_build;
extern const lw_sheet_kind lw_sheet_pack;
extern const lw_sheet_kind lw_sheet_test;
extern const lw_sheet_kind lw_sheet_labels;
extern const lw_sheet_kind lw_sheet_head_board;
extern const lw_sheet_kind lw_sheet_wiring;
extern const lw_sheet_kind lw_sheet_dusk;
extern const lw_sheet_kind lw_sheet_charging;
extern const lw_sheet_kind lw_sheet_mast;
extern const lw_sheet_kind lw_sheet_lane;

/* The lamp from the side, to scale, with a person of 1.7 m. */
void lw_sheet_portrait(lw_sheet *sheet, const lw_plan *plan, const lw_plan_kind *kind, double height_mm);

/* Every cell of a pack from above and from below, with its strips, sense wires and leads. */
void lw_sheet_pack_picture(lw_sheet *sheet, int series, int parallel);

/* Resistor of the discharge jig. */
static const double lw_jig_ohm = 3.9;

/* Raising the masts of a plan: the most that any of them asks; 0: none was checked. */
typedef struct lw_sheet_raising {
    int people;    /* at the pole */
    double line_m; /* foot to an overhead line up to 50 kV */
} lw_sheet_raising;
lw_sheet_raising lw_sheet_raising_of(const lw_plan *plan);
/* The step before anybody digs; line_m 0: no mast was checked. */
const char *lw_sheet_look_up(const lw_sheet *sheet, double line_m, char *out, size_t size);
/* The step itself, and the caution that always stands before it. */
const char *lw_sheet_raise_text(const lw_sheet *sheet, const lw_plan_mast *mast, char *out, size_t size);
void lw_sheet_raise_caution(lw_sheet *sheet);

/* As lw_plan_kind_name, where a lamp without a name is called one in the person's language. */
const char *lw_sheet_kind_name(const lw_sheet *sheet, const lw_plan *plan, size_t i, char *out, size_t size);
/* At the top of a sheet, where the shelf has no parts left for some lamps. */
void lw_sheet_not_built(lw_sheet *sheet, const lw_plan *plan);
/* When the lamps give light and how much, as the plan has it: hours, levels, lumens, dimming of a low pack. */
void lw_sheet_hours(lw_sheet *sheet, const lw_plan *plan);
/* What else the packs feed, under its heading; returns the number of lines, 0: nothing and no heading. */
size_t lw_sheet_loads(lw_sheet *sheet, const lw_plan *plan);
/* For the bench: that fuse and lead count these loads, and what of them is not planned. */
void lw_sheet_load_cautions(lw_sheet *sheet, const lw_sheet_input *input);
/* "east (90 degrees from north, clockwise)" */
const char *lw_sheet_facing(const lw_sheet *sheet, double facing_deg, char *out, size_t size);
/* The line with the price of one lit night, in the currency's decimals. */
void lw_sheet_lit_night(lw_sheet *sheet, const lw_currency *currency, const lw_bill *bill);

/* A strip board at true size, and beside it larger with names. */
void lw_sheet_strip_board(lw_sheet *sheet, const lw_strip_board *board);

/* The circuit of a dusk switch; test points A and B stand at it. */
void lw_sheet_switch_circuit(lw_sheet *sheet, lw_switch_sensor sensor);

/* What is joined to what, with the test points, at sheet->y. */
void lw_sheet_wiring_picture(lw_sheet *sheet, const lw_sheet_input *input);

/* Plan, date, page and a bar on a page of labels, outside of its labels. */
void lw_sheet_label_frame(lw_sheet *sheet, const lw_label_grid *grid);

/* Name of a kind of lamp; one without a name of its own is told in the sheet's language. */
const char *lw_sheet_lamp(const lw_sheet *sheet, const lw_plan *plan, const lw_plan_kind *kind);

/* Place of a cell (from 0) in a group (from 0) as it is spoken of: "2C". */
const char *lw_cell_place(char *out, size_t size, int group, int cell);

/* "20 W panel, 3 x 4 cells" in the sheet's language. */
const char *lw_sheet_design(const lw_sheet *sheet, const lw_shelf *shelf, const lw_design *design, char *out,
                            size_t size);

/* A text of the person's language with values in it, in a buffer of the caller. */
const char *lw_sheet_format(char *out, size_t size, const char *format, ...) __attribute__((format(printf, 3, 4)));
/* Short for lw_say of the sheet's language; texts marked so are found by scripts/words. */
#define SAY(text) lw_say(sheet->words, text)

#endif
