/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures of light: the lane from above with its lux, a head's intensity, a person under the lamp; and a page of them.
 */
#ifndef LANEWICK_SHEET_LIGHT_H
#define LANEWICK_SHEET_LIGHT_H

#include "lanewick/canvas.h"
#include "lanewick/lane.h"
#include "lanewick/words.h"

/* What the pictures of a lane are drawn from. */
typedef struct lw_lit_lane {
    const lw_field *field;
    const lw_lamp *lamps;
    size_t lamp_count;
    const lw_field_point *points; /* of the grid, their light filled */
    size_t count;
    bool plan_only; /* for those who dig: the edges and every mast with where it looks, no light; points may be none */
} lw_lit_lane;

/* Each picture fills the box (x, y, width, height) of the canvas, millimetres. words: the language; NULL is English. */

/* Masts as numbered dots; bands of lux that grow darker with more light in even steps of lightness (they read in grey
 * and to every colour vision), a line at each edge of a band; numbers in lux at the points of the grid as far as there
 * is room; a bar for the scale. A straight lane too long for the box is cut into rows that stand below one another.
 * All lamps count in the bands. Returns the height used. */
double lw_picture_lane(lw_canvas *canvas, double x, double y, double width, double height, const lw_lit_lane *lane,
                       const lw_words *words);

/* Polar diagram of the intensity in the plane of the street side (full line) and square to it (dashed); the note below
 * says so. */
void lw_picture_intensity(lw_canvas *canvas, double x, double y, double width, double height, const lw_beam *beam,
                          const char *note);

/* The lamp seen from the side, a person of 1.7 m, lux on the ground and on the face in steps of distance. */
void lw_picture_section(lw_canvas *canvas, double x, double y, double width, double height, const lw_lamp *lamp,
                        const lw_words *words);

typedef enum lw_light_show { LW_SHOW_ALL, LW_SHOW_LANE, LW_SHOW_INTENSITY, LW_SHOW_SECTION } lw_light_show;
#define LW_LIGHT_SHOW_WORDS "all|lane|intensity|section"

typedef struct lw_light_page {
    const lw_words *words;
    const char *title, *line; /* line: a sentence of results below the title; both may be "" */
    lw_lit_lane lane;         /* count 0: no lane, only the head */
    const lw_lamp *lamp;      /* whose head and section are drawn */
    bool planes;              /* a file: its planes are named, not the sides of a lane */
    lw_light_show show;
} lw_light_page;

/* One page (PNG at 150 dots per inch) of the pictures asked for. The bytes belong to the caller. */
LW_MUST_CHECK bool lw_light_page_draw(const lw_light_page *page, lw_paper paper, unsigned char **bytes, size_t *length,
                                      lw_error *err);

#endif
