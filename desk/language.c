/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The language that the user of this machine has chosen once: a file of one line among the user's settings.
 */
#include "lanewick/desk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The user's folder for settings and, in it, our own (XDG Base Directory Specification). */
static bool folder_of_choice(char *out, size_t size, const char *inner)
{
    const char *config = getenv("XDG_CONFIG_HOME"), *home = getenv("HOME");
    int length = -1;
    if (config && config[0] == '/')
        length = snprintf(out, size, "%s%s", config, inner);
    else if (home && home[0])
        length = snprintf(out, size, "%s/.config%s", home, inner);
    return length > 0 && (size_t)length < size;
}

const lw_words *lw_desk_language_kept(void)
{
    char path[1024], code[8] = "";
    if (!folder_of_choice(path, sizeof path, "/lanewick/language"))
        return NULL;
    FILE *file = fopen(path, "r");
    if (!file)
        return NULL;
    if (!fgets(code, sizeof code, file))
        code[0] = '\0';
    (void)fclose(file);
    code[strcspn(code, "\n")] = '\0';
    return lw_words_find(code);
}

bool lw_desk_language_keep(const lw_words *words, lw_error *err)
{
    char outer[1024], folder[1024], text[16];
    if (!folder_of_choice(outer, sizeof outer, "") || !folder_of_choice(folder, sizeof folder, "/lanewick"))
        return lw_fail(err, LW_STORAGE, "", "There is no folder to keep the choice in: HOME is not set.");
    (void)snprintf(text, sizeof text, "%s\n", words->code);
    return lw_desk_make_folder(outer, err) && lw_desk_write(folder, "language", text, err);
}
