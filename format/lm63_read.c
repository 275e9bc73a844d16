/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reader of LM-63 files: see lanewick/lm63.h.
 */
#include "lm63_inside.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const double metre_per_foot = 0.3048; /* exact, international foot of 1959 */

static bool list(lw_lm63_reader *r, size_t line, lw_severity severity, const char *format, va_list arguments)
{
    lw_lm63 *out = r->out;
    lw_lm63_defect told = {.line = line, .severity = severity};
    (void)vsnprintf(told.text, sizeof told.text, format, arguments);
    if (out->defect_count < (severity == LW_FATAL ? LW_LM63_MAX_DEFECTS : LW_LM63_MAX_DEFECTS / 2))
        out->defects[out->defect_count++] = told;
    else
        out->defects_left_out++;
    if (severity != LW_FATAL)
        return true;
    char field[32];
    (void)snprintf(field, sizeof field, "line %zu", line);
    if (!r->failed)
        (void)lw_fail(r->err, LW_WRONG_INPUT, field, "Line %zu: %s.", line, told.text);
    r->failed = true;
    r->ends = r->ends || out->defect_count == LW_LM63_MAX_DEFECTS;
    return !r->ends;
}

bool lw_lm63_tell(lw_lm63_reader *r, size_t line, lw_severity severity, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const bool on = list(r, line, severity, format, arguments);
    va_end(arguments);
    return on;
}

bool lw_lm63_end(lw_lm63_reader *r, size_t line, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    (void)list(r, line, LW_FATAL, format, arguments);
    va_end(arguments);
    r->ends = true;
    return false;
}

static bool positive(lw_lm63_reader *r, const char *what, double *value)
{
    if (!lw_lm63_number(r, what, value))
        return false;
    if (*value > 0.0 || isnan(*value))
        return true;
    if (*value == 0.0 && r->tolerant) {
        *value = 1.0;
        return lw_lm63_tell(r, r->line, LW_MENDED, "%s is 0: taken as 1", what);
    }
    return lw_lm63_tell(r, r->line, LW_FATAL, "%s is %g; it must be above 0", what, *value);
}

static bool lumens(lw_lm63_reader *r)
{
    lw_lm63 *out = r->out;
    if (!lw_lm63_number(r, "lumens per lamp", &out->lumens_per_lamp))
        return false;
    r->lumens_line = r->line;
    out->stated_lumens = out->lumens_per_lamp > 0.0 ? out->lamps * out->lumens_per_lamp : -1.0;
    if (out->lumens_per_lamp == 0.0)
        return lw_lm63_tell(r, r->line, LW_TOLD, "lumens per lamp is 0: the candela are taken as absolute");
    if (out->lumens_per_lamp < 0.0 && out->lumens_per_lamp != -1.0)
        return lw_lm63_tell(r, r->line, LW_FATAL,
                            "lumens per lamp is %g; it must be above 0, or -1 for absolute candela",
                            out->lumens_per_lamp);
    return true;
}

static bool counts_and_sizes(lw_lm63_reader *r, int *vertical, int *horizontal)
{
    lw_lm63 *out = r->out;
    int lamps = 0, units = 0;
    if (!lw_lm63_whole(r, "the number of lamps", 1, 1000, &lamps))
        return false;
    out->lamps = lamps;
    if (!lumens(r) || !positive(r, "the candela multiplier", &out->multiplier) ||
        !lw_lm63_whole(r, "the number of vertical angles", 2, LW_LM63_MAX_ANGLES, vertical) ||
        !lw_lm63_whole(r, "the number of horizontal angles", 1, LW_LM63_MAX_ANGLES, horizontal) ||
        !lw_lm63_whole(r, "the photometric type", 1, 3, &out->type) ||
        !lw_lm63_whole(r, "the unit of length", 1, 2, &units))
        return false;
    out->type = out->type == 0 ? 1 : out->type; /* told; the rest is read as type C */
    out->feet = units == 1;
    const double scale = out->feet ? metre_per_foot : 1.0;
    double size[3];
    if (!lw_lm63_numbers(r, "size", size, 3))
        return false;
    out->width_m = size[0] * scale;
    out->length_m = size[1] * scale;
    out->height_m = size[2] * scale;
    return true;
}

