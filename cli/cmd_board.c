/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick board: the LED boards of a plan as files for a board maker.
 */
#include "cli.h"
#include "plan_load.h"

#include "lanewick/desk_board.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct options {
    const char *out, *led, *pads, *pitch, *copper;
    bool json;
} options;

static bool take(int *argc, char **argv, options *o, lw_error *err)
{
    o->json = lw_cli_take_switch(argc, argv, "--json");
    return lw_cli_take_option(argc, argv, "--out", &o->out, err) &&
           lw_cli_take_option(argc, argv, "--led", &o->led, err) &&
           lw_cli_take_option(argc, argv, "--pads", &o->pads, err) &&
           lw_cli_take_option(argc, argv, "--pitch", &o->pitch, err) &&
           lw_cli_take_option(argc, argv, "--copper", &o->copper, err) && lw_cli_no_more_options(*argc, argv, err);
}

/* Numbers with commas between them, exactly `count`. */
static bool numbers(const char *text, double *out, int count)
{
    for (int i = 0; i < count; i++) {
        char *end;
        errno = 0;
        out[i] = strtod(text, &end);
        if (end == text || errno != 0 || *end != (i + 1 < count ? ',' : '\0'))
            return false;
        text = end + 1;
    }
    return true;
}

static bool choose_lands(const options *o, lw_led_lands *lands, lw_error *err)
{
    const char *name = o->led ? o->led : "2835";
    char known[80] = "";
    double own[4];
    if (o->pads && o->led)
        return lw_fail(err, LW_WRONG_INPUT, "pads", "Give --led or --pads, not both.");
    if (o->pads) {
        if (!numbers(o->pads, own, 4))
            return lw_fail(
                err, LW_WRONG_INPUT, "pads",
                "pads is \"%.40s\"; give four lengths in mm: plus, minus, height, gap, such as 1.1,1.9,2.1,0.6.",
                o->pads);
        const double length = own[0] + own[1] + own[3];
        *lands = (lw_led_lands){"own", length, own[2], own[0], own[1], own[2], own[3], 0.0};
        return lw_led_lands_check(lands, err);
    }
    const lw_led_lands *found = lw_led_lands_find(name);
    if (found) {
        *lands = *found;
        return true;
    }
    for (size_t i = 0; i < lw_led_lands_count; i++)
        (void)snprintf(known + strlen(known), sizeof known - strlen(known), "%s%s", i ? ", " : "",
                       lw_led_lands_known[i].name);
    return lw_fail(err, LW_WRONG_INPUT, "led", "led is \"%.20s\"; known are %s, or give its lands with --pads.", name,
                   known);
}

static bool choose(const options *o, lw_board_request *request, lw_error *err)
{
    request->pitch_mm = 10.16;
    request->copper_um = 35.0;
    if (o->pitch && !numbers(o->pitch, &request->pitch_mm, 1))
        return lw_fail(err, LW_WRONG_INPUT, "pitch", "pitch is \"%.20s\"; give millimetres, such as 12.5.", o->pitch);
    if (o->copper && !numbers(o->copper, &request->copper_um, 1))
        return lw_fail(err, LW_WRONG_INPUT, "copper", "copper is \"%.20s\"; give micrometres, such as 70.", o->copper);
    return choose_lands(o, &request->lands, err);
}

static void print_json(const lw_board_made *made, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const lw_board_made *m = &made[i];
        (void)printf("%s{\"series\":%d,\"strings\":%d,\"width_mm\":%.3f,\"height_mm\":%.3f,\"led_a\":%.4g,"
                     "\"resistor_ohm\":%.4g,\"resistor_rated_w\":%.3g,\"led_copper_cm2\":%.3f,\"rise_k\":%.1f,"
                     "\"pieces_of_copper\":%d,\"nearest_mm\":%.3f,\"edge_mm\":%.3f,\"files\":[",
                     i ? "," : "{\"boards\":[", m->series, m->strings, m->width_mm, m->height_mm, m->led_a,
                     m->resistor_ohm, m->resistor_rated_w, m->led_cm2, m->rise_k, m->report.pieces,
                     m->report.nearest_mm, m->report.edge_mm);
        for (int f = 0; f < LW_BOARD_FILES; f++)
            (void)printf("%s\"%s\"", f ? "," : "", m->file[f]);
        (void)fputs("]}", stdout);
    }
    (void)puts(count ? "]}" : "{\"boards\":[]}");
}

