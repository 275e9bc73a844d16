/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick light: photometric files and the light on a lane.
 */
#include "cli.h"

#include "lanewick/light_json.h"
#include "lanewick/lm63.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 32 << 20 };

static void print_file(const lw_lm63 *file)
{
    static const char *const severities[] = {"note", "mended", "fatal"};
    (void)printf("version          %s\n", file->version);
    (void)printf("light            %.1f lm (integrated from the table)\n", file->lumens);
    if (file->stated_lumens > 0.0)
        (void)printf("lamps            %.0f lm, of which %.1f %% leave the head\n", file->stated_lumens,
                     100.0 * file->lumens / file->stated_lumens);
    (void)printf("largest          %.1f cd\n", lw_intensity_peak_cd(&file->table));
    (void)printf("type             %c, %zu vertical by %zu horizontal angles\n", "CBA"[file->type - 1],
                 file -> table.vertical_count, file->table.horizontal_count);
    if (file->type == 1)
        (void)printf("symmetry         %s\n", lw_symmetry_text(file->table.symmetry));
    (void)printf("power            %g W\n", file->watts);
    for (size_t i = 0; i < file->defect_count; i++)
        (void)printf("%-16s line %zu: %s\n", severities[file->defects[i].severity], file->defects[i].line,
                     file->defects[i].text);
}

static int read_file(const char *path, bool tolerant, bool json)
{
    static lw_lm63 file;
    lw_error err = {0};
    char *bytes = NULL;
    size_t length = 0;
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    const bool done = lw_cli_read_file(path, LW_LM63_MAX_BYTES, &bytes, &length, &err) &&
                      lw_lm63_read(bytes, length, tolerant, &arena, &file, &err);
    int code = LW_EXIT_DONE;
    if (!done) {
        code = lw_cli_fail(&err, json);
    } else if (json) {
        char *text = lw_lm63_to_json(&file);
        (void)puts(text ? text : "");
        free(text);
    } else {
        print_file(&file);
    }
    free(bytes);
    free(arena.base);
    return code;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    const bool tolerant = lw_cli_take_switch(&argc, argv, "--tolerant");
    if (!lw_cli_no_more_options(argc, argv, &err))
        return lw_cli_fail(&err, json);
    if (argc == 3 && strcmp(argv[1], "read") == 0)
        return read_file(argv[2], tolerant, json);
    (void)lw_fail(&err, LW_WRONG_INPUT, "light",
                  "Say what to do: lanewick light read FILE.ies; see lanewick light --help.");
    return lw_cli_fail(&err, json);
}

const lw_command lw_cmd_light = {
    .name = "light",
    .summary = "intensity files and the light on a lane",
    .usage = "lanewick light read FILE.ies    lumens, largest intensity, symmetry and defects of an LM-63 file\n"
             "  --tolerant                    mend what can be mended and say so; without it a defect is refused\n"
             "  --json                        one JSON object\n",
    .run = run,
};
