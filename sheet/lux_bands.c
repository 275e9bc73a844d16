/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bands of lux on a piece of ground: see lux_bands.h. Half a millimetre on paper is one cell; cells of one band in a
 * row become one box; the lines at the edges are found by marching squares (a line through each cell whose corners lie
 * on both sides of the value, Lorensen and Cline 1987 in two dimensions).
 */
#include "lux_bands.h"

#include "lanewick/light_batch.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Lower edges in lux, a factor of two to three apart as the eye counts light; the legend prints them. */
static const double band_lx[LW_LUX_BANDS] = {0.0, 0.1, 0.3, 1.0, 2.0, 5.0, 10.0, 20.0};
static const double cell_mm = 0.5;
enum { MOST_CELLS = 1500, TABLE_BYTES = 8 << 20 };

double lw_lux_band_lx(int band)
{
    return band_lx[band];
}

/* From white with no light to an amber whose lightness is that of a mid grey, on which black numbers still read. */
lw_ink lw_lux_band_ink(int band)
{
    const double share = (double)band / (LW_LUX_BANDS - 1);
    return (lw_ink){1.0 - 0.16 * share, 1.0 - 0.52 * share, 1.0 - 0.93 * share};
}

static int band_of(double lux)
{
    int band = 0;
    while (band + 1 < LW_LUX_BANDS && lux >= band_lx[band + 1])
        band++;
    return band;
}

lw_point_mm lw_on_paper(const lw_ground_view *v, double x_m, double y_m)
{
    return (lw_point_mm){v->x + (x_m - v->left_m) * v->scale, v->bottom - (y_m - v->low_m) * v->scale};
}

/* Nodes of the patch: columns along its length, rows across; count is filled up to a whole number of eights. */
typedef struct nodes {
    size_t columns, rows, count;
    float *x_m, *y_m, *lux;
    const lw_ground_patch *patch;
    const lw_ground_view *view;
} nodes;

static lw_point_mm at(const nodes *n, double column, double row)
{
    const lw_ground_patch *p = n->patch;
    const double s = p->length_m * column / (double)(n->columns - 1), w = p->width_m * row / (double)(n->rows - 1);
    return (lw_point_mm){p->x_m + s * p->cos_d - w * p->sin_d, p->y_m + s * p->sin_d + w * p->cos_d};
}

static lw_point_mm paper_at(const nodes *n, double column, double row)
{
    const lw_point_mm ground = at(n, column, row);
    return lw_on_paper(n->view, ground.x, ground.y);
}

static bool lay_nodes(nodes *n)
{
    const double scale = n->view->scale;
    n->columns = 1 + (size_t)fmin(MOST_CELLS, fmax(4.0, n->patch->length_m * scale / cell_mm));
    n->rows = 1 + (size_t)fmin(MOST_CELLS, fmax(4.0, n->patch->width_m * scale / cell_mm));
    const size_t used = n->columns * n->rows;
    n->count = (used + LW_BATCH_EIGHT - 1) / LW_BATCH_EIGHT * LW_BATCH_EIGHT;
    n->x_m = calloc(3 * n->count, sizeof *n->x_m);
    if (!n->x_m)
        return false;
    n->y_m = n->x_m + n->count;
    n->lux = n->y_m + n->count;
    for (size_t i = 0; i < used; i++) {
        const size_t row = i / n->columns, column = i % n->columns;
        const lw_point_mm ground = at(n, (double)column, (double)row);
        n->x_m[i] = (float)ground.x;
        n->y_m[i] = (float)ground.y;
    }
    return true;
}

static bool same_beam(const lw_beam *a, const lw_beam *b)
{
    return a->table == b->table && a->street_plane_deg == b->street_plane_deg && a->peak_cd == b->peak_cd &&
           a->cos_power == b->cos_power && a->round == b->round;
}

static bool light_nodes(nodes *n, const lw_lamp *lamps, size_t lamp_count)
{
    void *memory = malloc(TABLE_BYTES);
    lw_even_table table = {0};
    lw_error err = {0};
    bool well = memory != NULL;
    for (size_t k = 0; well && k < lamp_count; k++) {
        if (k == 0 || !same_beam(&lamps[k].beam, &lamps[k - 1].beam)) {
            lw_arena arena = lw_arena_over(memory, TABLE_BYTES);
            well = lw_even_table_of(&lamps[k].beam, &arena, &table, &err);
        }
        if (well)
            lw_batch_ground(&table, &lamps[k], n->x_m, n->y_m, n->count, n->lux);
    }
    free(memory);
    return well;
}

