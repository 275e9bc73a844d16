/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ANSI/IES LM-63 files of luminous intensity, versions 1986, 1991, 1995, 2002 and 2019: reader and writer.
 *
 * The order of the file and the meaning of its numbers follow the published restatements of the standard; the
 * standard's own text was not at hand (see docs/models/lm63.md). Limits: 4 MiB, lines of 4096 characters, 1000 by 1000
 * angles.
 */
#ifndef LANEWICK_LM63_H
#define LANEWICK_LM63_H

#include "lanewick/arena.h"
#include "lanewick/light.h"

/* Half of the defects' places are kept for fatal ones; the reading ends when all are taken. */
enum { LW_LM63_MAX_BYTES = 4 << 20, LW_LM63_MAX_LINE = 4096, LW_LM63_MAX_ANGLES = 1000, LW_LM63_MAX_DEFECTS = 60 };

typedef enum lw_severity {
    LW_TOLD,   /* accepted as it stands, worth knowing */
    LW_MENDED, /* tolerant mode only: changed so that the file can be used */
    LW_FATAL   /* refused */
} lw_severity;

typedef struct lw_lm63_defect {
    size_t line; /* from 1 */
    lw_severity severity;
    char text[200];
} lw_lm63_defect;

typedef struct lw_lm63 {
    int year; /* 1986, 1991, 1995, 2002, 2019 */
    char version[24];
    double lamps, lumens_per_lamp; /* -1: absolute */
    double multiplier, ballast_factor, middle_number, watts;
    int type;  /* 1 C, 2 B, 3 A */
    bool feet; /* the file's lengths were in feet; those below are in metres */
    double width_m, length_m, height_m;
    lw_intensity table;   /* absolute candela, arrays in the arena; symmetry is valid for type C only */
    double lumens;        /* integrated from the table */
    double stated_lumens; /* lamps times lumens per lamp; -1 when absolute */
    char test[132], luminaire[132];
    lw_lm63_defect defects[LW_LM63_MAX_DEFECTS];
    size_t defect_count, defects_left_out; /* listed; found and not listed */
} lw_lm63;

/* Reads one file held in memory. Strict (tolerant false): a fatal defect makes it fail with an error that names the
 * first one's line; reading goes on where the order of the file allows, so that out->defects lists the others too.
 * Tolerant: what can be mended is mended and listed. Both list what is only told. After a failure only the defects of
 * `out` are of use. */
LW_MUST_CHECK bool lw_lm63_read(const char *bytes, size_t length, bool tolerant, lw_arena *arena, lw_lm63 *out,
                                lw_error *err);

/* Writes a type C table as an LM-63-2019 file with absolute candela, CR LF line ends, lines of at most 132 characters,
 * four significant digits. Planes from 90 to 270 degree are written as the whole circle. note goes to [OTHER] and must
 * say whether the light was measured or computed. The length of the text, which is cut at size (nothing beyond it is
 * written; call again with more room). */
size_t lw_lm63_write(const lw_intensity *table, double watts, const char *luminaire, const char *date_iso,
                     const char *note, char *text, size_t size);

#endif
