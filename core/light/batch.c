/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The light of one head on eight places at a time: see lanewick/light_batch.h. Plain arithmetic on each of the eight
 * alone, so the bits are the same on any machine. Vectors go through pointers: how wide a register is depends on the
 * machine.
 */
#include "lanewick/light_batch.h"

#include "lanewick/hot.h"
#include "lanewick/units.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

typedef float eight __attribute__((vector_size(32)));
typedef int32_t eight_i __attribute__((vector_size(32)));
#define INTO static inline __attribute__((always_inline)) void

static const float half_pi = 1.57079633F, pi = 3.14159265F;
/* atan(t)/t in t^2, highest power first, 0 <= t <= 1: interpolated at the nine Chebyshev points, 1e-8 */
enum { ATAN_TERMS = 9 };
static const float atan_terms[ATAN_TERMS] = {0.0027662835F, -0.0157312491F, 0.0421376236F, -0.0745685483F, 0.106183706F,
                                             -0.141977978F, 0.19991872F,    -0.333330367F, 0.999999982F};

INTO absolute(const eight *x, eight *out)
{
    *out = (eight)((eight_i)*x & 0x7FFFFFFF);
}

INTO pick(const eight_i *mask, const eight *yes, eight *no)
{
    *no = (eight)(((eight_i)*yes & *mask) | ((eight_i)*no & ~*mask));
}

/* 1/sqrt(x), x > 0: a first guess from the exponent's bits and three Newton steps (relative error 2e-7). */
INTO inverse_root(const eight *x, eight *out)
{
    eight y = (eight)(0x5F3759DF - ((eight_i)*x >> 1));
    const eight half = *x * 0.5F;
    for (int i = 0; i < 3; i++)
        y *= 1.5F - half * y * y;
    *out = y;
}

/* atan2(y, x) for y >= 0: atan of the smaller over the larger by a polynomial (2e-8, own fit at Chebyshev points), then
 * the octant. */
INTO angle(const eight *y, const eight *x, eight *out)
{
    eight width, low, high;
    absolute(x, &width);
    const eight_i steep = *y > width;
    low = *y;
    high = width;
    pick(&steep, &width, &low);
    pick(&steep, y, &high);
    const eight t = low / (high + 1e-30F), u = t * t;
    eight a = {0.0F};
    for (int i = 0; i < ATAN_TERMS; i++)
        a = a * u + atan_terms[i];
    a *= t;
    eight other = half_pi - a;
    pick(&steep, &other, &a);
    other = pi - a;
    const eight_i behind = *x < 0.0F;
    pick(&behind, &other, &a);
    *out = a;
}

/* Whole step below the place and the share of the way to the next; the last step holds the end itself. */
INTO step(eight *place, float most, eight_i *index)
{
    eight top = {0.0F};
    top += most;
    const eight_i over = *place > top;
    pick(&over, &top, place);
    *index = __builtin_convertvector(*place, eight_i);
    const eight_i last = *index > (int32_t)most - 1;
    *index += last; /* -1 where true */
    *place -= __builtin_convertvector(*index, eight);
}

INTO look_up(const lw_even_table *table, eight *gamma, eight *c, eight *out)
{
    const eight_i outside = (*gamma < table->first_rad - 1e-6F) | (*gamma > table->last_rad + 1e-6F);
    eight down = (*gamma - table->first_rad) * table->vertical_per_rad;
    const eight_i before = down < 0.0F;
    const eight zero = {0.0F};
    pick(&before, &zero, &down);
    eight round = *c * table->plane_per_rad;
    eight_i v, h;
    step(&down, (float)(table->vertical_count - 1), &v);
    step(&round, (float)(table->plane_count - 1), &h);
    const int32_t row = (int32_t)table->vertical_count;
    const eight_i at = h * row + v;
    eight near_low, near_high, far_low, far_high;
    for (int i = 0; i < LW_BATCH_EIGHT; i++) {
        const float *from = table->candela + at[i];
        near_low[i] = from[0];
        near_high[i] = from[1];
        far_low[i] = from[row];
        far_high[i] = from[row + 1];
    }
    near_low += down * (near_high - near_low);
    far_low += down * (far_high - far_low);
    near_low += round * (far_low - near_low);
    pick(&outside, &zero, &near_low);
    *out = near_low;
}

typedef struct frame {
    float x, y, height, cos_turn, sin_turn, cos_tilt, sin_tilt, share;
} frame;

/* As towards_cd() of illuminance.c. */
INTO ground_eight(const lw_even_table *table, const frame *f, const float *x_m, const float *y_m, float *sum_lx)
{
    eight x, y, sum, gamma, c, cd, inverse_rho, inverse_r, side_size;
    memcpy(&x, x_m, sizeof x);
    memcpy(&y, y_m, sizeof y);
    memcpy(&sum, sum_lx, sizeof sum);
    x -= f->x;
    y -= f->y;
    const eight forward = x * f->cos_turn + y * f->sin_turn, side = y * f->cos_turn - x * f->sin_turn;
    const eight out = forward * f->cos_tilt - f->height * f->sin_tilt;
    const eight axis = f->height * f->cos_tilt + forward * f->sin_tilt;
    const eight rho2 = out * out + side * side + 1e-20F, r2 = x * x + y * y + f->height * f->height;
    inverse_root(&rho2, &inverse_rho);
    inverse_root(&r2, &inverse_r);
    const eight rho = rho2 * inverse_rho;
    angle(&rho, &axis, &gamma);
    absolute(&side, &side_size);
    angle(&side_size, &out, &c);
    const eight other = -c;
    const eight_i right = side < 0.0F;
    pick(&right, &other, &c);
    c += pi; /* plane 0 of the even table points backward */
    look_up(table, &gamma, &c, &cd);
    sum += cd * (f->share * f->height) * (inverse_r * inverse_r * inverse_r);
    memcpy(sum_lx, &sum, sizeof sum);
}

LW_HOT
void lw_batch_ground(const lw_even_table *table, const lw_lamp *lamp, const float *x_m, const float *y_m, size_t count,
                     float *horizontal_lx)
{
    const double turn = lamp->turn_deg * lw_radian_per_degree, tilt = lamp->tilt_deg * lw_radian_per_degree;
    const frame f = {.x = (float)lamp->x_m,
                     .y = (float)lamp->y_m,
                     .height = (float)lamp->height_m,
                     .cos_turn = (float)cos(turn),
                     .sin_turn = (float)sin(turn),
                     .cos_tilt = (float)cos(tilt),
                     .sin_tilt = (float)sin(tilt),
                     .share = (float)lamp->maintenance};
    for (size_t i = 0; i + LW_BATCH_EIGHT <= count; i += LW_BATCH_EIGHT)
        ground_eight(table, &f, x_m + i, y_m + i, horizontal_lx + i);
}
