/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Layers of an LED board in Gerber X2: see lanewick/gerber.h. Copper areas are regions with the name of their net,
 * lands are flashes with the name of their part and pin. The sections named are those of the specification, revision
 * 2022.02.
 */
#include "gerber_inside.h"

#include "lanewick/version.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { FIRST_APERTURE = 10, SHAPES = 16 };

long long lw_gerber_unit(double mm)
{
    return llround(mm * 1e6); /* %FSLAX46Y46*% with %MOMM*% */
}

static void head(FILE *out, const char *function, const char *polarity)
{
    (void)fprintf(out,
                  "%%TF.GenerationSoftware,lanewick,lanewick,%s*%%\n%%TF.SameCoordinates*%%\n%%TF.FileFunction,%s*%%\n"
                  "%%TF.FilePolarity,%s*%%\n%%TF.Part,Single*%%\n%%FSLAX46Y46*%%\n%%MOMM*%%\n%%LPD*%%\nG01*\nG75*\n",
                  LW_VERSION, function, polarity);
}

static void region(FILE *out, const lw_board_box *box)
{
    const long long x0 = lw_gerber_unit(box->x0_mm), y0 = lw_gerber_unit(box->y0_mm);
    const long long x1 = lw_gerber_unit(box->x1_mm), y1 = lw_gerber_unit(box->y1_mm);
    (void)fprintf(out, "G36*\nX%lldY%lldD02*\nX%lldY%lldD01*\nX%lldY%lldD01*\nX%lldY%lldD01*\nX%lldY%lldD01*\nG37*\n",
                  x0, y0, x1, y0, x1, y1, x0, y1, x0, y0);
}

static void net_name(const lw_led_board *board, int net, char out[24])
{
    if (net < LW_BOARD_FIRST)
        (void)snprintf(out, 24, "%s", net == LW_BOARD_PLUS ? "PLUS" : "MINUS");
    else
        (void)snprintf(out, 24, "S%d_%d", (net - LW_BOARD_FIRST) / board->series + 1,
                       (net - LW_BOARD_FIRST) % board->series + 1);
}

/* The shapes of lands, each an aperture of its own. */
typedef struct shapes {
    const lw_board_pad *of[SHAPES];
    int count;
} shapes;

static int shape_of(shapes *list, const lw_board_pad *pad)
{
    for (int i = 0; i < list->count; i++) {
        const lw_board_pad *known = list->of[i];
        if (known->round == pad->round && known->width_mm == pad->width_mm && known->height_mm == pad->height_mm)
            return FIRST_APERTURE + i;
    }
    if (list->count < SHAPES)
        list->of[list->count++] = pad;
    return FIRST_APERTURE + list->count - 1;
}

static void define(FILE *out, const shapes *list, bool copper)
{
    for (int i = 0; i < list->count; i++) {
        const lw_board_pad *pad = list->of[i];
        if (copper)
            (void)fprintf(out, "%%TA.AperFunction,%s*%%\n", pad->drill_mm > 0.0 ? "ComponentPad" : "SMDPad,SMDef");
        if (pad->round)
            (void)fprintf(out, "%%ADD%dC,%.4f*%%\n", FIRST_APERTURE + i, pad->width_mm);
        else
            (void)fprintf(out, "%%ADD%dR,%.4fX%.4f*%%\n", FIRST_APERTURE + i, pad->width_mm, pad->height_mm);
        if (copper)
            (void)fputs("%TD*%\n", out);
    }
}

static void flash_pads(FILE *out, const lw_led_board *board, bool copper)
{
    shapes list = {.count = 0};
    for (size_t i = 0; i < board->pad_count; i++)
        (void)shape_of(&list, &board->pad[i]);
    define(out, &list, copper);
    int last = 0;
    for (size_t i = 0; i < board->pad_count; i++) {
        const lw_board_pad *pad = &board->pad[i];
        const int shape = shape_of(&list, pad);
        char net[24];
        net_name(board, pad->net, net);
        if (shape != last)
            (void)fprintf(out, "D%d*\n", shape);
        last = shape;
        if (copper && pad->part >= 0)
            (void)fprintf(out, "%%TO.P,%c%d,%d*%%\n", board->part[pad->part].kind, board->part[pad->part].number,
                          pad->pin);
        else if (copper)
            (void)fprintf(out, "%%TO.P,X1,%d*%%\n", pad->pin);
        if (copper)
            (void)fprintf(out, "%%TO.N,%s*%%\n", net);
        (void)fprintf(out, "X%lldY%lldD03*\n", lw_gerber_unit(pad->x_mm), lw_gerber_unit(pad->y_mm));
        if (copper)
            (void)fputs("%TD*%\n", out);
    }
}

static void copper_layer(FILE *out, const lw_led_board *board)
{
    head(out, board->through ? "Copper,L2,Bot" : "Copper,L1,Top", "Positive");
    (void)fputs("%TA.AperFunction,Conductor*%\n", out);
    for (size_t i = 0; i < board->copper_count; i++) {
        char net[24];
        net_name(board, board->copper[i].net, net);
        (void)fprintf(out, "%%TO.N,%s*%%\n", net);
        region(out, &board->copper[i].box);
    }
    (void)fputs("%TD*%\n", out);
    flash_pads(out, board, true);
    (void)fputs("M02*\n", out);
}

static void mask_layer(FILE *out, const lw_led_board *board)
{
    head(out, board->through ? "Soldermask,Bot" : "Soldermask,Top", "Negative");
    flash_pads(out, board, false);
    (void)fputs("M02*\n", out);
}

static void outline(FILE *out, const lw_led_board *board)
{
    const long long w = lw_gerber_unit(board->width_mm), h = lw_gerber_unit(board->height_mm);
    head(out, "Profile,NP", "Positive");
    (void)fprintf(out,
                  "%%TA.AperFunction,Profile*%%\n%%ADD10C,0.1000*%%\n%%TD*%%\nD10*\nX0Y0D02*\nX%lldY0D01*\n"
                  "X%lldY%lldD01*\nX0Y%lldD01*\nX0Y0D01*\nM02*\n",
                  w, w, h, h);
}

const char *lw_board_file_ending(lw_board_file file)
{
    static const char *const endings[] = {"copper.gbr", "mask.gbr", "legend.gbr", "outline.gbr", "holes.drl"};
    return endings[file];
}

char *lw_board_file_text(const lw_led_board *board, lw_board_file file)
{
    static void (*const writers[])(FILE *, const lw_led_board *) = {copper_layer, mask_layer, lw_gerber_legend, outline,
                                                                    lw_gerber_drill};
    char *bytes = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&bytes, &length);
    if (!out)
        return NULL;
    if (file == LW_BOARD_FILE_LEGEND)
        head(out, "Legend,Top", "Positive");
    writers[file](out, board);
    if (fclose(out) != 0) {
        free(bytes);
        return NULL;
    }
    return bytes;
}