static bool factors(lw_lm63_reader *r)
{
    lw_lm63 *out = r->out;
    if (!positive(r, "the ballast factor", &out->ballast_factor) ||
        !(out->year <= 1991 ? positive(r, "the ballast-lamp factor", &out->middle_number)
                            : lw_lm63_number(r, "the number after the ballast factor", &out->middle_number)) ||
        !lw_lm63_number(r, "the input watts", &out->watts))
        return false;
    if (out->watts < 0.0)
        (void)lw_lm63_tell(r, r->line, LW_FATAL, "the input watts are %g; they cannot be below 0", out->watts);
    if (out->watts == 0.0)
        (void)lw_lm63_tell(r, r->line, LW_TOLD, "the input watts are 0: not stated");
    if (out->year >= 2019 && (out->middle_number < 1.0 || out->middle_number >= 2.0))
        (void)lw_lm63_tell(r, r->line, LW_TOLD, "the file generation type is %g; it lies between 1 and 2",
                           out->middle_number);
    return !r->ends;
}

/* Only the files of 1986 and 1991 have a ballast-lamp factor in the middle; later it is a code, never a factor. */
static double scale_of(const lw_lm63 *out)
{
    const double middle = out->year <= 1991 ? out->middle_number : 1.0;
    return out->multiplier * out->ballast_factor * middle;
}

static bool candela(lw_lm63_reader *r, double *values, size_t count)
{
    const double scale = scale_of(r->out);
    for (size_t i = 0; i < count; i++) {
        char name[64];
        (void)snprintf(name, sizeof name, "candela value %zu of %zu", i + 1, count);
        if (!lw_lm63_number(r, name, &values[i]))
            return false;
        if (values[i] < 0.0 &&
            !lw_lm63_tell(r, r->line, LW_FATAL, "%s is %g; light cannot be below 0", name, values[i]))
            return false;
        values[i] *= scale;
    }
    return true;
}

/* Planes 0..345 by 15 and the like: the plane 360 is the plane 0. The arrays have room for one plane more. */
static void close_circle(lw_lm63_reader *r, double *horizontal, double *values)
{
    lw_intensity *table = &r->out->table;
    const size_t n = table->horizontal_count, m = table->vertical_count;
    if (r->out->type != 1 || n < 3 || horizontal[0] != 0.0 || horizontal[n - 1] <= 270.0 || horizontal[n - 1] >= 360.0)
        return;
    const double step = horizontal[1] - horizontal[0];
    if (fabs(horizontal[n - 1] + step - 360.0) > 1e-6)
        return;
    horizontal[n] = 360.0;
    memcpy(values + n * m, values, m * sizeof *values);
    table->horizontal_count = n + 1;
    (void)lw_lm63_tell(r, r->line, r->tolerant ? LW_MENDED : LW_TOLD,
                       "the plane 360 is missing after %g: closed with the plane 0", horizontal[n - 1]);
}

static bool angles(lw_lm63_reader *r, bool vertical, double *deg, size_t n)
{
    const char *what = vertical ? "vertical" : "horizontal", *each = vertical ? "vertical angle" : "horizontal angle";
    const double low = r->out->type == 1 ? 0.0 : -90.0, high = r->out->type != 1 ? 90.0 : vertical ? 180.0 : 360.0;
    for (size_t i = 0; i < n; i++) {
        char name[64];
        (void)snprintf(name, sizeof name, "%s %zu of %zu", each, i + 1, n);
        if (!lw_lm63_number(r, name, &deg[i]))
            return false;
        if (deg[i] < low || deg[i] > high)
            (void)lw_lm63_tell(r, r->line, LW_FATAL, "%s angle %g lies outside %g to %g degree", what, deg[i], low,
                               high);
        else if (i && deg[i] <= deg[i - 1])
            (void)lw_lm63_tell(r, r->line, LW_FATAL, "%s angle %g comes after %g; angles must rise", what, deg[i],
                               deg[i - 1]);
    }
    return !r->ends;
}

/* Types A and B go to 90 degree both ways, from -90 or, mirrored, from 0 (from memory). */
static bool spans(lw_lm63_reader *r, const char *what, const double *deg, size_t n, size_t line)
{
    if (n < 2)
        return lw_lm63_tell(r, line, LW_FATAL, "type %c has one %s angle; its light needs angles from -90 or 0 to 90",
                            "CBA"[r->out->type - 1], what);
    if ((deg[0] == -90.0 || deg[0] == 0.0) && deg[n - 1] == 90.0)
        return true;
    return lw_lm63_tell(r, line, LW_LM63_MEND(r),
                        "the %s angles of type %c go from %g to %g; they must go from -90 or 0 to 90", what,
                        "CBA"[r->out->type - 1], deg[0], deg[n - 1]);
}

