/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What draws on the pack: the head through its driver by a schedule between dusk and dawn, dimming as the pack
 * empties, standby, other loads. docs/models/load.md.
 */
#ifndef LANEWICK_LOAD_H
#define LANEWICK_LOAD_H

#include "lanewick/error.h"
#include "lanewick/units.h"

#include <stdbool.h>
#include <stddef.h>

typedef enum lw_driver_kind {
    LW_DRIVER_CONSTANT_POWER, /* head_w / efficiency at any pack voltage */
    LW_DRIVER_BUCK,  /* the same above head_v + dropout_v; below, light falls in a straight line to 0 at 0.8 head_v */
    LW_DRIVER_BOOST, /* the same; the head's voltage must be above the full pack's */
    LW_DRIVER_CONSTANT_CURRENT, /* linear regulator: head_w / head_v amperes from the pack; falls as buck below its
                                   drop-out */
    LW_DRIVER_RESISTOR          /* (V - 0.8 head_v) / R with head_w reached at reference_v */
} lw_driver_kind;

typedef struct lw_driver {
    lw_driver_kind kind;
    double efficiency;  /* power, buck, boost: 0.88 */
    double head_v;      /* forward voltage of the head at full power; not used by constant power */
    double dropout_v;   /* buck, constant current */
    double reference_v; /* resistor: pack voltage at which the head takes head_w */
} lw_driver;

typedef enum lw_moment_kind {
    LW_AT_DUSK,
    LW_AT_DAWN,
    LW_AT_CLOCK,       /* local time [h], 0..24 */
    LW_AT_NIGHT_SHARE, /* 0 dusk .. 1 dawn */
    LW_AFTER_DUSK,     /* [h] */
    LW_BEFORE_DAWN     /* [h] */
} lw_moment_kind;
typedef struct lw_moment {
    lw_moment_kind kind;
    double value;
} lw_moment;

/* "dusk", "dusk+3.5h", "dawn-1h", "22:30", "50%" */
void lw_moment_text(const lw_moment *moment, char *out, size_t size);
/* The same back; false: it is none of these. */
LW_MUST_CHECK bool lw_moment_from_text(const char *text, lw_moment *out);

enum { LW_MAX_SPANS = 12, LW_MAX_DIMS = 4, LW_MAX_OTHER = 6 };
/* From one moment to another of the same night (noon to noon), cut to the dark hours. */
typedef struct lw_span {
    lw_moment from, until;
    double level; /* share of head_w, 0..1 */
} lw_span;

/* Below this share of charge the light is turned down to this factor. */
typedef struct lw_dim {
    double below_share, factor;
} lw_dim;

typedef struct lw_other_load {
    char name[40];
    double power_w;
    bool always;            /* else from..until of the clock */
    double from_h, until_h; /* local clock, may pass midnight */
} lw_other_load;

typedef struct lw_load {
    double head_w; /* power of the head at full light */
    lw_driver driver;
    int span_count; /* 0: full light from dusk to dawn */
    lw_span spans[LW_MAX_SPANS];
    int dim_count;
    lw_dim dims[LW_MAX_DIMS];    /* rising below_share */
    bool dimmed_counts_missing;  /* true: light lost by dimming counts as missing; false: it is what was agreed */
    double standby_w, standby_a; /* always; the ampere form is for packs of cells */
    int other_count;
    lw_other_load others[LW_MAX_OTHER];
    double dusk_altitude_deg; /* the lamp is on while the sun's centre is below; -0.833 is sunset */
    int dusk_midpoints;       /* 0: exact; n: n midpoints an hour, as a coarse simulation would do */
    double dusk_offset_min;   /* lamp on this much later at dusk and off this much earlier at dawn (negative: longer) */
    double dusk_scatter_min;  /* one standard deviation of the switch's threshold, from lamp to lamp */
} lw_load;
/* "dusk 22:30 1; 22:30 dawn 0.35": from, to and level of each span. LW_WRONG_INPUT names field. */
LW_MUST_CHECK bool lw_spans_from_text(const char *text, const char *field, lw_span *out, size_t room, size_t *count,
                                      lw_error *err);
lw_load lw_load_default(void);

/* Whole schedule in sense: moments in range, levels 0..1. Overlaps are found when nights are known. */
LW_MUST_CHECK bool lw_load_check(const lw_load *load, lw_error *err);
/* A night's dark part, in hours from the midnight before its noon (12..36); dusk == dawn: no dark. */
typedef struct lw_dark_part {
    double dusk_h, dawn_h;
} lw_dark_part;
/* The 365 nights from the share of each hour that is dark, with the switch's offset. */
void lw_load_nights(const lw_load *load, const double dark_share[LW_HOURS], lw_dark_part nights[LW_DAYS]);
/* level_h[8760 x steps]: hours x level of full light in each step, steps_per_hour of them an hour (1..12).
 * Overlapping spans: LW_WRONG_INPUT naming both and the night. */
LW_MUST_CHECK bool lw_load_levels(const lw_load *load, const lw_dark_part nights[LW_DAYS], int steps_per_hour,
                                  double *level_h, lw_error *err);
/* Power of the other loads in each hour of the clock [W], mean over the hour. */
void lw_load_other_w(const lw_load *load, double power_w[24]);

/* What the head with its driver takes from the pack at a pack voltage v, at full level:
 * s = clamp((v - zero_v) / (full_v - zero_v), 0, most); current = s (power_w / v + current_a); light = min(s, 1). */
typedef struct lw_draw {
    double power_w, current_a, zero_v, full_v, most;
} lw_draw;
lw_draw lw_load_draw(const lw_load *load);

#endif
