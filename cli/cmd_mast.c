/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick mast: does a mast stand in the wind of its place?
 */
#include "cli.h"

#include "lanewick/mast_json.h"

#include <stdio.h>
#include <stdlib.h>

enum { MAX_BYTES = 1 << 20 };

static void print_numbers(const lw_mast_result *r)
{
    (void)printf("wind pressure    %.0f N/m2 at the panel\n", r->wind.peak_pressure_pa);
    (void)printf("sideways         panel %.0f N, box %.0f N, head %.0f N, pipe %.0f N\n", r->panel_n, r->box_n,
                 r->head_n, r->pipe_n);
    (void)printf("at the ground    %.0f N, %.0f N m\n", r->bending.shear_n, r->bending.moment_nm);
    (void)printf("stress           %.4g MPa with load factor, allowed %.4g MPa\n", r->bending.factored_mpa,
                 r->bending.allowed_mpa);
    (void)printf("reserve          %.2f (a licensed engineer decides)\n", r->bending.reserve);
    (void)printf("sway             %.0f mm at the top\n", r->bending.sway_mm);
    (void)printf("swing            %.2f Hz; vortices shed with it at %.1f m/s\n", r->vibration.frequency_hz,
                 r->vibration.critical_m_s);
    (void)printf("base             %.2f m deep; overturns at %.1f times the wind (sand)\n", r->depth_m, r->base_margin);
}

static int answer(const lw_mast_wish *wish, const lw_mast_result *r, bool json)
{
    if (json) {
        char *text = lw_mast_to_json(wish, r);
        (void)puts(text ? text : "");
        free(text);
    } else {
        (void)printf("verdict          %s\n", lw_mast_verdict_text(r->verdict));
        for (size_t i = 0; i < r->reasons; i++)
            (void)printf("                 %s\n", r->notes[i]);
        if (wish->wind_given)
            print_numbers(r);
        for (size_t i = r->reasons; i < r->note_count; i++)
            (void)printf("CAUTION: %s\n", r->notes[i]);
    }
    return r->verdict == LW_MAST_FALLS ? LW_EXIT_REFUSED : LW_EXIT_DONE;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    lw_mast_wish wish;
    static lw_mast_result result;
    char *bytes = NULL;
    size_t length = 0;
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    if (!lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, json);
    if (argc != 2) {
        (void)lw_fail(&err, LW_WRONG_INPUT, "file", "lanewick mast needs one mast document; see lanewick mast --help.");
        return lw_cli_fail(&err, json);
    }
    const bool done = lw_cli_read_file(argv[1], MAX_BYTES, &bytes, &length, &err) &&
                      lw_mast_from_json(bytes, length, &wish, &err) && lw_mast_check(&wish, &result, &err);
    const int code = done ? answer(&wish, &result, json) : lw_cli_fail(&err, json);
    free(bytes);
    return code;
}

const lw_command lw_cmd_mast = {
    .name = "mast",
    .summary = "does a mast stand: wind, pipe, swing, base",
    .usage = "lanewick mast FILE.json        checks a mast (format lanewick.mast/1); --json for one JSON object;\n"
             "                               exit 3 when it does not stand\n",
    .run = run,
};
