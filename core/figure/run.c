/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A call of a figure: defaults, ranges, run. The checks stand here once, so that a figure's own file holds
 * only its calculation.
 */
#include "lanewick/figure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void lw_figure_begin(lw_figure_call *call, const lw_figure *figure)
{
    memset(call, 0, sizeof *call);
    call->figure = figure;
    for (size_t i = 0; i < figure->input_count; i++)
        call->in[i].kind = figure->inputs[i].kind;
    for (size_t i = 0; i < figure->output_count; i++)
        call->out[i].kind = figure->outputs[i].kind;
}

lw_value *lw_figure_input(lw_figure_call *call, const char *key, lw_error *err)
{
    const lw_figure *figure = call->figure;
    const char *nearest = NULL;
    for (size_t i = 0; i < figure->input_count; i++) {
        const char *name = figure->inputs[i].name;
        if (strcmp(name, key) == 0)
            return &call->in[i];
        if (!nearest || lw_spelling_distance(name, key) < lw_spelling_distance(nearest, key))
            nearest = name;
    }
    if (nearest)
        (void)lw_fail(err, LW_WRONG_INPUT, key, "%.60s is not an input of %s; did you mean %s?", key, figure->name,
                      nearest);
    else
        (void)lw_fail(err, LW_WRONG_INPUT, key, "%s takes no inputs, but %.60s was given.", figure->name, key);
    return NULL;
}

static bool check_count(const lw_input *input, const lw_value *value, lw_error *err)
{
    const size_t most = input->max_count ? input->max_count : LW_FIGURE_MAX_LIST;
    if (value->count >= input->min_count && value->count <= most)
        return true;
    if (input->min_count == most)
        return lw_fail(err, LW_WRONG_INPUT, input->name, "%s has %zu values; it needs exactly %zu.", input->name,
                       value->count, most);
    return lw_fail(err, LW_WRONG_INPUT, input->name, "%s has %zu values; it needs between %zu and %zu.", input->name,
                   value->count, input->min_count, most);
}

static bool check_choice(const lw_input *input, lw_value *value, lw_error *err)
{
    const size_t length = strlen(value->text);
    const char *word = input->choices;
    for (int place = 0; word; place++) {
        const char *bar = strchr(word, '|');
        const size_t size = bar ? (size_t)(bar - word) : strlen(word);
        if (size == length && memcmp(word, value->text, size) == 0) {
            value->number = place;
            return true;
        }
        word = bar ? bar + 1 : NULL;
    }
    return lw_fail(err, LW_WRONG_INPUT, input->name, "%s is \"%.40s\"; it must be one of: %s.", input->name,
                   value->text, input->choices);
}

static bool check(const lw_input *input, lw_value *value, lw_error *err)
{
    switch (input->kind) {
    case LW_INTEGER:
        if (isfinite(value->number) && value->number != floor(value->number))
            return lw_fail(err, LW_WRONG_INPUT, input->name, "%s is %g; it must be a whole number.", input->name,
                           value->number);
        return lw_in_range(err, input->name, value->number, input->low, input->high, input->unit);
    case LW_NUMBER:
        return lw_in_range(err, input->name, value->number, input->low, input->high, input->unit);
    case LW_NUMBERS:
        return check_count(input, value, err) &&
               lw_all_in_range(err, input->name, value->list, value->count, input->low, input->high, input->unit);
    case LW_CHOICE:
        return check_choice(input, value, err);
    case LW_TEXT:
        return strlen(value->text) <= 400 ||
               lw_fail(err, LW_WRONG_INPUT, input->name, "%s is longer than 400 characters.", input->name);
    case LW_FLAG:
        break;
    }
    return true;
}

static bool check_outputs(const lw_figure_call *call, lw_error *err)
{
    for (size_t i = 0; i < call->figure->output_count; i++) {
        const lw_value *value = &call->out[i];
        if (!value->given)
            continue;
        bool finite = value->kind == LW_TEXT || value->kind == LW_CHOICE || isfinite(value->number);
        for (size_t k = 0; value->kind == LW_NUMBERS && k < value->count; k++)
            finite = finite && isfinite(value->list[k]);
        if (!finite)
            return lw_fail(err, LW_NOT_COMPUTABLE, call->figure->outputs[i].name,
                           "With these inputs %s has no finite value.", call->figure->outputs[i].name);
    }
    return true;
}

bool lw_figure_finish(lw_figure_call *call, lw_arena *arena, lw_error *err)
{
    const lw_figure *figure = call->figure;
    for (size_t i = 0; i < figure->input_count; i++) {
        const lw_input *input = &figure->inputs[i];
        if (!call->in[i].given) {
            if (!input->fallback)
                return lw_fail(err, LW_WRONG_INPUT, input->name, "%s is missing: %s%s%s%s.", input->name,
                               input->meaning, input->unit[0] ? " (" : "", input->unit, input->unit[0] ? ")" : "");
            if (input->fallback[0] && !lw_figure_set_text(call, input->name, input->fallback, arena, err))
                return false;
        }
        if (call->in[i].given && !check(input, &call->in[i], err))
            return false;
    }
    return figure->run(call->in, call->out, arena, err) && check_outputs(call, err);
}
