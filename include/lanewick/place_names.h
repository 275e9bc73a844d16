/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Finding a place by the name of a climate station near it: data/climate/normals.csv, 14,000 names.
 */
#ifndef LANEWICK_PLACE_NAMES_H
#define LANEWICK_PLACE_NAMES_H

#include <stddef.h>

typedef struct lw_place_name {
    const char *name;    /* "Karup / Midtjyllands Lufthavn"; letters without accents, as weather services write them */
    const char *country; /* ISO 3166-1 alpha-2 */
    double lat_deg, lon_deg;
    double elev_m; /* NAN: unknown */
} lw_place_name;

typedef struct lw_place_names {
    const lw_place_name *rows;
    size_t count;
} lw_place_names;

/* The names that are built into the library, in the order of the alphabet. */
lw_place_names lw_place_names_packed(void);

enum { LW_PLACE_SOUGHT_BYTES = 64 };
/* Text as it is compared: small letters and digits, Latin letters without their accents (UTF-8), anything else one
 * space. Cut at LW_PLACE_SOUGHT_BYTES - 1. */
void lw_place_fold(const char *text, char out[LW_PLACE_SOUGHT_BYTES]);

/* Names with the sought words, at most most of them: first those that begin with it, then those with a word that
 * begins with it, then those that hold it anywhere; within each by the alphabet. 0 for fewer than two letters. */
size_t lw_place_search(const lw_place_names *names, const char *sought, const lw_place_name **out, size_t most);

#endif