static void print_text(const lw_board_made *made, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        const lw_board_made *m = &made[i];
        lw_cli_print("%s: %d x %d = %d LEDs at %.0f mA, %.0f lm; board %.1f x %.1f mm\n", m->lamp, m->series,
                     m->strings, m->series * m->strings, 1e3 * m->led_a, m->light_lm, m->width_mm, m->height_mm);
        lw_cli_print("  %d resistors of %.3g ohm (%g W); %.2f cm2 of copper cool each LED, the board gets about %.0f K "
                     "warmer than the air\n",
                     m->strings, m->resistor_ohm, m->resistor_rated_w, m->led_cm2, m->rise_k);
        lw_cli_print("  examined: %d pieces of copper, as many as nets; nearest %.2f mm apart, %.1f mm from the edge\n",
                     m->report.pieces, m->report.nearest_mm, m->report.edge_mm);
        for (int f = 0; f < LW_BOARD_FILES; f++)
            (void)printf("  %s\n", m->file[f]);
    }
    lw_cli_print(
        "One layer of copper; say to the maker: white mask, white board or metal core, 1.6 mm. Print the copper at "
        "100 %% first\nand lay one of your LEDs on it: makers differ. CAUTION: do not look into lit LEDs; a board "
        "over 60 degC wants metal behind it.\n");
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    options o = {0};
    lw_board_request request = {0};
    if (!take(&argc, argv, &o, &err) || !choose(&o, &request, &err))
        return lw_cli_fail(&err, o.json);
    if (argc != 2 || !o.out) {
        (void)lw_fail(&err, LW_WRONG_INPUT, "out",
                      "Give a plan and a folder: lanewick board PLAN.json --out DIR; see lanewick board --help.");
        return lw_cli_fail(&err, o.json);
    }
    lw_plan *plan = malloc(sizeof *plan);
    lw_board_made *made = calloc(LW_BRIEF_LAMPS, sizeof *made);
    size_t count = 0;
    int code = LW_EXIT_DONE;
    request.plan = plan;
    if (!plan || !made)
        (void)lw_fail(&err, LW_STORAGE, "", "There is not enough memory for a plan.");
    if (err.family != LW_OK || !lw_cli_load_plan(argv[1], plan, &err) ||
        !lw_desk_boards(&request, o.out, made, &count, &err))
        code = lw_cli_fail(&err, o.json);
    else if (o.json)
        print_json(made, count);
    else
        print_text(made, count);
    free(made);
    free(plan);
    return code;
}

const lw_command lw_cmd_board = {
    .name = "board",
    .summary = "the LED boards of a plan as files for a board maker (Gerber X2 and drill)",
    .usage =
        "usage: lanewick board PLAN.json --out DIR [--led 2835|5730|5mm | --pads PLUS,MINUS,HEIGHT,GAP]\n"
        "                      [--pitch MM] [--copper UM] [--json]\n\n"
        "  PLAN.json        a plan as written by lanewick plan --out, or a brief; it is computed anew\n"
        "  --out DIR        folder for the files; each is written whole or not at all\n"
        "  --led            lands of a common LED (2835); 5mm: with wires\n"
        "  --pads           your LED's lands in mm: plus, minus (along the string), height, gap between them\n"
        "  --pitch MM       LED to LED and string to string (10.16)\n"
        "  --copper UM      thickness of the copper (35)\n\n"
        "Copper, mask, legend and outline as Gerber X2, holes as an Excellon drill file, one set for each kind of\n"
        "lamp. A refused plan gets none (exit code 3).\n",
    .run = run,
};
