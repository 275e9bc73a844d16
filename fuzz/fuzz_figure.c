/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The two doors of figures: the first line names the figure, then comes one JSON object, or key=value words when
 * the next line begins with no brace. Whatever comes in, an answer is finite and an error has a sentence.
 */
#include "lanewick/figure.h"
#include "lanewick/figure_json.h"

#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 12 << 20, MAX_TEXT = 1 << 16 };

static bool by_words(lw_figure_call *call, char *words, lw_arena *arena, lw_error *err)
{
    while (*words) {
        char *end = words + strcspn(words, "\n");
        const bool last = *end == '\0';
        *end = '\0';
        char *equals = strchr(words, '=');
        if (equals)
            *equals = '\0';
        if (equals && !lw_figure_set_text(call, words, equals + 1, arena, err))
            return false;
        words = last ? end : end + 1;
    }
    return true;
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    static char text[MAX_TEXT + 1];
    static unsigned char memory[ARENA_BYTES];
    static lw_figure_call call;
    if (size > MAX_TEXT)
        return 0;
    memcpy(text, data, size);
    text[size] = '\0';
    const size_t name = strcspn(text, "\n");
    char *rest = text + name + (text[name] == '\n');
    text[name] = '\0';
    const lw_figure *figure = lw_figure_find(text);
    if (!figure)
        figure = lw_figure_find(lw_figure_nearest(text));
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_error err = {0};
    lw_figure_begin(&call, figure);
    const bool set = rest[0] == '{' ? lw_figure_from_json(&call, rest, size - (size_t)(rest - text), &arena, &err)
                                    : by_words(&call, rest, &arena, &err);
    char *answer = NULL;
    if (set && lw_figure_finish(&call, &arena, &err))
        answer = lw_figure_to_json(&call);
    else if (err.message[0])
        answer = lw_error_to_json(&err);
    if (!answer || strstr(answer, "nan") == answer + 1)
        abort();
    free(answer);
    return 0;
}
