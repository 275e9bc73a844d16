/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Heat of a head in still air: see lanewick/head_heat.h.
 */
#include "lanewick/head_heat.h"

#include <math.h>

static const double boltzmann_w_m2_k4 = 5.670374e-8, zero_c = 273.15;

/* Still air along a surface, W/(m2 K): c (rise/length)^(1/4). */
static double film(double c, double rise_k, double length_m)
{
    return c * pow(fmax(rise_k, 0.01) / length_m, 0.25);
}

static double radiation(double emissivity, double warm_c, double cold_c)
{
    const double a = warm_c + zero_c, b = cold_c + zero_c;
    return emissivity * boltzmann_w_m2_k4 * (a * a + b * b) * (a + b);
}

static double plate_film(lw_plate_faces faces, double rise_k, double length_m)
{
    static const double up = 1.32, down = 0.59, upright = 1.42;
    const double c[] = {
        [LW_PLATE_BOTH] = 0.5 * (up + down), [LW_PLATE_UP] = up, [LW_PLATE_DOWN] = down, [LW_PLATE_UPRIGHT] = upright};
    return film(c[faces], rise_k, length_m);
}

/* Temperature above surroundings_c of a surface that loses watt by film and radiation. */
static double open_surface_c(double watt, double area_m2, double c, double emissivity, double length_m, double air_c)
{
    double t = air_c;
    for (int i = 0; i < 200; i++) {
        const double h = film(c, t - air_c, length_m) + radiation(emissivity, t, air_c);
        t += 0.5 * (air_c + watt / (h * area_m2) - t);
    }
    return t;
}

void lw_head_heat_solve(const lw_head_heat *head, double watt, double air_c, lw_head_warm *out)
{
    static const double upright = 1.42, bottle_emissivity = 0.9;
    const double length_m = sqrt(head->board_m2);
    out->bottle_c = air_c;
    if (head->bottle_m2 > 0.0)
        out->bottle_c = open_surface_c(watt, head->bottle_m2, upright, bottle_emissivity, sqrt(head->bottle_m2), air_c);
    double board = out->bottle_c;
    double inside = board;
    for (int i = 0; i < 400; i++) {
        const double rays = radiation(head->emissivity, board, out->bottle_c) * head->board_m2;
        double to_air = plate_film(head->faces, board - inside, length_m) * head->board_m2;
        if (head->bottle_m2 > 0.0) {
            /* the air inside takes the heat from the board and gives it to the wall: two films in a row */
            const double wall = film(upright, inside - out->bottle_c, sqrt(head->bottle_m2)) * head->bottle_m2;
            inside += 0.5 * ((to_air * board + wall * out->bottle_c) / (to_air + wall) - inside);
            to_air = 1.0 / (1.0 / to_air + 1.0 / wall);
        }
        board += 0.3 * (out->bottle_c + watt / (rays + to_air) - board);
    }
    out->board_c = board;
    out->inside_c = inside;
}

bool lw_head_solve(const lw_led *led, double current_a, size_t count, const lw_head_heat *head, double air_c,
                   lw_led_point *point, lw_head_warm *warm, lw_error *err)
{
    double k_w = 10.0;
    for (int i = 0; i < 60; i++) {
        if (!lw_led_solve(led, current_a, count, k_w, air_c, point, err))
            return false;
        const double watt = point->heat_w * (double)count;
        lw_head_heat_solve(head, watt, air_c, warm);
        const double next = watt > 0.0 ? (warm->board_c - air_c) / watt : k_w;
        if (fabs(next - k_w) < 1e-9 * k_w)
            break;
        k_w += 0.7 * (next - k_w);
    }
    warm->board_to_air_k_w = k_w;
    if (head->bottle_m2 > 0.0 && warm->bottle_c > head->softens_c)
        return lw_fail(
            err, LW_REFUSED, "bottle_cm2",
            "The bottle would reach %.0f degC; it softens from %.0f degC. Use less current, a larger bottle, "
            "or let the metal back of the board stick out.",
            warm->bottle_c, head->softens_c);
    return true;
}
