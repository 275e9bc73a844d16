/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The nearest stations. Positions are unit vectors, so poles and date line are nothing special. The rows
 * stand as a balanced tree in place: of the rows lo..hi-1 at depth d the middle one splits the others by
 * coordinate d mod 3 (Bentley 1975, Communications of the ACM 18, 509). Sorted out by straight distance.
 */
#include "climate_inner.h"

#include <math.h>

void lw_unit_vector(double lat_deg, double lon_deg, double x[3])
{
    const double lat = lat_deg * LW_RAD, lon = lon_deg * LW_RAD;
    x[0] = cos(lat) * cos(lon);
    x[1] = cos(lat) * sin(lon);
    x[2] = sin(lat);
}

void lw_row_position(const unsigned char *row, double x[3])
{
    for (int i = 0; i < 3; i++)
        x[i] = lw_i16(row + 2 * i) / (double)LW_PACK_UNIT;
}

static double chord_squared(const double a[3], const double b[3])
{
    const double dx = a[0] - b[0], dy = a[1] - b[1], dz = a[2] - b[2];
    return dx * dx + dy * dy + dz * dz;
}

double lw_chord_km(const double a[3], const double b[3])
{
    return LW_EARTH_KM * 2.0 * asin(fmin(sqrt(chord_squared(a, b)) / 2.0, 1.0));
}

/* Puts a row into the list of the best so far, which is kept in rising order; km holds squared chords here. */
static size_t insert(lw_near *list, size_t count, size_t k, double chord2, const unsigned char *row)
{
    size_t i = count < k ? count : k - 1;
    if (count == k && chord2 >= list[i].km)
        return count;
    for (; i > 0 && list[i - 1].km > chord2; i--)
        list[i] = list[i - 1];
    list[i] = (lw_near){chord2, row};
    return count < k ? count + 1 : k;
}

static bool skipped(const lw_climate_skip *skip, const unsigned char *row, double chord2)
{
    if (!skip)
        return false;
    const double limit = 2.0 * sin(fmin(skip->radius_km / (2.0 * LW_EARTH_KM), 1.5));
    return chord2 < limit * limit || (skip->wmo != 0 && lw_u32(row + LW_PACK_WMO) == skip->wmo);
}

typedef struct part {
    size_t low, high;
    int axis;
    double gap2; /* squared distance of the place from this part's side of the cut */
} part;

size_t lw_climate_nearest(const unsigned char *rows, size_t count, size_t row_size, const double x[3],
                          const lw_climate_skip *skip, size_t k, lw_near *out)
{
    part stack[64] = {{0, count, 0, 0.0}}; /* one part waits per level: enough for 2^63 rows */
    size_t waiting = 1, found = 0;
    while (waiting > 0) {
        part p = stack[--waiting];
        while (p.low < p.high && (found < k || p.gap2 < out[k - 1].km)) {
            const size_t middle = p.low + (p.high - p.low) / 2;
            const unsigned char *row = rows + middle * row_size;
            double y[3];
            lw_row_position(row, y);
            const double chord2 = chord_squared(x, y), side = x[p.axis] - y[p.axis];
            if (!skipped(skip, row, chord2))
                found = insert(out, found, k, chord2, row);
            const int axis = (p.axis + 1) % 3;
            const part left = {p.low, middle, axis, p.gap2}, right = {middle + 1, p.high, axis, p.gap2};
            part far = side < 0.0 ? right : left;
            far.gap2 = fmax(far.gap2, side * side);
            stack[waiting++] = far;
            p = side < 0.0 ? left : right;
        }
    }
    for (size_t i = 0; i < found; i++)
        out[i].km = LW_EARTH_KM * 2.0 * asin(fmin(sqrt(out[i].km) / 2.0, 1.0));
    return found;
}
