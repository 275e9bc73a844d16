/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The white print of an LED board: two lines beside each body, a bar at the minus of LEDs, names in strokes.
 */
#include "gerber_inside.h"

#include <math.h>
#include <string.h>

/* Strokes of each letter on a field 4 wide and 6 high: pairs of places "xy", a blank lifts the pen. */
static const struct letter {
    char sign;
    const char *strokes;
} letters[] = {
    {'0', "00 40 46 06 00"},         {'1', "16 26 20"},
    {'2', "06 46 43 03 00 40"},      {'3', "06 46 40 00 | 13 43"},
    {'4', "06 03 43 | 46 40"},       {'5', "46 06 03 43 40 00"},
    {'6', "46 06 00 40 43 03"},      {'7', "06 46 10"},
    {'8', "00 40 46 06 00 | 03 43"}, {'9', "00 40 46 06 03 43"},
    {'D', "00 06 26 44 42 20 00"},   {'R', "00 06 46 43 03 | 13 40"},
    {'+', "03 43 | 25 21"},          {'-', "03 43"},
};

static void line(FILE *out, double x0, double y0, double x1, double y1)
{
    (void)fprintf(out, "X%lldY%lldD02*\nX%lldY%lldD01*\n", lw_gerber_unit(x0), lw_gerber_unit(y0), lw_gerber_unit(x1),
                  lw_gerber_unit(y1));
}

static void letter(FILE *out, char sign, double x, double y, double unit)
{
    for (size_t i = 0; i < sizeof letters / sizeof letters[0]; i++) {
        if (letters[i].sign != sign)
            continue;
        bool down = false;
        for (const char *s = letters[i].strokes; *s; s++) {
            if (*s == '|')
                down = false;
            if (*s == ' ' || *s == '|')
                continue;
            (void)fprintf(out, "X%lldY%lldD0%d*\n", lw_gerber_unit(x + unit * (s[0] - '0')),
                          lw_gerber_unit(y + unit * (s[1] - '0')), down ? 1 : 2);
            down = true;
            s++;
        }
    }
}

static void words(FILE *out, const char *text, double middle, double y, double height_mm)
{
    const double unit = height_mm / 6.0, step = 6.0 * unit;
    double x = middle - 0.5 * step * (double)strlen(text) + unit;
    for (; *text; text++, x += step)
        letter(out, *text, x, y, unit);
}

/* Half the height that the lands of a part take, and how far they reach along the string. */
static void reach(const lw_led_board *board, int part, double *half_mm, double *left_mm, double *right_mm)
{
    const lw_board_box *body = &board->part[part].body;
    *half_mm = 0.5 * (body->y1_mm - body->y0_mm);
    *left_mm = body->x0_mm;
    *right_mm = body->x1_mm;
    for (size_t i = 0; i < board->pad_count; i++) {
        const lw_board_pad *pad = &board->pad[i];
        if (pad->part != part)
            continue;
        *half_mm = fmax(*half_mm, 0.5 * pad->height_mm);
        *left_mm = fmin(*left_mm, pad->x_mm - 0.5 * pad->width_mm);
        *right_mm = fmax(*right_mm, pad->x_mm + 0.5 * pad->width_mm);
    }
}

void lw_gerber_legend(FILE *out, const lw_led_board *board)
{
    static const double away_mm = 0.3, text_mm = 1.2;
    (void)fputs("%ADD10C,0.1500*%\n%ADD11C,0.3000*%\nD10*\n", out);
    for (size_t i = 0; i < board->part_count; i++) {
        const lw_board_part *part = &board->part[i];
        const double y = 0.5 * (part->body.y0_mm + part->body.y1_mm);
        double half, left, right;
        char name[16];
        reach(board, (int)i, &half, &left, &right);
        half += away_mm;
        line(out, part->body.x0_mm, y + half, part->body.x1_mm, y + half);
        line(out, part->body.x0_mm, y - half, part->body.x1_mm, y - half);
        (void)snprintf(name, sizeof name, "%c%d", part->kind, part->number);
        words(out, name, 0.5 * (left + right), y + half + 0.3, text_mm);
        if (part->kind == 'D') {
            (void)fputs("D11*\n", out);
            line(out, right + away_mm, y - half, right + away_mm, y + half);
            (void)fputs("D10*\n", out);
        }
    }
    for (size_t i = 0; i < board->pad_count; i++)
        if (board->pad[i].part < 0)
            words(out, board->pad[i].pin == 1 ? "+" : "-", board->pad[i].x_mm + 3.4, board->pad[i].y_mm - 1.0, 2.0);
    (void)fputs("M02*\n", out);
}
