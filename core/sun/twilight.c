/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sunset and sunrise, or the ends of any twilight: the exact crossings of a true altitude between one true noon
 * and the next. At the poles the night may be missing or may last the whole day.
 */
#include "lanewick/roots.h"
#include "lanewick/sun.h"

#include <math.h>

typedef struct crossing {
    lw_observer observer;
    double delta_t_s, altitude_deg;
} crossing;

static double above(double utc_days, const void *payload)
{
    const crossing *c = payload;
    const lw_sun_position sun = lw_sun_position_at(utc_days, c->delta_t_s, &c->observer);
    return 90.0 - sun.zenith_deg - c->altitude_deg;
}

/* The true noon nearest to a guess: the hour angle becomes 0 at the Earth's rate against the sun. */
static double true_noon(double guess_utc_days, const crossing *c)
{
    double noon = guess_utc_days;
    for (int i = 0; i < 3; i++)
        noon -= lw_sun_position_at(noon, c->delta_t_s, &c->observer).hour_angle_deg / 360.0;
    return noon;
}

/* One half of the night: the crossing between two instants, if the sign changes, and the hours below. */
static bool half(const crossing *c, double from, double to, bool *crosses, double *at, double *below_h, lw_error *err)
{
    const bool first_above = above(from, c) >= 0.0, last_above = above(to, c) >= 0.0;
    *crosses = first_above != last_above;
    if (!*crosses) {
        *below_h += first_above ? 0.0 : 24.0 * (to - from);
        return true;
    }
    if (!lw_root(above, c, from, to, 1e-7, at, err))
        return false;
    *below_h += 24.0 * (first_above ? to - *at : *at - from);
    return true;
}

static bool possible(double lat_deg, double lon_deg, double altitude_deg, lw_error *err)
{
    return lw_in_range(err, "lat_deg", lat_deg, -90.0, 90.0, "degree") &&
           lw_in_range(err, "lon_deg", lon_deg, -180.0, 360.0, "degree") &&
           lw_in_range(err, "altitude_deg", altitude_deg, -20.0, 60.0, "degree");
}

bool lw_night_at(double lat_deg, double lon_deg, lw_date date, double altitude_deg, lw_night *out, lw_error *err)
{
    *out = (lw_night){0};
    if (!possible(lat_deg, lon_deg, altitude_deg, err))
        return false;
    const double east_deg = lon_deg > 180.0 ? lon_deg - 360.0 : lon_deg;
    const double mean_noon = lw_date_noon_days(date) - east_deg / 360.0;
    const crossing c = {{lat_deg, east_deg, 0.0}, lw_delta_t_s(mean_noon), altitude_deg};
    const double noon = true_noon(mean_noon, &c), next = true_noon(noon + 1.0, &c), midnight = 0.5 * (noon + next);
    bool first, second;
    double set = 0.0, rise = 0.0;
    if (!half(&c, noon, midnight, &first, &set, &out->below_h, err) ||
        !half(&c, midnight, next, &second, &rise, &out->below_h, err))
        return false;
    /* Within a fraction of a degree of a pole the sun may cross the other way: no sunset of an evening. */
    out->sets = first && above(noon, &c) >= 0.0;
    out->rises = second && above(next, &c) >= 0.0;
    out->set_utc = out->sets ? set : 0.0;
    out->rise_utc = out->rises ? rise : 0.0;
    if (!first && !second && out->below_h > 23.0)
        out->below_h = 24.0;
    return true;
}
