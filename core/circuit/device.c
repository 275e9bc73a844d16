/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Laws of single parts: see device.h.
 */
#include "device.h"

#include <math.h>

static const double largest_a = 1e4; /* beyond it a junction goes on straight, so that nothing overflows */
static const double least_conductance = 1e-12;

double lw_junction_current(double volts, double slope_v, double saturation_a, double *conductance)
{
    const double x = volts / slope_v, steepest = log(largest_a / saturation_a);
    if (x > steepest) {
        const double e = exp(steepest);
        *conductance = saturation_a * e / slope_v;
        return saturation_a * (e * (1.0 + x - steepest) - 1.0);
    }
    *conductance = saturation_a * exp(x) / slope_v + least_conductance;
    return saturation_a * expm1(x) + least_conductance * volts;
}

double lw_junction_knee(double slope_v, double saturation_a)
{
    return slope_v * log(slope_v / (1.41421356 * saturation_a));
}

double lw_junction_limit(double wanted_v, double last_v, double slope_v, double saturation_a)
{
    const double critical_v = lw_junction_knee(slope_v, saturation_a);
    if (wanted_v <= critical_v || fabs(wanted_v - last_v) <= 2.0 * slope_v)
        return wanted_v;
    if (last_v <= 0.0)
        return slope_v * log(wanted_v / slope_v);
    const double step = 1.0 + (wanted_v - last_v) / slope_v;
    return step > 0.0 ? last_v + slope_v * log(step) : critical_v;
}

void lw_transistor_at(const lw_element *element, double be_v, double bc_v, double thermal_v, lw_transistor_point *out)
{
    double forward_g, reverse_g;
    const double forward = lw_junction_current(be_v, thermal_v, element->value, &forward_g);
    const double reverse = lw_junction_current(bc_v, thermal_v, element->value, &reverse_g);
    const double early = element->early_v > 0.0 ? 1.0 - bc_v / element->early_v : 1.0;
    const double early_slope = element->early_v > 0.0 ? -1.0 / element->early_v : 0.0;
    out->collector_a = (forward - reverse) * early - reverse;
    out->base_a = forward / element->gain + reverse;
    out->collector_per_be = forward_g * early;
    out->collector_per_bc = -reverse_g * early + (forward - reverse) * early_slope - reverse_g;
    out->base_per_be = forward_g / element->gain;
    out->base_per_bc = reverse_g;
}

/* A step from 0 to 1 around x = 0. */
static double logistic(double x, double *slope)
{
    const double t = tanh(0.5 * x);
    *slope = 0.25 * (1.0 - t * t);
    return 0.5 * (1.0 + t);
}

double lw_controlled_conductance(const lw_element *element, double control_v, double *slope)
{
    const double width_v = 0.04, off = 1.0 / element->off_ohm, on = 1.0 / element->value;
    const double part = logistic((control_v - element->threshold_v) / width_v, slope);
    *slope *= (on - off) / width_v;
    return off + (on - off) * part;
}

double lw_comparator_share(const lw_element *element, double difference_v, double *slope)
{
    const double part = logistic(element->value * difference_v, slope);
    *slope *= element->value;
    return part;
}

double lw_sink_current(const lw_element *element, double volts, double *slope)
{
    const double x = 2.0 * volts / element->threshold_v;
    if (x <= 0.0) {
        *slope = least_conductance;
        return least_conductance * volts;
    }
    const double t = tanh(x);
    *slope = element->value * (1.0 - t * t) * 2.0 / element->threshold_v + least_conductance;
    return element->value * t + least_conductance * volts;
}

/* The smallest of n values, rounded over a width so that its derivative is steady; weight[] are the derivatives. */
static double soft_least(const double *x, int n, double width, double *weight)
{
    double least = x[0];
    for (int i = 1; i < n; i++)
        least = fmin(least, x[i]);
    double sum = weight[0] = exp((least - x[0]) / width);
    for (int i = 1; i < n; i++)
        sum += weight[i] = exp((least - x[i]) / width);
    for (int i = 0; i < n; i++)
        weight[i] /= sum;
    return least - width * log(sum);
}

double lw_charger_current(const lw_element *element, double input_v, double output_v, double *per_input,
                          double *per_output)
{
    const lw_charger_element *c = &element->charger;
    const double linear = c->efficiency > 0.0 ? 0.0 : 1.0;
    const double width = 0.01 * element->value;
    const double limits[4] = {element->value, (c->full_v - output_v) / c->regulation_ohm,
                              (input_v - c->start_v - linear * output_v) / c->input_ohm,
                              (input_v - c->dropout_v - output_v) / c->input_ohm};
    double weight[4] = {0.0};
    const double wanted = soft_least(limits, linear > 0.0 ? 3 : 4, width, weight);
    /* nothing flows back: a rounded corner at zero */
    const double x = wanted / width;
    const double passes = x > 40.0 ? 1.0 : x < -40.0 ? 0.0 : 1.0 / (1.0 + exp(-x));
    const double amps = x > 40.0 ? wanted : x < -40.0 ? 0.0 : width * log1p(exp(x));
    *per_input = passes * (weight[2] + weight[3]) / c->input_ohm;
    *per_output = -passes * (weight[1] / c->regulation_ohm + (linear * weight[2] + weight[3]) / c->input_ohm);
    return amps;
}
