/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings put together, and what a crate teaches about one of its cells: see lanewick/verdict.h.
 */
#include "lanewick/verdict.h"

#include <math.h>

static const double least_spread = 0.2; /* of the mean, where fewer than FEW cells tell it */
enum { FEW = 5 };

bool lw_estimate_from(const double *value, const double *sd, size_t n, const lw_estimate *prior, lw_estimate *out,
                      lw_error *err)
{
    *out = (lw_estimate){0};
    double weight = 0.0, sum = 0.0;
    for (size_t i = 0; i < n; i++) {
        if (!(sd[i] > 0.0) || !isfinite(value[i]) || !isfinite(sd[i]))
            return lw_fail(err, LW_WRONG_INPUT, "sds",
                           "Reading %zu is %g with a standard uncertainty of %g; that must be "
                           "more than 0.",
                           i + 1, value[i], sd[i]);
        weight += 1.0 / (sd[i] * sd[i]);
        sum += value[i] / (sd[i] * sd[i]);
    }
    if (n == 0 && !prior)
        return lw_fail(err, LW_WRONG_INPUT, "values", "There is no reading and nothing known beforehand.");
    if (n == 0) {
        *out = (lw_estimate){prior->value, prior->sd, 0};
        return true;
    }
    const double mean = sum / weight;
    double chi2 = 0.0;
    for (size_t i = 0; i < n; i++)
        chi2 += (value[i] - mean) * (value[i] - mean) / (sd[i] * sd[i]);
    const double birge = n > 1 ? fmax(1.0, chi2 / (double)(n - 1)) : 1.0;
    weight /= birge;
    const lw_estimate known = prior ? *prior : (lw_estimate){0};
    const double before = known.sd > 0.0 ? 1.0 / (known.sd * known.sd) : 0.0;
    out->value = (mean * weight + known.value * before) / (weight + before);
    out->sd = 1.0 / sqrt(weight + before);
    out->tests = (int)n;
    return true;
}

bool lw_estimate_of_crate(const lw_estimate *cells, size_t n, lw_estimate *out, lw_error *err)
{
    *out = (lw_estimate){0};
    double w1 = 0.0, w2 = 0.0, sum = 0.0;
    for (size_t i = 0; i < n; i++) {
        if (!(cells[i].sd > 0.0))
            return lw_fail(err, LW_WRONG_INPUT, "sds",
                           "Cell %zu has a standard uncertainty of %g; it must be more than 0.", i + 1, cells[i].sd);
        const double w = 1.0 / (cells[i].sd * cells[i].sd);
        w1 += w;
        w2 += w * w;
        sum += w * cells[i].value;
    }
    if (n == 0)
        return lw_fail(err, LW_WRONG_INPUT, "values", "There are no cells to learn from.");
    double mean = sum / w1, chi2 = 0.0;
    for (size_t i = 0; i < n; i++)
        chi2 += (cells[i].value - mean) * (cells[i].value - mean) / (cells[i].sd * cells[i].sd);
    double between = n > 1 ? fmax(0.0, (chi2 - (double)(n - 1)) / (w1 - w2 / w1)) : 0.0;
    if (n < FEW)
        between = fmax(between, least_spread * mean * least_spread * mean);
    w1 = sum = 0.0;
    for (size_t i = 0; i < n; i++) {
        const double w = 1.0 / (cells[i].sd * cells[i].sd + between);
        w1 += w;
        sum += w * cells[i].value;
    }
    mean = sum / w1;
    *out = (lw_estimate){mean, sqrt(between + 1.0 / w1), 0};
    return true;
}
