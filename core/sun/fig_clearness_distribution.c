/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure clearness_distribution: two published distributions of daily clearness for a monthly mean.
 */
#include "lanewick/figure.h"

#include <math.h>

enum { CLEARNESS, DAY_CLEARNESS };
static const lw_input inputs[] = {
    [CLEARNESS] = {"clearness", "", "monthly mean clearness index", LW_NUMBER, 0.2, 0.75, NULL, NULL, 0, 0},
    [DAY_CLEARNESS] = {"day_clearness", "", "clearness of a day", LW_NUMBER, 0, 0.9, NULL, "0.25", 0, 0},
};

enum {
    HH_LAMBDA,
    HH_C,
    HH_MEAN,
    HH_DAY_SD,
    HH_SHARE_BELOW,
    BENDT_GAMMA,
    BENDT_HIGHEST,
    BENDT_MEAN,
    BENDT_DAY_SD,
    BENDT_SHARE_BELOW
};
static const lw_output outputs[] = {
    [HH_LAMBDA] = {"hollands_huget_lambda", "", "parameter lambda", LW_NUMBER},
    [HH_C] = {"hollands_huget_c", "", "parameter C", LW_NUMBER},
    [HH_MEAN] = {"hollands_huget_mean", "", "mean that the distribution gives back", LW_NUMBER},
    [HH_DAY_SD] = {"hollands_huget_day_sd", "", "standard deviation of its days", LW_NUMBER},
    [HH_SHARE_BELOW] = {"hollands_huget_share_below", "", "share of days below day_clearness", LW_NUMBER},
    [BENDT_GAMMA] = {"bendt_gamma", "", "parameter gamma", LW_NUMBER},
    [BENDT_HIGHEST] = {"bendt_highest", "", "highest clearness of a day", LW_NUMBER},
    [BENDT_MEAN] = {"bendt_mean", "", "mean that the distribution gives back", LW_NUMBER},
    [BENDT_DAY_SD] = {"bendt_day_sd", "", "standard deviation of its days", LW_NUMBER},
    [BENDT_SHARE_BELOW] = {"bendt_share_below", "", "share of days below day_clearness", LW_NUMBER},
};

/* Mean, standard deviation and share below at, of a density given by shape and parameters, by Simpson's rule. */
typedef struct density {
    double low, high;   /* of clearness */
    double c, exponent; /* c: Hollands & Huget only */
} density;
typedef double shape(const density *d, double k);

static double hollands_huget(const density *d, double k)
{
    return d->c * (1.0 - k / d->high) * exp(d->exponent * k);
}

static double bendt(const density *d, double k)
{
    return d->exponent * exp(d->exponent * k) / (exp(d->exponent * d->high) - exp(d->exponent * d->low));
}

static void moments(const density *d, shape *f, double at, double *mean, double *sd, double *below)
{
    enum { N = 400 };
    const double width = (d->high - d->low) / N, end = fmin(fmax(at, d->low), d->high);
    double zero = 0.0, first = 0.0, second = 0.0, share = 0.0;
    for (int i = 0; i <= N; i++) {
        const double weight = (i == 0 || i == N ? 1.0 : (i % 2 ? 4.0 : 2.0)) / 3.0, k = d->low + i * width;
        zero += weight * width * f(d, k);
        first += weight * width * k * f(d, k);
        second += weight * width * k * k * f(d, k);
        share += weight * (end - d->low) / N * f(d, d->low + i * (end - d->low) / N);
    }
    *mean = first / zero;
    *sd = sqrt(second / zero - *mean * *mean);
    *below = share / zero;
}

/* Both exponents pass through 0 near a monthly mean of 0.3; the limit is regular, 0/0 is not. */
static double away_from_zero(double x)
{
    return fabs(x) < 1e-4 ? copysign(1e-4, x) : x;
}

static void set_hollands_huget(double monthly, double at, lw_value *out)
{
    const double highest = 0.864, g = highest / (highest - monthly);
    const double lambda = away_from_zero((2.0 * g - 17.519 * exp(-1.3118 * g) - 1062.0 * exp(-5.0426 * g)) / highest);
    const double c = lambda * lambda * highest / (exp(lambda * highest) - 1.0 - lambda * highest);
    const density d = {.low = 0.0, .high = highest, .c = c, .exponent = lambda};
    double mean, sd, below;
    moments(&d, hollands_huget, at, &mean, &sd, &below);
    out[HH_LAMBDA] = lw_value_number(lambda);
    out[HH_C] = lw_value_number(c);
    out[HH_MEAN] = lw_value_number(mean);
    out[HH_DAY_SD] = lw_value_number(sd);
    out[HH_SHARE_BELOW] = lw_value_number(below);
}

static void set_bendt(double monthly, double at, lw_value *out)
{
    const double low = 0.05, high = 0.6313 + 0.267 * monthly - 11.9 * pow(monthly - 0.75, 8.0);
    const double xi = (high - low) / (high - monthly);
    const double gamma = away_from_zero(-1.498 + (1.184 * xi - 27.182 * exp(-1.5 * xi)) / (high - low));
    const density d = {.low = low, .high = high, .exponent = gamma};
    double mean, sd, below;
    moments(&d, bendt, at, &mean, &sd, &below);
    out[BENDT_GAMMA] = lw_value_number(gamma);
    out[BENDT_HIGHEST] = lw_value_number(high);
    out[BENDT_MEAN] = lw_value_number(mean);
    out[BENDT_DAY_SD] = lw_value_number(sd);
    out[BENDT_SHARE_BELOW] = lw_value_number(below);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    set_hollands_huget(in[CLEARNESS].number, in[DAY_CLEARNESS].number, out);
    set_bendt(in[CLEARNESS].number, in[DAY_CLEARNESS].number, out);
    return true;
}

const lw_figure lw_fig_clearness_distribution = {
    .name = "clearness_distribution",
    .room = "sun",
    .summary = "How often days of a given clearness come in a month of given mean, by two published distributions.",
    .source =
        "Hollands & Huget (1983), Solar Energy 30, 195; Bendt, Collares-Pereira & Rabl (1981), Solar Energy 27, 1; "
        "Duffie & Beckman eqs. 2.9.2 to 2.9.6 (all from memory)",
    .limits = "Middle latitudes; both are far too wide for the tropics.",
    .example = "clearness=0.52 day_clearness=0.25",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