/* What only the whole table shows. */
static bool look_over(lw_lm63_reader *r, size_t angles_line, double *horizontal, double *values)
{
    lw_intensity *t = &r->out->table;
    if (r->out->type != 1)
        return spans(r, "vertical", t->vertical_deg, t->vertical_count, angles_line) &&
               spans(r, "horizontal", t->horizontal_deg, t->horizontal_count, angles_line);
    close_circle(r, horizontal, values);
    lw_lm63_oddities(r, angles_line);
    lw_error inner = {0};
    if (lw_intensity_check(t, &inner))
        return true;
    return lw_lm63_tell(r, angles_line, LW_FATAL, "%.*s", (int)strcspn(inner.message, "\n") - 1, inner.message);
}

static bool table(lw_lm63_reader *r, size_t vertical_count, size_t horizontal_count)
{
    lw_intensity *t = &r->out->table;
    double *vertical = lw_arena_take(r->arena, vertical_count, sizeof *vertical, r->err);
    double *horizontal = lw_arena_take(r->arena, horizontal_count + 1, sizeof *horizontal, r->err);
    double *values = lw_arena_take(r->arena, vertical_count * (horizontal_count + 1), sizeof *values, r->err);
    if (!vertical || !horizontal || !values)
        return false;
    *t = (lw_intensity){vertical_count, horizontal_count, vertical, horizontal, values, LW_SYMMETRY_ROUND};
    if (!angles(r, true, vertical, vertical_count) || !angles(r, false, horizontal, horizontal_count))
        return false;
    const size_t angles_line = r->line;
    if (!candela(r, values, vertical_count * horizontal_count) || !lw_lm63_finish(r) || r->failed)
        return false;
    return look_over(r, angles_line, horizontal, values);
}

/* Light that the lamps do not give, or hardly any of what they give: the lumens or a factor are wrong. */
static void sum_up(lw_lm63_reader *r)
{
    static const double most_share = 1.01, least_share = 0.2; /* of heads that are made (common practice) */
    lw_lm63 *out = r->out;
    out->lumens = out->type == 1 ? lw_intensity_flux_lm(&out->table, 0.0, 180.0)
                                 : lw_intensity_flux_ab_lm(&out->table, out->type == 3);
    if (out->stated_lumens <= 0.0)
        return;
    if (out->lumens > most_share * out->stated_lumens)
        (void)lw_lm63_tell(r, r->lumens_line, LW_LM63_MEND(r),
                           "the table gives %.0f lm, more than the %.0f lm of its lamps", out->lumens,
                           out->stated_lumens);
    else if (out->lumens < least_share * out->stated_lumens)
        (void)lw_lm63_tell(r, r->lumens_line, LW_LM63_MEND(r),
                           "the table gives %.0f lm, under a fifth of the %.0f lm of its lamps", out->lumens,
                           out->stated_lumens);
}

bool lw_lm63_read(const char *bytes, size_t length, bool tolerant, lw_arena *arena, lw_lm63 *out, lw_error *err)
{
    memset(out, 0, sizeof *out);
    lw_lm63_reader r = {
        .at = bytes, .end = bytes + length, .line = 1, .tolerant = tolerant, .arena = arena, .out = out, .err = err};
    if (length > LW_LM63_MAX_BYTES)
        return lw_fail(err, LW_WRONG_INPUT, "", "The file has %zu bytes; the most is %d.", length, LW_LM63_MAX_BYTES);
    if (length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0) {
        r.at += 3;
        (void)lw_lm63_tell(&r, 1, LW_TOLD, "the file begins with a byte-order mark");
    }
    if (memchr(bytes, '\0', length))
        return lw_fail(err, LW_WRONG_INPUT, "",
                       "The file holds zero bytes: it is not a text of single bytes (UTF-16?).");
    int vertical = 0, horizontal = 0; /* 0: told, and what follows cannot be counted */
    if (!lw_lm63_header(&r) || !counts_and_sizes(&r, &vertical, &horizontal) || !factors(&r) || vertical == 0 ||
        horizontal == 0 || !table(&r, (size_t)vertical, (size_t)horizontal))
        return false;
    if (!r.failed)
        sum_up(&r);
    return !r.failed;
}
