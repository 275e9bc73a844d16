/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuses: rating between load and wire, breaking capacity against what a pack delivers, thin wire at single cells.
 */
#ifndef LANEWICK_FUSE_H
#define LANEWICK_FUSE_H

#include "lanewick/error.h"

/* Smallest preferred rating of IEC 60127 (R10 steps, 32 mA to 20 A) that is at least amps; 0 beyond 20 A. */
double lw_fuse_rating_at_least_a(double amps);

/* Part of its rating that a fuse carries at this ambient temperature: 1 up to 25 degC, then 0.5 % per kelvin less
 * (slow thermal types, common practice of fuse makers' guides). */
double lw_fuse_derating(double ambient_c);

typedef struct lw_fuse_choice {
    double least_a; /* 1.25 times the normal current, over the derating */
    double wire_a;  /* what the thinnest wire behind the fuse carries */
    double rating_a;
} lw_fuse_choice;

/* The smallest rating between least_a and wire_a. LW_REFUSED when there is none: the wire would burn before the
 * fuse blows, or the fuse would blow in use. */
LW_MUST_CHECK bool lw_fuse_choose(double normal_a, double ambient_c, double wire_area_mm2, lw_fuse_choice *out,
                                  lw_error *err);

typedef enum lw_fuse_kind { LW_FUSE_GLASS, LW_FUSE_CERAMIC, LW_FUSE_BLADE, LW_FUSE_KIND_COUNT } lw_fuse_kind;
#define LW_FUSE_KIND_WORDS "glass_5x20|ceramic_5x20|blade"

/* Greatest current that a fuse of this kind can break (from memory: IEC 60127-2 low breaking capacity 35 A or ten
 * times its rating, whichever is greater; high breaking capacity 1500 A, stated for a.c., counted here as 300 A at
 * d.c. until its print says more; ISO 8820-3 blade 1000 A at 32 V d.c.). */
double lw_fuse_breaks_a(lw_fuse_kind kind, double rating_a);
/* The greatest rating that guards a wire which carries wire_a for ever: In <= Iz and I2 <= 1.45 Iz (IEC 60364-4-43
 * 433.1, from memory), with I2 the current that surely blows the fuse within half an hour, lw_fuse_conventional() times
 * its rating. */
double lw_fuse_guards_a(lw_fuse_kind kind, double wire_a);
/* I2 over In (from memory): blade 1.35 (ISO 8820-3), 5 x 20 2.1 (IEC 60127-2). */
double lw_fuse_conventional(lw_fuse_kind kind);
double lw_fuse_highest_v(lw_fuse_kind kind); /* d.c. voltage it may stand in, as printed on common parts */

#endif
