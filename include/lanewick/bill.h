/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bill of a plan: what goes into the lamps, what is kept as spares, which tools are needed, what the shelf covers,
 * what must be bought and where; and what changes when a price moves. Exact sums in the currency's smallest unit.
 */
#ifndef LANEWICK_BILL_H
#define LANEWICK_BILL_H

#include "lanewick/plan.h"
#include "lanewick/price.h"

enum { LW_BILL_LINES = LW_PLAN_PARTS + LW_SHELF_PRICES, LW_BILL_MOVES = 2 * (LW_PLAN_PARTS + 1) };

/* Names of parts that no list of the shelf holds: of the mast, and a dusk switch made by hand. */
extern const char lw_part_cement[], lw_part_fixings[], lw_part_sand[], lw_part_stones[], lw_part_plate[],
    lw_part_anchors[], lw_part_switch[];
/* Whether the plan itself gave a part this name: such names are said in the person's language. */
bool lw_part_is_own(const char *name);

typedef struct lw_bill_line {
    lw_price price;        /* of the shelf's list, or what the shelf itself says */
    int64_t lamps, spares; /* good pieces; tools: one in `lamps` */
    int64_t wanted;        /* pieces to bring together, those that are lost among them */
    int64_t covered, buy;  /* of these at hand; to buy, in whole purchases */
    int64_t good_minor;    /* true cost of one good piece */
    int64_t pay_minor;     /* for what is bought */
} lw_bill_line;

typedef struct lw_bill {
    lw_bill_line line[LW_BILL_LINES]; /* parts in the order of the plan, then tools */
    size_t count;
    int lamps;
    int64_t lamps_minor, spares_minor, tools_minor; /* at true cost */
    int64_t shared_minor; /* of lamps_minor: the cement, in whole bags for all masts; in no lamp's own price */
    int shared_bags;
    int64_t pay_minor; /* to take to the shops */
    int64_t bench_min; /* work at the bench until all lamps and spares are ready */
    double lit_nights; /* of all lamps over the planned years */
    double lit_night;  /* cost of lamps and spares for one of them, whole units; NAN: none */
} lw_bill;

/* The true cost of each part of the list goes into the shelf: called once when a brief has been read. Returns the name
 * of a part whose true cost passes lw_price_max_minor, NULL when none does. */
const char *lw_shelf_true_costs(lw_shelf *shelf);

/* Of a plan that is not refused. */
void lw_bill_of(const lw_plan *plan, lw_bill *out);

typedef struct lw_price_move {
    char name[LW_PRICE_NAME]; /* the part; "" for the hour at the bench */
    int percent;              /* its price is so much higher */
    int64_t stays_minor;      /* all lamps when the designs stay */
    int64_t best_minor;       /* all lamps when the cheapest of the plan's alternatives are taken then */
    bool changes;             /* other designs are cheaper then */
    size_t other_kind;        /* the first of them: kind of lamp in brief.want.lamp, and its design */
    lw_design other;
} lw_price_move;

/* All parts of the plan at the true costs of another shelf, found by name. */
int64_t lw_plan_parts_minor(const lw_plan *plan, const lw_shelf *shelf);

typedef struct lw_moves_work { /* room for lw_bill_moves, about 150 kB */
    lw_shelf shelf;
    lw_candidate candidate[LW_BRIEF_KINDS][LW_PLAN_OPTIONS];
    lw_choice_kind kind[LW_BRIEF_KINDS];
    lw_choice choice;
} lw_moves_work;

/* Each part that costs something, and the wage, 10 and 50 percent dearer; the shelf's counts still hold. Looks among
 * the plan's alternatives (lw_plan.option), not among all designs. Returns how many. */
size_t lw_bill_moves(const lw_plan *plan, lw_moves_work *work, lw_price_move out[LW_BILL_MOVES]);

#endif
