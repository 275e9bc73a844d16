/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Money as whole minor units: see lanewick/money.h.
 */
#include "lanewick/money.h"

#include <math.h>
#include <stdio.h>

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

double lw_money_number(const lw_currency *currency, int64_t minor)
{
    return (double)minor / pow(10.0, currency->decimals);
}