/* Light in the middle of a cell; below 0 where the cell lies outside the field. */
static double cell_lux(const nodes *n, size_t column, size_t row)
{
    const float *low = n->lux + row * n->columns + column, *high = low + n->columns;
    if (n->patch->inside) {
        const lw_point_mm middle = at(n, (double)column + 0.5, (double)row + 0.5);
        if (!lw_field_holds(n->patch->inside, middle.x, middle.y))
            return -1.0;
    }
    return 0.25 * ((double)low[0] + (double)low[1] + (double)high[0] + (double)high[1]);
}

static void fill_run(lw_canvas *canvas, const nodes *n, size_t from, size_t to, size_t row, int band)
{
    /* each row reaches half under the next one, which is painted later: no seams */
    const double a = (double)from, b = (double)to, low = (double)row;
    const double high = fmin(low + 1.5, (double)(n->rows - 1));
    const lw_point_mm box[4] = {paper_at(n, a, low), paper_at(n, b, low), paper_at(n, b, high), paper_at(n, a, high)};
    lw_canvas_fill(canvas, box, 4, lw_lux_band_ink(band));
}

static void fill_bands(lw_canvas *canvas, const nodes *n)
{
    for (size_t row = 0; row + 1 < n->rows; row++) {
        size_t from = 0;
        int band = -1;
        for (size_t column = 0; column < n->columns; column++) {
            const double lux = column + 1 < n->columns ? cell_lux(n, column, row) : -1.0;
            const int here = lux < 0.0 ? -1 : band_of(lux);
            if (here == band && column + 1 < n->columns)
                continue;
            if (band >= 0)
                fill_run(canvas, n, from, column, row, band);
            from = column;
            band = here;
        }
    }
}

/* Where value is crossed between two neighbouring nodes, 0..1; below 0: it is not. */
static double crossing(double a, double b, double value)
{
    return (a < value) == (b < value) ? -1.0 : (value - a) / (b - a);
}

/* The line of one value through one cell: 0, 2 or 4 points, in pairs. */
static size_t cross_cell(const nodes *n, size_t column, size_t row, double value, lw_point_mm out[4])
{
    const float *l = n->lux + row * n->columns + column, *h = l + n->columns;
    const double c = (double)column, r = (double)row;
    const double south = crossing((double)l[0], (double)l[1], value),
                 east = crossing((double)l[1], (double)h[1], value);
    const double north = crossing((double)h[0], (double)h[1], value),
                 west = crossing((double)l[0], (double)h[0], value);
    size_t found = 0;
    if (south >= 0.0)
        out[found++] = paper_at(n, c + south, r);
    if (east >= 0.0)
        out[found++] = paper_at(n, c + 1.0, r + east);
    if (north >= 0.0)
        out[found++] = paper_at(n, c + north, r + 1.0);
    if (west >= 0.0)
        out[found++] = paper_at(n, c, r + west);
    return found;
}

static void draw_lines(lw_canvas *canvas, const nodes *n)
{
    lw_canvas_pen(canvas, 0.12, (lw_ink){0.35, 0.22, 0.0});
    for (int band = 1; band < LW_LUX_BANDS; band++) {
        for (size_t row = 0; row + 1 < n->rows; row++)
            for (size_t column = 0; column + 1 < n->columns; column++) {
                lw_point_mm ends[4];
                const size_t found = cross_cell(n, column, row, band_lx[band], ends);
                if (found && cell_lux(n, column, row) >= 0.0)
                    lw_canvas_add_segments(canvas, ends, found);
            }
        lw_canvas_stroke(canvas);
    }
}

bool lw_lux_bands(lw_canvas *canvas, const lw_ground_view *view, const lw_ground_patch *patch, const lw_lamp *lamps,
                  size_t lamp_count)
{
    nodes n = {.patch = patch, .view = view};
    const bool well = lay_nodes(&n) && light_nodes(&n, lamps, lamp_count);
    if (well) {
        fill_bands(canvas, &n);
        draw_lines(canvas, &n);
    }
    free(n.x_m);
    return well;
}
