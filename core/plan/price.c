/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a piece really costs: see lanewick/price.h.
 */
#include "lanewick/price.h"

#include <stdio.h>
#include <string.h>

enum { MINUTES = 60, WHOLE_PM = 1000 };

lw_price lw_price_blank(const char *name)
{
    lw_price price = {.sold_by = 1, .spares_pm = -1};
    (void)snprintf(price.name, sizeof price.name, "%s", name);
    return price;
}

static int64_t up(int64_t part, int64_t whole)
{
    return (part + whole - 1) / whole;
}

int64_t lw_price_true_minor(const lw_price *price, int64_t wage_minor_per_hour)
{
    /* 60 x 1000 times the cost of one piece stays below 1e10 x 1e3 x (60 + 60 + 600) = 7.2e15 */
    const int64_t sixty =
        MINUTES * (price->price_minor + price->consumables_minor) + price->bench_min * wage_minor_per_hour;
    return up(sixty * WHOLE_PM, (int64_t)MINUTES * (WHOLE_PM - price->loss_pm));
}

int64_t lw_price_pieces(const lw_price *price, int64_t good)
{
    return up(good * WHOLE_PM, WHOLE_PM - price->loss_pm);
}

static char lower(char c)
{
    return (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
}

const lw_price *lw_price_find(const lw_price *list, size_t count, const char *name)
{
    for (size_t i = 0; i < count; i++) {
        size_t k = 0;
        while (list[i].name[k] && lower(list[i].name[k]) == lower(name[k]))
            k++;
        if (lower(list[i].name[k]) == lower(name[k]))
            return &list[i];
    }
    return NULL;
}

/* Digits into *minor; spaces between them are passed over. Returns how many digits, -1: something else is there. */
static int digits(const char **text, int64_t *minor)
{
    int n = 0;
    for (; **text && **text != '.' && **text != ','; (*text)++) {
        if (**text == ' ' && n > 0)
            continue;
        if (**text < '0' || **text > '9' || *minor > lw_price_max_minor)
            return -1;
        *minor = *minor * 10 + (**text - '0');
        n++;
    }
    return n;
}

bool lw_price_read(const char *field, const char *text, int decimals, int64_t *minor, lw_error *err)
{
    const char *at = text;
    *minor = 0;
    const int whole = digits(&at, minor);
    int after = 0;
    if (*at == '.' || *at == ',') {
        at++;
        after = digits(&at, minor);
    }
    if (whole < 0 || after < 0 || whole + after == 0 || *at != '\0')
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s\"; it must be an amount such as 1250 or 12.50.",
                       field, text);
    if (after > decimals)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is %.40s; the currency has %d decimals.", field, text, decimals);
    for (; after < decimals; after++)
        *minor *= 10;
    return *minor <= lw_price_max_minor ||
           lw_fail(err, LW_WRONG_INPUT, field,
                   "%s is %.40s; no piece may cost more than 10 000 000 000 smallest units.", field, text);
}
