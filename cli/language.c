/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The language of what is printed for people: LANGUAGE (GNU gettext's list of codes with colons), else the one that
 * was chosen once with `lanewick language`, else that of the system (POSIX: LC_ALL, LC_MESSAGES, LANG), else English.
 */
#include "cli.h"

#include "lanewick/desk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* "fr_FR.UTF-8" -> the table of "fr". */
static const lw_words *of_locale(const char *locale, size_t length)
{
    char code[8] = "";
    const size_t letters = strcspn(locale, "_.@:");
    if (letters > length || letters >= sizeof code)
        return NULL;
    memcpy(code, locale, letters);
    code[letters] = '\0';
    return lw_words_find(code);
}

static const lw_words *of_list(const char *list)
{
    while (*list) {
        const size_t length = strcspn(list, ":");
        const lw_words *words = of_locale(list, length);
        if (words)
            return words;
        list += length + (list[length] == ':');
    }
    return NULL;
}

static const lw_words *of_environment(void)
{
    static const char *const system[] = {"LC_ALL", "LC_MESSAGES", "LANG"};
    const char *list = getenv("LANGUAGE");
    const lw_words *words = list && list[0] ? of_list(list) : NULL;
    if (!words)
        words = lw_desk_language_kept();
    for (size_t i = 0; !words && i < sizeof system / sizeof system[0]; i++) {
        const char *locale = getenv(system[i]);
        if (!locale || !locale[0])
            continue;
        words = of_locale(locale, strlen(locale));
        break;
    }
    return words ? words : lw_words_find("en");
}

static const lw_words *spoken; /* one process serves one person */

const lw_words *lw_cli_words(void)
{
    if (!spoken)
        spoken = of_environment();
    return spoken;
}

bool lw_cli_choose_language(const char *code, lw_error *err)
{
    const lw_words *words = lw_words_find(code);
    if (words)
        spoken = words;
    return words || lw_cli_unknown_language(code, err);
}

bool lw_cli_unknown_language(const char *code, lw_error *err)
{
    char known[120] = "";
    for (size_t i = 0; i < lw_language_count; i++)
        (void)snprintf(known + strlen(known), sizeof known - strlen(known), "%s%s", i ? ", " : "",
                       lw_languages[i]->code);
    return lw_fail(err, LW_WRONG_INPUT, "language", "There is no language \"%.20s\"; there are %s.", code, known);
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    if (argc > 2 || !lw_cli_no_more_options(argc, argv, &err)) {
        if (err.family == LW_OK)
            (void)lw_fail(&err, LW_WRONG_INPUT, "language", "Give one language: lanewick language fr.");
        return lw_cli_fail(&err, false);
    }
    const lw_words *words = argc == 2 ? lw_words_find(argv[1]) : lw_cli_words();
    if (!words)
        (void)lw_cli_unknown_language(argv[1], &err);
    if (!words || (argc == 2 && !lw_desk_language_keep(words, &err)))
        return lw_cli_fail(&err, false);
    for (size_t i = 0; i < lw_language_count; i++)
        (void)printf("%s %s  %s\n", lw_languages[i] == words ? ">" : " ", lw_languages[i]->code, lw_languages[i]->name);
    return LW_EXIT_DONE;
}

const lw_command lw_cmd_language = {
    .name = "language",
    .summary = "the language of command line, sheets and page, chosen once",
    .usage = "usage: lanewick language [CODE]\n\n"
             "  CODE   en, fr, sw, ha: kept for this user of the machine, also for the page at the laptop;\n"
             "         without it the list with the present one\n\n"
             "The environment's LANGUAGE comes before the choice, LC_ALL, LC_MESSAGES and LANG after it; "
             "--language of any verb comes before all.\n",
    .run = run,
};
