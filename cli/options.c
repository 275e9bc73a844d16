/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Options, files and errors for the verbs: see cli.h.
 */
#include "cli.h"

#include "lanewick/figure_json.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int lw_cli_fail(const lw_error *err, bool json)
{
    if (json) {
        char *text = lw_error_to_json(err);
        (void)puts(text ? text : "{\"error\":{}}");
        free(text);
    } else {
        const char *start = err->family == LW_REFUSED ? "Refused for safety" : "";
        char said[2 * sizeof err->message];
        const lw_words *words = lw_cli_words();
        (void)lw_say_sentence(words, err->message, said, sizeof said);
        (void)fprintf(stderr, "lanewick: %s%s%s\n", lw_say(words, start), start[0] ? ": " : "", said);
    }
    return lw_family_exit_code(err->family);
}

lw_arena lw_cli_arena(size_t size)
{
    void *memory = malloc(size);
    if (!memory) {
        lw_cli_tell("lanewick: there is not enough memory (%zu bytes wanted).\n", size);
        exit(LW_EXIT_STORAGE);
    }
    return lw_arena_over(memory, size);
}

static void drop(int *argc, char **argv, int from, int count)
{
    for (int i = from; i + count <= *argc; i++)
        argv[i] = argv[i + count];
    *argc -= count;
}

bool lw_cli_take_switch(int *argc, char **argv, const char *name)
{
    for (int i = 1; i < *argc; i++) {
        if (strcmp(argv[i], name) != 0)
            continue;
        drop(argc, argv, i, 1);
        return true;
    }
    return false;
}

bool lw_cli_take_option(int *argc, char **argv, const char *name, const char **value, lw_error *err)
{
    const size_t length = strlen(name);
    *value = NULL;
    for (int i = 1; i < *argc; i++) {
        if (strncmp(argv[i], name, length) != 0)
            continue;
        if (argv[i][length] == '=') {
            *value = argv[i] + length + 1;
            drop(argc, argv, i, 1);
            return true;
        }
        if (argv[i][length] != '\0')
            continue;
        if (i + 1 >= *argc)
            return lw_fail(err, LW_WRONG_INPUT, name, "%s needs a value after it.", name);
        *value = argv[i + 1];
        drop(argc, argv, i, 2);
        return true;
    }
    return true;
}

bool lw_cli_no_more_options(int argc, char **argv, lw_error *err)
{
    for (int i = 1; i < argc; i++)
        if (strncmp(argv[i], "--", 2) == 0)
            return lw_fail(err, LW_WRONG_INPUT, argv[i], "%.60s is not an option of this verb; see lanewick %s --help.",
                           argv[i], argv[0]);
    return true;
}

static bool read_all(FILE *file, const char *path, size_t limit, char **bytes, size_t *length, lw_error *err)
{
    size_t room = 65536;
    *length = 0;
    *bytes = malloc(room);
    while (*bytes) {
        *length += fread(*bytes + *length, 1, room - *length - 1, file);
        if (ferror(file))
            return lw_fail(err, errno == EISDIR ? LW_WRONG_INPUT : LW_STORAGE, path, "%.200s could not be read: %s.",
                           path, strerror(errno));
        if (*length > limit)
            return lw_fail(err, LW_WRONG_INPUT, path, "%.200s is larger than the %zu bytes that are accepted.", path,
                           limit);
        if (*length + 1 < room) {
            (*bytes)[*length] = '\0';
            return true;
        }
        room *= 2;
        char *larger = realloc(*bytes, room);
        if (!larger)
            break;
        *bytes = larger;
    }
    return lw_fail(err, LW_STORAGE, path, "There is not enough memory to read %.200s.", path);
}

bool lw_cli_read_file(const char *path, size_t limit, char **bytes, size_t *length, lw_error *err)
{
    *bytes = NULL;
    const bool standard = strcmp(path, "-") == 0;
    FILE *file = standard ? stdin : fopen(path, "rb");
    if (!file)
        return lw_fail(err, LW_WRONG_INPUT, path, "%.200s could not be opened: %s.", path, strerror(errno));
    const bool done = read_all(file, path, limit, bytes, length, err);
    if (!standard)
        (void)fclose(file);
    if (!done) {
        free(*bytes);
        *bytes = NULL;
    }
    return done;
}

void lw_cli_folder_of(const char *path, char *out, size_t size)
{
    const char *slash = strrchr(path, '/');
    const int length = slash ? (int)(slash - path) : 0;
    (void)snprintf(out, size, "%.*s", length, path);
    if (length == 0)
        (void)snprintf(out, size, "%s", slash ? "/" : ".");
}

bool lw_cli_read_seed(const char *text, uint64_t *seed, lw_error *err)
{
    char *end;
    *seed = 1;
    if (!text)
        return true;
    errno = 0;
    const unsigned long long value = strtoull(text, &end, 10);
    if (text[0] < '0' || text[0] > '9' || *end != '\0' || errno != 0)
        return lw_fail(err, LW_WRONG_INPUT, "seed", "seed is \"%.40s\"; it must be a whole number, 0 or more.", text);
    *seed = value;
    return true;
}
