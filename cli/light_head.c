/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick light head: a head worked out, and written as an LM-63 file.
 */
#include "light_verbs.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { ARENA_BYTES = 32 << 20 };

static void print_diffuser(const lw_head *head, const lw_head_light *light)
{
    if (!head->has_diffuser)
        return;
    lw_cli_print("through          %.2f (%.2f to %.2f) of the light: %s of %s, %g years old\n", light->through.usual,
                 light->through.low, light->through.high, head->diffuser_kind, head->diffuser_material,
                 head->diffuser.years);
    if (head->change_from_y > 0.0 && head->diffuser.years >= head->change_from_y)
        lw_cli_print("CAUTION          this material gets brittle or yellow from %g years: change it before\n",
                     head->change_from_y);
}

static void print_head(const lw_head *head, const lw_head_light *light)
{
    const lw_beam_numbers *n = &light->numbers;
    if (light->lumens_sd_share > 0.0)
        lw_cli_print("light            %.0f lm, one standard deviation %.0f lm\n", n->lumens,
                     light->lumens_sd_share * n->lumens);
    else
        lw_cli_print("light            %.0f lm\n", n->lumens);
    if (light->fitted)
        lw_cli_print("shape            cosine to the power of %.2f (one standard deviation %.2f), misfit %.0f %%\n",
                     light->fit.cos_power, light->fit.cos_power_sd, 100.0 * light->fit.misfit);
    print_diffuser(head, light);
    lw_cli_print("largest          %.1f cd; half of that below the head at %.0f degree\n", n->peak_cd, n->half_deg);
    lw_cli_print("by zones         0-30: %.0f, 30-60: %.0f, 60-80: %.0f, 80-90: %.0f, upward: %.0f lm\n", n->zone_lm[0],
                 n->zone_lm[1], n->zone_lm[2], n->zone_lm[3], n->zone_lm[4]);
    lw_cli_print("lost upward      %.1f %% of the light\n", 100.0 * n->upward_share);
    if (n->glare_class)
        lw_cli_print("glare            intensity class G*%d when level (EN 13201-2; 6 glares least)\n", n->glare_class);
    else
        lw_cli_print(
            "glare            no intensity class is met (EN 13201-2): it glares; a hood or a lower bottle helps\n");
    if (head->watts > 0.0)
        lw_cli_print("efficacy         %.0f lm/W\n", n->lumens / head->watts);
    if (head->colour_k > 0.0) {
        const lw_light_colour colour = lw_head_colour(head, light);
        lw_cli_print("colour           %s, %.0f K. %s\n", colour.grade, head->colour_k, colour.advice);
    }
    lw_cli_print("CAUTION          do not look into bare LEDs; measure at low current or with paper in front\n");
}

static bool write_out(const lw_head *head, const lw_head_light *light, const char *path, lw_error *err)
{
    char today[16];
    const time_t now = time(NULL);
    struct tm clock;
    (void)strftime(today, sizeof today, "%Y-%m-%d", localtime_r(&now, &clock));
    return lw_desk_head_write(head, light, today, path, err);
}

int lw_light_head(const char *path, const lw_light_options *options)
{
    lw_error err = {0};
    lw_head *head = NULL;
    lw_head_light *light = NULL;
    char *bytes = NULL, folder[1024];
    size_t length = 0;
    lw_arena arena = lw_cli_arena(ARENA_BYTES);
    lw_cli_folder_of(path, folder, sizeof folder);
    const bool done = lw_cli_read_file(path, 4 << 20, &bytes, &length, &err) &&
                      lw_desk_head(bytes, length, folder, &arena, &head, &light, &err) &&
                      (!options->out || write_out(head, light, options->out, &err)) &&
                      (!options->picture.path || lw_desk_head_picture(head, light, &options->picture, &err));
    int code = LW_EXIT_DONE;
    if (!done) {
        code = lw_cli_fail(&err, options->json);
    } else if (options->json) {
        char *text = lw_head_to_json(head, light);
        (void)puts(text ? text : "");
        free(text);
    } else {
        print_head(head, light);
        if (options->out)
            lw_cli_print("written          %s (ANSI/IES LM-63-2019)\n", options->out);
    }
    free(bytes);
    free(arena.base);
    return code;
}
