/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Intensity tables of type C: checks, symmetry, interpolation. Symmetries as in ANSI/IES LM-63-2002 and -2019
 * (horizontal angles 0; 0..90; 0..180; 0..360) and 90..270 of LM-63-1995.
 */
#include "lanewick/light.h"

#include <math.h>

const char *lw_symmetry_text(lw_symmetry symmetry)
{
    static const char *const texts[] =
        /* words */ {"round", "quadrant", "mirrored in the plane 0-180", "mirrored in the plane 90-270", "none"};
    return texts[symmetry];
}

static bool check_rising(const char *name, const double *deg, size_t n, double low, double high, lw_error *err)
{
    if (!lw_all_in_range(err, name, deg, n, low, high, "degree"))
        return false;
    for (size_t i = 1; i < n; i++)
        if (deg[i] <= deg[i - 1])
            return lw_fail(err, LW_WRONG_INPUT, name,
                           "%s: angle %zu (%g degree) is not larger than the one before it (%g).", name, i + 1, deg[i],
                           deg[i - 1]);
    return true;
}

static bool find_symmetry(lw_intensity *table, lw_error *err)
{
    static const struct {
        double first, last;
        lw_symmetry symmetry;
    } known[] = {{0.0, 90.0, LW_SYMMETRY_QUADRANT},
                 {0.0, 180.0, LW_SYMMETRY_MIRROR_0},
                 {90.0, 270.0, LW_SYMMETRY_MIRROR_90},
                 {0.0, 360.0, LW_SYMMETRY_NONE}};
    if (table->horizontal_count == 1) {
        table->symmetry = LW_SYMMETRY_ROUND;
        return true;
    }
    const double first = table->horizontal_deg[0], last = table->horizontal_deg[table->horizontal_count - 1];
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
        if (first == known[i].first && last == known[i].last) {
            table->symmetry = known[i].symmetry;
            return true;
        }
    return lw_fail(err, LW_WRONG_INPUT, "horizontal_deg",
                   "The horizontal angles go from %g to %g degree; they must be one plane, 0 to 90, 0 to 180, 90 to "
                   "270 or 0 to 360.",
                   first, last);
}

/* With planes 0..360 the first and the last are the same plane; more than 1 % apart the table denies its angles. */
static bool check_closed(const lw_intensity *table, lw_error *err)
{
    if (table->symmetry != LW_SYMMETRY_NONE)
        return true;
    const size_t n = table->vertical_count, last = (table->horizontal_count - 1) * n;
    const double allowed = 0.01 * lw_intensity_peak_cd(table);
    for (size_t v = 0; v < n; v++)
        if (fabs(table->candela[v] - table->candela[last + v]) > allowed)
            return lw_fail(err, LW_WRONG_INPUT, "candela",
                           "The planes 0 and 360 degree are the same plane but differ at %g degree: %g and %g cd.",
                           table->vertical_deg[v], table->candela[v], table->candela[last + v]);
    return true;
}

bool lw_intensity_check(lw_intensity *table, lw_error *err)
{
    if (table->vertical_count < 2 || table->horizontal_count < 1)
        return lw_fail(err, LW_WRONG_INPUT, "vertical_deg", "A table needs at least 2 vertical angles and 1 plane.");
    if (!check_rising("vertical_deg", table->vertical_deg, table->vertical_count, 0.0, 180.0, err) ||
        !check_rising("horizontal_deg", table->horizontal_deg, table->horizontal_count, 0.0, 360.0, err) ||
        !find_symmetry(table, err))
        return false;
    const double first = table->vertical_deg[0], last = table->vertical_deg[table->vertical_count - 1];
    if ((first != 0.0 && first != 90.0) || (last != 90.0 && last != 180.0))
        return lw_fail(err, LW_WRONG_INPUT, "vertical_deg",
                       "The vertical angles go from %g to %g degree; they must begin at 0 or 90 and end at 90 or 180.",
                       first, last);
    return lw_all_in_range(err, "candela", table->candela, table->vertical_count * table->horizontal_count, 0.0, 1e9,
                           "cd") &&
           check_closed(table, err);
}

/* The plane of the table that shows the light of plane c. */
static double fold(lw_symmetry symmetry, double c_deg)
{
    double c = fmod(c_deg, 360.0);
    c = c < 0.0 ? c + 360.0 : c;
    switch (symmetry) {
    case LW_SYMMETRY_QUADRANT:
        c = c > 180.0 ? 360.0 - c : c;
        return c > 90.0 ? 180.0 - c : c;
    case LW_SYMMETRY_MIRROR_0:
        return c > 180.0 ? 360.0 - c : c;
    case LW_SYMMETRY_MIRROR_90:
        c = c < 90.0 ? 180.0 - c : c;
        return c > 270.0 ? 540.0 - c : c;
    case LW_SYMMETRY_ROUND:
    case LW_SYMMETRY_NONE:
        break;
    }
    return c;
}

/* Index i with x[i] <= at < x[i + 1] and the share of the way, by halving; at lies inside the list. */
static size_t locate(const double *x, size_t n, double at, double *share)
{
    size_t low = 0, high = n - 1;
    while (high - low > 1) {
        const size_t middle = (low + high) / 2;
        if (x[middle] <= at)
            low = middle;
        else
            high = middle;
    }
    *share = (at - x[low]) / (x[high] - x[low]);
    return low;
}

double lw_intensity_cd(const lw_intensity *table, double c_deg, double gamma_deg)
{
    const size_t n = table->vertical_count;
    if (gamma_deg < table->vertical_deg[0] || gamma_deg > table->vertical_deg[n - 1])
        return 0.0;
    double down = 0.0, round = 0.0;
    const size_t v = locate(table->vertical_deg, n, gamma_deg, &down);
    const double *row = table->candela;
    if (table->horizontal_count == 1)
        return row[v] + down * (row[v + 1] - row[v]);
    const size_t h = locate(table->horizontal_deg, table->horizontal_count, fold(table->symmetry, c_deg), &round);
    const double *near = row + h * n, *far = near + n;
    const double a = near[v] + down * (near[v + 1] - near[v]), b = far[v] + down * (far[v + 1] - far[v]);
    return a + round * (b - a);
}
