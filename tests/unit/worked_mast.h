/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A worked mast that several tests check, and what its weights add, by hand.
 */
#ifndef LANEWICK_WORKED_MAST_H
#define LANEWICK_WORKED_MAST_H

#include "lanewick/mast_json.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

/* 50 W panel 0.36 m2 at 20 degree, 4.2 m up; box 0.04 m2; 76.1 x 3.2, 4 m; 30 m/s, category II, S235. */
static inline lw_mast_wish worked(void)
{
    lw_mast_wish w = lw_mast_wish_default();
    w.wind_given = true;
    w.wind.speed_m_s = 30.0;
    w.panel = (lw_mast_part){0.36, 4.2, 4.0, 1.8};
    w.panel_tilt_deg = 20.0;
    w.box = (lw_mast_part){0.04, 4.2, 2.0, 1.4};
    w.head = (lw_mast_part){0.0, 4.0, 4.0, 0.8};
    w.pipe = (lw_tube){76.1, 3.2};
    w.height_m = 4.0;
    w.soil_pa_per_m = 23560.0;
    w.doubled = true;
    w.wall_measured = true;
    w.loose_m = 0.0;
    return w;
}

static inline lw_mast_result check(const lw_mast_wish *w)
{
    lw_mast_result r;
    lw_error err = {0};
    if (!lw_mast_check(w, &r, &err))
        fail_msg("%s", err.message);
    return r;
}

static inline void near(double is, double should, double part)
{
    if (!(fabs(is - should) <= part * fabs(should)))
        fail_msg("%.10g should be %.10g", is, should);
}

static inline bool says(const lw_mast_result *r, const char *part)
{
    for (size_t i = 0; i < r->note_count; i++)
        if (strstr(r->notes[i].text, part))
            return true;
    return false;
}

/* What weights add to a column of steel, by hand: Euler's load pi^2 E I/(4 h^2) over 1.35 times the weights on its top
 * and 0.3148 of the pipe's own (Greenhill 1881: 7.837 E I/h^2 for its own weight alone); growth 1/(1 - 1/a); lean 1/200
 * (EN 1993-1-1 5.2.2(5) and 5.3.2); secant for the panel's 50 mm (Timoshenko and Gere 1961). All from memory. */
typedef struct grown {
    double alpha, by, lean_nm, aside_nm, squeezed_mpa;
} grown;
static inline grown grown_of(double d_mm, double t_mm, double h, double top_kg, double all_kg, double kg_m,
                             double aside_kg)
{
    const double pi = 3.14159265358979, inner = d_mm - 2.0 * t_mm;
    const double inertia = pi / 64.0 * (pow(d_mm, 4) - pow(inner, 4)), area = pi / 4.0 * (d_mm * d_mm - inner * inner);
    const double pipe_kg = 7850.0 * area * 1e-6 * h;
    const double euler_n = pi * pi * 210e9 * inertia * 1e-12 / (4.0 * h * h);
    grown g = {.alpha = euler_n / (1.35 * 9.81 * (top_kg + 0.3148 * pipe_kg))};
    g.by = 1.0 / (1.0 - 1.0 / g.alpha);
    g.lean_nm = 9.81 / 200.0 * (kg_m + 0.5 * h * pipe_kg) * g.by;
    g.aside_nm = 9.81 * 0.05 * aside_kg / cos(0.5 * pi / sqrt(g.alpha));
    g.squeezed_mpa = 1.35 * 9.81 * (all_kg + pipe_kg) / area;
    return g;
}

#endif
