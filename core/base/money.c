/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Money as whole minor units: see lanewick/money.h.
 */
#include "lanewick/money.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

char *lw_money_text(const lw_currency *currency, int64_t minor, char *out, size_t size)
{
    int64_t scale = 1;
    for (int i = 0; i < currency->decimals; i++)
        scale *= 10;
    const int64_t size_of_it = minor < 0 ? -minor : minor;
    int64_t whole = size_of_it / scale;
    /* Digits from the right, a space after every third. */
    char reversed[40], digits[40];
    size_t n = 0, count = 0;
    do {
        if (count > 0 && count % 3 == 0)
            reversed[n++] = ' ';
        reversed[n++] = (char)('0' + whole % 10);
        whole /= 10;
        count++;
    } while (whole > 0);
    for (size_t i = 0; i < n; i++)
        digits[i] = reversed[n - 1 - i];
    digits[n] = '\0';
    const char *sign = minor < 0 ? "-" : "";
    char after[8] = "";
    int64_t rest = size_of_it % scale;
    for (int i = currency->decimals < 3 ? currency->decimals : 3; i > 0; i--, rest /= 10) {
        after[i] = (char)('0' + rest % 10);
        after[0] = '.';
    }
    (void)snprintf(out, size, "%s %s%s%s", currency->text, sign, digits, after);
    return out;
}

char *lw_money_joined(const lw_currency *currency, int64_t minor, char *out, size_t size)
{
    static const char no_break[] = "\xc2\xa0";
    char plain[80];
    size_t n = 0;
    (void)lw_money_text(currency, minor, plain, sizeof plain);
    for (const char *at = plain; *at && n + sizeof no_break < size; at++) {
        if (*at != ' ') {
            out[n++] = *at;
            continue;
        }
        out[n++] = no_break[0];
        out[n++] = no_break[1];
    }
    if (size > 0)
        out[n] = '\0';
    return out;
}

char *lw_money_digits(const lw_currency *currency, int64_t minor, char *out, size_t size)
{
    const lw_currency bare = {.decimals = currency->decimals};
    char joined[80];
    (void)lw_money_joined(&bare, minor, joined, sizeof joined);
    (void)snprintf(out, size, "%s", joined + 2); /* behind the space that follows the currency */
    return out;
}

double lw_money_number(const lw_currency *currency, int64_t minor)
{
    return (double)minor / pow(10.0, currency->decimals);
}

static int64_t whole_unit(const lw_currency *currency)
{
    int64_t units = 1;
    for (int i = 0; i < currency->decimals; i++)
        units *= 10;
    return units;
}

int64_t lw_money_nearest(const lw_currency *currency, double units)
{
    return llround(units * (double)whole_unit(currency));
}

/* minor x times / parts, rounded up; -1 beyond the most that a price may be. times and parts: 1..lw_price_max_minor. */
static int64_t scaled(int64_t minor, int64_t times, int64_t parts)
{
    const int64_t whole = minor / parts, rest = minor % parts; /* rest x times may only be large when parts is */
    if (whole > lw_price_max_minor / times || (rest > 0 && times > INT64_MAX / rest))
        return -1;
    const int64_t out = whole * times + (rest * times + parts - 1) / parts;
    return out > lw_price_max_minor ? -1 : out;
}

int64_t lw_money_changed(int64_t minor, const lw_currency *from, const lw_currency *to, const lw_rate *rate)
{
    if (strcmp(from->text, to->text) == 0)
        return scaled(minor, whole_unit(to), whole_unit(from));
    if (!rate || rate->minor < 1)
        return -1;
    if (strcmp(rate->of.text, from->text) == 0 && strcmp(rate->in.text, to->text) == 0) {
        const int64_t told = scaled(minor, rate->minor, whole_unit(from)); /* in the decimals of the rate */
        return told < 0 ? -1 : scaled(told, whole_unit(to), whole_unit(&rate->in));
    }
    if (strcmp(rate->of.text, to->text) == 0 && strcmp(rate->in.text, from->text) == 0) {
        const int64_t told = scaled(minor, whole_unit(&rate->in), whole_unit(from));
        return told < 0 ? -1 : scaled(told, whole_unit(to), rate->minor);
    }
    return -1;
}
