/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Normals at a position from the 12 nearest stations: weight 1 / (d^2 + 10 km^2), less where the height
 * differs, temperature brought to the height with 5.5 K/km. Sunshine, not radiation, is interpolated.
 */
#include "climate_inner.h"

#include <math.h>
#include <string.h>

enum { STATIONS = 12 };
static const double near_km = 10.0, height_scale_m = 300.0, lapse_k_per_m = 0.0055;

static double row_height(const unsigned char *row)
{
    const int h = lw_i16(row + 6);
    return h == LW_PACK_NO_HEIGHT ? (double)NAN : (double)h;
}

static double height_of_neighbours(const lw_near *near, size_t count)
{
    double sum = 0.0, weight = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double h = row_height(near[i].row), w = 1.0 / (near[i].km * near[i].km + near_km * near_km);
        if (isfinite(h)) {
            sum += w * h;
            weight += w;
        }
    }
    return weight > 0.0 ? sum / weight : 0.0;
}

static void add(lw_climate_normals *out, const unsigned char *row, double weight, double rise_m)
{
    for (int m = 0; m < 12; m++) {
        out->sun[m] += weight * row[LW_PACK_SUN + m] / 100.0;
        out->t_c[m] += weight * (lw_i16(row + LW_PACK_T + 2 * m) / 10.0 - lapse_k_per_m * rise_m);
        out->range_k[m] += weight * row[LW_PACK_RANGE + m] / 10.0;
        out->wind_ms[m] += weight * row[LW_PACK_WIND + m] / 10.0;
        out->rain_mm[m] += weight * lw_u16(row + LW_PACK_RAIN + 2 * m);
    }
}

void lw_climate_normals_at(const lw_climate_data *data, const double x[3], double elev_m, lw_climate_normals *out)
{
    lw_near near[STATIONS];
    const size_t count = lw_climate_nearest(data->normals, data->normal_count, LW_PACK_NORMAL, x, NULL, STATIONS, near);
    memset(out, 0, sizeof *out);
    out->elev_m = isfinite(elev_m) ? elev_m : height_of_neighbours(near, count);
    out->nearest_km = near[0].km;
    double weight[STATIONS], rise[STATIONS], sum = 0.0;
    for (size_t i = 0; i < count; i++) {
        const double h = row_height(near[i].row);
        rise[i] = isfinite(h) ? out->elev_m - h : 0.0;
        const double off = rise[i] / height_scale_m;
        weight[i] = 1.0 / ((near[i].km * near[i].km + near_km * near_km) * (1.0 + off * off));
        sum += weight[i];
    }
    for (size_t i = 0; i < count; i++)
        add(out, near[i].row, weight[i] / sum, rise[i]);
}
