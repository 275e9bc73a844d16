/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether a plan's document is as it was written: no key that a plan does not have, and sums that are those of their
 * own lines. Sheets are drawn from the brief and the seed inside, so that a changed sum would pass unseen.
 */
#include "plan_json.h"

#include "doc.h"

#include <math.h>
#include <string.h>

/* Sums are compared in the smallest unit of the money; a total is written with LW_JSON_DIGITS digits. */
static bool same(double a, double b, double unit)
{
    return fabs(a - b) <= fmax(0.51 * unit, 1e-11 * fabs(a));
}

static void check_parts(lw_doc *cost, double unit)
{
    double sum = 0.0;
    const json_t *parts = json_object_get(cost->object, "parts");
    for (size_t i = 0; i < json_array_size(parts); i++) {
        const json_t *part = json_array_get(parts, i);
        const double count = json_number_value(json_object_get(part, "count"));
        const double each = json_number_value(json_object_get(part, "price"));
        const double together = json_number_value(json_object_get(part, "cost"));
        if (!same(count * each, together, unit))
            lw_doc_fail(cost, "parts", "entry %zu: %.10g x %.10g is not %.10g; plan the lamps again.", i + 1, count,
                        each, together);
        sum += together;
    }
    const double total = json_number_value(json_object_get(cost->object, "total"));
    if (!same(sum, total, unit))
        lw_doc_fail(cost, "total", "is %.10g, but its parts add up to %.10g; plan the lamps again.", total, sum);
}

static void check_bill(lw_doc *cost, double unit)
{
    double sum = 0.0;
    const json_t *bill = json_object_get(cost->object, "bill");
    for (size_t i = 0; i < json_array_size(bill); i++)
        sum += json_number_value(json_object_get(json_array_get(bill, i), "pay"));
    const double to_pay = json_number_value(json_object_get(cost->object, "to_pay"));
    if (!same(sum, to_pay, unit))
        lw_doc_fail(cost, "to_pay", "is %.10g, but the lines of the bill add up to %.10g; plan the lamps again.",
                    to_pay, sum);
}

/* The mean of a lamp is rounded to the smallest unit. */
static void check_each(lw_doc *cost, const json_t *lamps, double unit)
{
    const double count = (double)json_array_size(lamps);
    const double each = json_number_value(json_object_get(cost->object, "per_lamp"));
    const double total = json_number_value(json_object_get(cost->object, "total"));
    if (!same(count * each, total, unit * count))
        lw_doc_fail(cost, "per_lamp", "is %.10g, but %.10g lamps cost %.10g; plan the lamps again.", each, count,
                    total);
    double sum = json_number_value(json_object_get(cost->object, "shared"));
    for (size_t i = 0; i < json_array_size(lamps); i++)
        sum += json_number_value(json_object_get(json_array_get(lamps, i), "cost"));
    if (json_object_get(cost->object, "shared") && !same(sum, total, unit))
        lw_doc_fail(cost, "shared", "and the lamps add up to %.10g, not to the total of %.10g; plan the lamps again.",
                    sum, total);
}

static void know(lw_doc *doc, const char *const *keys, size_t count)
{
    for (size_t i = 0; i < count; i++)
        (void)lw_doc_has(doc, keys[i]);
    (void)lw_doc_done(doc);
}

#define KNOW(doc, keys) know(doc, keys, sizeof(keys) / sizeof(keys)[0])

bool lw_plan_adds_up(const json_t *plan, lw_error *err)
{
    static const char *const of_plan[] = {"format", "program",  "seed",     "name",        "code",
                                          "wish",   "lamps",    "lane",     "options",     "lamps_without_parts",
                                          "cost",   "circuits", "cautions", "left_out",    "climate",
                                          "box",    "refused",  "brief",    "assumptions", "simulated_years"};
    static const char *const of_cost[] = {"total",           "per_lamp", "shared",    "currency",    "decimals",
                                          "not_below",       "parts",    "spares",    "tools",       "to_pay",
                                          "cheapest_proved", "bill",     "lit_night", "bench_hours", "if_price_moves"};
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, plan, "");
    KNOW(&doc, of_plan);
    if (!json_is_object(json_object_get(plan, "cost")))
        return !root.failed; /* refused: nothing to pay */
    lw_doc cost = lw_doc_part(&doc, "cost", true);
    KNOW(&cost, of_cost);
    const double decimals = json_number_value(json_object_get(cost.object, "decimals"));
    const double unit = pow(10.0, -fmin(3.0, fmax(0.0, decimals)));
    check_parts(&cost, unit);
    check_each(&cost, json_object_get(plan, "lamps"), unit);
    check_bill(&cost, unit);
    return !root.failed;
}
