/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a cell is worth: all its tests put together with what the rest of the crate teaches, a verdict with reasons, and
 * the next test that would settle an open question. docs/models/cell-verdict.md.
 */
#ifndef LANEWICK_VERDICT_H
#define LANEWICK_VERDICT_H

#include "lanewick/cell_test.h"

/* --- putting readings together -------------------------------------------------------------------------------- */

/* A quantity with its standard uncertainty; tests: how many of the cell's own readings stand behind it. */
typedef struct lw_estimate {
    double value, sd;
    int tests;
} lw_estimate;

/* Mean of n readings weighted by 1/sd^2. Readings that scatter more than they should widen the result (Birge 1932,
 * Phys. Rev. 40, 207: by the root of chi^2 / (n - 1)). prior, may be NULL, counts as one more, independent reading.
 * With n = 0 the result is the prior. Errors: sd not above 0, nothing given. */
LW_MUST_CHECK bool lw_estimate_from(const double *value, const double *sd, size_t n, const lw_estimate *prior,
                                    lw_estimate *out, lw_error *err);

/* What cells of one marking teach about another one: their mean and how far true values lie apart (DerSimonian and
 * Laird 1986, Control. Clin. Trials 7, 177), widened by how well the mean is known. Below 5 cells the spread is taken
 * as at least a fifth of the mean. n >= 1. */
LW_MUST_CHECK bool lw_estimate_of_crate(const lw_estimate *cells, size_t n, lw_estimate *out, lw_error *err);

/* --- grading -------------------------------------------------------------------------------------------------- */

typedef enum lw_rule_id {
    LW_RULE_CONFIDENCE,
    LW_RULE_CAPACITY_SCRAP_SHARE,
    LW_RULE_CAPACITY_TIRED_SHARE,
    LW_RULE_CAPACITY_SCRAP_AH,
    LW_RULE_CAPACITY_TIRED_AH,
    LW_RULE_RESISTANCE_SCRAP_RATIO,
    LW_RULE_RESISTANCE_TIRED_RATIO,
    LW_RULE_RESISTANCE_SCRAP_OHM,
    LW_RULE_REST_24H_V,
    LW_RULE_LEAK_SCRAP_MV_DAY,
    LW_RULE_LEAK_TIRED_MV_DAY,
    LW_RULE_REPEAT_DIFFERENCE_PCT,
    LW_RULE_AGE_YEARS,
    LW_RULE_COUNT
} lw_rule_id;

typedef struct lw_rule {
    const char *name;
    double value;
    const char *unit, *meaning, *source;
} lw_rule;
typedef struct lw_grading {
    lw_rule rules[LW_RULE_COUNT];
} lw_grading;
extern const lw_grading lw_grading_default; /* data/grading/rules.csv */
/* Volts that a sound cell still has 24 h after a full charge: the rule's, which is said of 4.20 V, as far below another
 * full voltage. A class with a flat part (LFP) rests little above that part even when full: its upper end. */
double lw_hold_least_v(const lw_test_class *class, const lw_grading *grading);

typedef enum lw_verdict { LW_SOUND, LW_TIRED, LW_UNSURE, LW_SCRAP } lw_verdict;
const char *lw_verdict_text(lw_verdict verdict);

/* What was seen and found; all false and not given: nothing noted. */
typedef struct lw_cell_facts {
    const lw_test_class *class; /* NULL: unknown class */
    bool dent, rust, leak, swollen, smell, damaged_top, torn_wrap, open_circuit;
    bool hot_on_charge; /* above 45 degC, or 10 K above the air at 0.5 C or less */
    bool no_taper;      /* the charging current does not fall within 6 h, or more than 1.2 capacities went in */
    bool recovered;     /* found between 2.0 and 2.5 V and brought to 3.0 V within 60 min at 0.05 C, attended */
    lw_reading found_v;
    lw_reading rated_ah, age_years;
    lw_estimate capacity_ah;      /* tests 0 and sd 0: nothing known; tests 0 and sd > 0: from the crate alone */
    double repeat_difference_pct; /* between its capacity tests; 0 with fewer than two */
    lw_estimate resistance_ohm;   /* 10 s d.c. */
    double median_ohm;            /* of the same marking in the crate; 0: not known */
    lw_reading rest_24h_v;        /* 24 h after a full charge to the class's end */
    lw_estimate leak_mv_day;      /* tests 0: not tested */
} lw_cell_facts;

typedef enum lw_bench_test {
    LW_TEST_NONE,
    LW_TEST_LOOK,
    LW_TEST_RECOVERY,
    LW_TEST_RESISTANCE,
    LW_TEST_CAPACITY,
    LW_TEST_HOLD,
    LW_TEST_LEAK,
    LW_TEST_COUNT
} lw_bench_test;
typedef struct lw_bench_cost {
    const char *name, *what; /* what to do, one sentence */
    double minutes;          /* of a person */
    double hours;            /* until the answer */
    bool charge;             /* needs a full charge */
} lw_bench_cost;
const lw_bench_cost *lw_bench_cost_of(lw_bench_test test);

typedef struct lw_reason {
    const char *text, *source;
} lw_reason;
enum { LW_MAX_REASONS = 12 };
typedef struct lw_judgement {
    lw_verdict verdict;
    lw_reason reasons[LW_MAX_REASONS]; /* at least one */
    size_t reason_count;
    lw_bench_test next;  /* for unsure: the test that settles it for the least bench time */
    double next_settles; /* chance that this test decides its question */
    lw_reading health;   /* capacity over rated, only where the rated capacity is known */
    double scrap_chance; /* by capacity, 0..1 */
} lw_judgement;

/* Never fails: what is not known makes the cell unsure. */
void lw_judge_cell(const lw_cell_facts *facts, const lw_grading *grading, lw_judgement *out);

/* --- the bench ------------------------------------------------------------------------------------------------ */

typedef struct lw_bench {
    int resistors; /* discharges at once */
    double load_ohm;
    int slots;         /* charges at once */
    double charge_a;   /* of each slot */
    double sun_wh_day; /* what the panels give the bench; 0: no limit */
    double hours_day;  /* attended */
} lw_bench;
typedef struct lw_bench_days {
    int days;                     /* until the last capacity is read */
    double per_day;               /* cells a day in the long run */
    double energy_wh;             /* all charges */
    const char *bottleneck;       /* charging slots, sun, resistors */
    double charge_h, discharge_h; /* of a usual cell */
} lw_bench_days;
/* Capacity tests of a crate: each cell is charged on one day, rested overnight and discharged the next. capacity_ah: of
 * the cells in the order in which they come; charge_day[i], day[i] (may be NULL): the days of its charge and of the
 * reading of its capacity, from 1. */
LW_MUST_CHECK bool lw_bench_plan(const double *capacity_ah, size_t n, const lw_bench *bench, const lw_test_class *class,
                                 int *charge_day, int *day, lw_bench_days *out, lw_error *err);

/* Order for the bench: first the cells most likely to be usable, so that the first lamps come early. order[n]. */
void lw_bench_order(const lw_judgement *cells, size_t n, size_t *order);

#endif
