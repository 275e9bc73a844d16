/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years: the hours of a day of given clearness. Hourly clearness by TAG (hour_clearness.h), held below the
 * cloudless value, scaled to the day's sum; diffuse share by Erbs, Klein & Duffie (1982); direct normal from the
 * rest over the mean cosine of the zenith, held below the cleanest beam.
 */
#include "erbs.h"
#include "hour_clearness.h"
#include "lanewick/hot.h"
#include "years_inner.h"

#include <math.h>
#include <string.h>

enum { L = LW_LANES, SCALINGS = 3 };

typedef struct day_coefficients {
    double lambda[L], eta[L], kappa[L], a[L], b[L], phi[L], noise[L];
} day_coefficients;

static inline void step_rng(lw_lane_rng *rng, uint64_t out[L])
{
    for (int l = 0; l < L; l++) { /* lw_rng_next of lanewick/rng.h */
        uint64_t s0 = rng->s[0][l], s1 = rng->s[1][l], s2 = rng->s[2][l], s3 = rng->s[3][l];
        const uint64_t five = s1 + (s1 << 2), turned = (five << 7) | (five >> 57), t = s1 << 17;
        out[l] = turned + (turned << 3);
        s2 ^= s0;
        s3 ^= s1;
        s1 ^= s2;
        s0 ^= s3;
        s2 ^= t;
        s3 = (s3 << 45) | (s3 >> 19);
        rng->s[0][l] = s0;
        rng->s[1][l] = s1;
        rng->s[2][l] = s2;
        rng->s[3][l] = s3;
    }
}

/* Nearly normal, mean 0, standard deviation 1: the sum of four 16-bit parts of each number. */
static inline void nearly_normal(const uint64_t bits[L], double out[L])
{
    for (int l = 0; l < L; l++) {
        const uint64_t sum =
            (bits[l] & 0xffff) + ((bits[l] >> 16) & 0xffff) + ((bits[l] >> 32) & 0xffff) + (bits[l] >> 48);
        const uint64_t exponent = sum | 0x4330000000000000u; /* as a double: 2^52 + sum */
        double x;
        memcpy(&x, &exponent, sizeof x);
        out[l] = (x - (0x1p52 + 131070.0)) * (1.0 / 37837.22772);
    }
}

static void day_of(const double clearness[L], day_coefficients *c)
{
    for (int l = 0; l < L; l++) {
        const lw_tag tag = lw_tag_of_day(clearness[l]);
        c->lambda[l] = tag.lambda;
        c->eta[l] = tag.eta;
        c->kappa[l] = tag.kappa;
        c->a[l] = tag.a;
        c->b[l] = tag.b;
        c->phi[l] = tag.phi;
        c->noise[l] = sqrt(1.0 - tag.phi * tag.phi);
    }
}

/* Unscaled radiation of the lit hours and the day's sum. */
LW_HOT static void first_guess(const lw_synth_hour *hour, const day_coefficients *c, const double clearness[L],
                               lw_year_lanes *lanes, double ghi[24][L], double sum[L])
{
    for (int h = 0; h < 24; h++) {
        const double horizontal = hour[h].horizontal, sin_height = hour[h].sin_height;
        if (horizontal <= 0.0) {
            for (int l = 0; l < L; l++)
                ghi[h][l] = 0.0;
            continue;
        }
        uint64_t bits[L];
        double e[L];
        step_rng(&lanes->hours, bits);
        nearly_normal(bits, e);
        for (int l = 0; l < L; l++) {
            lanes->hour_score[l] = c->phi[l] * lanes->hour_score[l] + c->noise[l] * e[l];
            const double k = lw_tag_mean(c->lambda[l], c->eta[l], c->kappa[l], sin_height) +
                             lw_tag_sd(c->a[l], c->b[l], sin_height) * lanes->hour_score[l];
            const double most = hour[h].clear > 1.02 * clearness[l] ? hour[h].clear : 1.02 * clearness[l];
            const double held = k < 0.01 ? 0.01 : (k > most ? most : k);
            ghi[h][l] = held * horizontal;
            sum[l] += ghi[h][l];
        }
    }
}

/* Scales the hours to the day's sum; an hour at its cloudless value stays there while others can still rise. */
LW_HOT static void scale_to_day(const lw_synth_hour *hour, const double clearness[L], double day_sum, double ghi[24][L],
                                double sum[L])
{
    for (int turn = 0; turn <= SCALINGS; turn++) {
        double factor[L];
        for (int l = 0; l < L; l++) {
            factor[l] = sum[l] > 0.0 ? clearness[l] * day_sum / sum[l] : 0.0;
            sum[l] = 0.0;
        }
        for (int h = 0; h < 24; h++) {
            const double horizontal = hour[h].horizontal;
            if (horizontal <= 0.0)
                continue;
            const double last = turn == SCALINGS ? 10.0 : 1.0; /* the last turn only closes the sum */
            for (int l = 0; l < L; l++) {
                const double bound = hour[h].clear > 1.02 * clearness[l] ? hour[h].clear : 1.02 * clearness[l];
                const double most = last * bound * horizontal, scaled = ghi[h][l] * factor[l];
                ghi[h][l] = scaled > most ? most : scaled;
                sum[l] += ghi[h][l];
            }
        }
    }
}

LW_HOT static void split(const lw_synth_hour *hour, double ghi[24][L], double dhi[24][L], double dni[24][L])
{
    for (int h = 0; h < 24; h++) {
        const bool lit = hour[h].horizontal > 0.0;
        const double per_horizontal = lit ? 1.0 / hour[h].horizontal : 0.0;
        const double per_mu = hour[h].per_mu, mu = lit ? 1.0 / per_mu : 0.0, most = hour[h].most_beam;
        for (int l = 0; l < L; l++) {
            const double share = lw_erbs_hour(ghi[h][l] * per_horizontal);
            const double beam = ghi[h][l] * (1.0 - share) * per_mu;
            const double held = beam > most ? most : beam;
            dni[h][l] = held;
            dhi[h][l] = ghi[h][l] - held * mu;
        }
    }
}

void lw_synth_hours(const lw_synth *synth, int day, const double clearness[LW_LANES], lw_year_lanes *lanes,
                    const lw_day_rows *out)
{
    const lw_synth_hour *hour = &synth->hour[24 * day];
    day_coefficients c;
    double sum[L] = {0.0};
    day_of(clearness, &c);
    first_guess(hour, &c, clearness, lanes, out->ghi, sum);
    scale_to_day(hour, clearness, synth->day_sum[day], out->ghi, sum);
    split(hour, out->ghi, out->dhi, out->dni);
}
