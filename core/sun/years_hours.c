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
    double least_clear[L]; /* a day clearer than the cloudless hour of the paper lifts that bound */
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
        c->least_clear[l] = 1.02 * clearness[l];
    }
}

/* A day in work: the hours with sun are from..to - 1. */
typedef struct day_work {
    int from, to;
    double wanted[L], sum[L]; /* of the day, and of the hours as they are */
    double ghi[24][L], most[24][L];
} day_work;

/* Unscaled radiation of the lit hours and the day's sum. */
LW_HOT static void first_guess(const lw_synth_hour *hour, const day_coefficients *day, lw_year_lanes *lanes,
                               day_work *work)
{
    const day_coefficients c = *day; /* local copies: the compiler then knows that nothing overlaps */
    lw_lane_rng rng = lanes->hours;
    double score[L], total[L] = {0.0};
    memcpy(score, lanes->hour_score, sizeof score);
    for (int h = work->from; h < work->to; h++) {
        const double horizontal = hour[h].horizontal, sin_height = hour[h].sin_height, clear = hour[h].clear;
        uint64_t bits[L];
        double e[L], guess[L], bound[L];
        step_rng(&rng, bits);
        nearly_normal(bits, e);
        for (int l = 0; l < L; l++) {
            score[l] = c.phi[l] * score[l] + c.noise[l] * e[l];
            const double k = lw_tag_mean(c.lambda[l], c.eta[l], c.kappa[l], sin_height) +
                             lw_tag_sd(c.a[l], c.b[l], sin_height) * score[l];
            const double most = clear > c.least_clear[l] ? clear : c.least_clear[l];
            const double low = k < 0.01 ? 0.01 : k;
            const double held = low > most ? most : low;
            bound[l] = most * horizontal;
            guess[l] = held * horizontal;
            total[l] += guess[l];
        }
        memcpy(work->ghi[h], guess, sizeof guess);
        memcpy(work->most[h], bound, sizeof bound);
    }
    lanes->hours = rng;
    memcpy(lanes->hour_score, score, sizeof score);
    memcpy(work->sum, total, sizeof total);
}

/* One turn of scaling to the day's sum: an hour at its cloudless value stays there while others can still rise.
 * loose 1, or in the last turn, which only closes the sum, more. */
LW_HOT static void scale_to_day(day_work *work, double loose)
{
    double factor[L], total[L] = {0.0};
    for (int l = 0; l < L; l++)
        factor[l] = work->wanted[l] / (work->sum[l] + 1e-300); /* a day in the dark: 0 */
    for (int h = work->from; h < work->to; h++)
        for (int l = 0; l < L; l++) {
            const double scaled = work->ghi[h][l] * factor[l], most = loose * work->most[h][l];
            const double held = scaled > most ? most : scaled;
            work->ghi[h][l] = held;
            total[l] += held;
        }
    memcpy(work->sum, total, sizeof total);
}

LW_HOT static void split(const lw_synth_hour *hour, const day_work *work, double dhi[24][L], double dni[24][L])
{
    for (int h = work->from; h < work->to; h++) {
        const double horizontal = hour[h].horizontal + 1e-300, per_mu = hour[h].per_mu, most = hour[h].most_beam;
        double beam[L], rest[L];
        for (int l = 0; l < L; l++) {
            const double ghi = work->ghi[h][l], k = ghi / horizontal, curve = lw_erbs_curve(k);
            const double clear = k > lw_erbs_clear_edge ? 1.0 : 0.0, dull = k > lw_erbs_dull_edge ? 0.0 : 1.0;
            const double share = curve + clear * (lw_erbs_clear - curve) + dull * (lw_erbs_dull(k) - curve);
            const double all = ghi * (1.0 - share) * per_mu;
            beam[l] = all > most ? most : all;
            rest[l] = ghi - beam[l] / (per_mu + 1e-300);
        }
        memcpy(dni[h], beam, sizeof beam);
        memcpy(dhi[h], rest, sizeof rest);
    }
}

void lw_synth_hours(const lw_synth *synth, int day, const double clearness[LW_LANES], lw_year_lanes *lanes,
                    const lw_day_rows *out)
{
    const lw_synth_hour *hour = &synth->hour[24 * day];
    day_coefficients c;
    day_work work = {.from = 0, .to = 24};
    while (work.from < 24 && hour[work.from].horizontal <= 0.0)
        work.from++;
    while (work.to > work.from && hour[work.to - 1].horizontal <= 0.0)
        work.to--;
    for (int l = 0; l < L; l++)
        work.wanted[l] = clearness[l] * synth->day_sum[day];
    day_of(clearness, &c);
    first_guess(hour, &c, lanes, &work);
    for (int turn = 0; turn < SCALINGS; turn++)
        scale_to_day(&work, 1.0);
    scale_to_day(&work, 10.0);
    memcpy(out->ghi, work.ghi, sizeof work.ghi);
    memset(out->dhi, 0, sizeof work.ghi);
    memset(out->dni, 0, sizeof work.ghi);
    split(hour, &work, out->dhi, out->dni);
}
