/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The price list of a brief's shelf: what more is known of a part than its price, tools, the wage at the bench.
 */
#include "brief_read.h"

#include "lanewick/bill.h"

#include <math.h>
#include <string.h>

enum { MOST_PIECES = 1000000 };

static int read_tenths(lw_doc *doc, const char *key, double high, double per_unit, int fallback)
{
    if (!lw_doc_has(doc, key))
        return fallback;
    const double x = lw_doc_number(doc, key, 0.0, high, "") * per_unit;
    if (fabs(x - round(x)) > 1e-6)
        lw_doc_fail(doc, key, "has more decimals than the %g that are counted.", log10(per_unit));
    return (int)lround(x);
}

/* Two digits, or -1. */
static int two(const char *text)
{
    const bool digits = text[0] >= '0' && text[0] <= '9' && text[1] >= '0' && text[1] <= '9';
    return digits ? 10 * (text[0] - '0') + text[1] - '0' : -1;
}

static bool is_day(const char *date)
{
    if (strlen(date) != 10 || date[4] != '-' || date[7] != '-' || two(date) < 0 || two(date + 2) < 0)
        return false;
    const int month = two(date + 5), day = two(date + 8);
    return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

static void read_date(lw_doc *doc, char date[12])
{
    lw_doc_text(doc, "date", "", date, 12);
    if (date[0] && !is_day(date))
        lw_doc_fail(doc, "date", "is \"%s\"; it must be a day such as 2026-11-02.", date);
}

void lw_brief_read_prices(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "prices", 0, LW_SHELF_PRICES);
    out->wage_minor = lw_brief_read_price_or(shelf, "wage_per_hour", &out->currency);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "prices", list, i);
        lw_price *price = &out->price[out->price_count];
        *price = lw_price_blank("");
        lw_doc_text(&doc, "name", NULL, price->name, sizeof price->name);
        if (!doc.root->failed && lw_price_find(out->price, out->price_count, price->name))
            lw_doc_fail(&doc, "name", "is \"%s\", which stands in the list twice.", price->name);
        out->price_count++;
        lw_doc_text(&doc, "shop", "", price->shop, sizeof price->shop);
        read_date(&doc, price->date);
        lw_doc_text(&doc, "told_as", "", price->told_as, sizeof price->told_as);
        price->tool = lw_doc_flag_or(&doc, "tool", false, NULL);
        price->priced = lw_doc_has(&doc, "price") || price->tool;
        price->price_minor = lw_brief_read_price_or(&doc, "price", &out->currency);
        price->consumables_minor = lw_brief_read_price_or(&doc, "consumables", &out->currency);
        price->bench_min = lw_doc_integer_or(&doc, "bench_min", 0, LW_PRICE_BENCH, (lw_doc_or){0.0, "min", NULL});
        price->loss_pm = read_tenths(&doc, "loss_pct", LW_PRICE_LOSS / 10.0, 10.0, 0);
        price->at_hand = lw_doc_integer_or(&doc, "at_hand", 0, MOST_PIECES, (lw_doc_or){0.0, "pieces", NULL});
        price->sold_by = lw_doc_integer_or(&doc, "sold_by", 1, 10000, (lw_doc_or){1.0, "pieces", NULL});
        price->spares_pm = read_tenths(&doc, "spares_a_year", 100.0, 1000.0, -1);
        (void)lw_doc_done(&doc);
    }
    const char *dear = shelf->root->failed ? NULL : lw_shelf_true_costs(out);
    if (dear)
        lw_doc_fail(shelf, "prices",
                    "make one good piece of \"%s\" dearer than the 10 000 000 000 smallest units that are counted.",
                    dear);
}
