/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Errors as values: see lanewick/error.h.
 */
#include "lanewick/error.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static const struct {
    const char *text;
    int exit_code, http;
    const char *problem;
} families[] = {
#define LW_FAMILY_ROW(name, text, exit_code, http, problem) {text, exit_code, http, problem},
    LW_FAMILIES(LW_FAMILY_ROW)
#undef LW_FAMILY_ROW
};

bool lw_fail(lw_error *err, lw_family family, const char *field, const char *format, ...)
{
    if (!err || err->family != LW_OK)
        return false;
    err->family = family;
    (void)snprintf(err->field, sizeof err->field, "%s", field ? field : "");
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(err->message, sizeof err->message, format, arguments);
    va_end(arguments);
    return false;
}

bool lw_in_range(lw_error *err, const char *field, double value, double low, double high, const char *unit)
{
    if (isfinite(value) && value >= low && value <= high)
        return true;
    const char *gap = unit && unit[0] ? " " : "";
    const char *name = unit ? unit : "";
    if (!isfinite(value))
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is not a number; give a value from %g to %g%s%s.", field, low,
                       high, gap, name);
    return lw_fail(err, LW_WRONG_INPUT, field, "%s is %g%s%s; it must lie between %g and %g%s%s.", field, value, gap,
                   name, low, high, gap, name);
}

bool lw_all_in_range(lw_error *err, const char *field, const double *values, size_t n, double low, double high,
                     const char *unit)
{
    for (size_t i = 0; i < n; i++) {
        if (isfinite(values[i]) && values[i] >= low && values[i] <= high)
            continue;
        char name[64];
        (void)snprintf(name, sizeof name, "%s[%zu]", field, i + 1);
        return lw_in_range(err, name, values[i], low, high, unit);
    }
    return true;
}

const char *lw_family_text(lw_family family)
{
    return families[family].text;
}

int lw_family_exit_code(lw_family family)
{
    return families[family].exit_code;
}

int lw_family_http_status(lw_family family)
{
    return families[family].http;
}

const char *lw_family_problem(lw_family family)
{
    return families[family].problem;
}
