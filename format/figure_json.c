/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The JSON door of figures: see lanewick/figure_json.h.
 */
#include "lanewick/figure_json.h"

#include "json_help.h"

#include <stdio.h>

static bool set_list(const char *key, const json_t *item, lw_value *value, lw_arena *arena, lw_error *err)
{
    const size_t count = json_array_size(item);
    double *list = lw_arena_take(arena, count ? count : 1, sizeof *list, err);
    if (!list)
        return false;
    for (size_t i = 0; i < count; i++) {
        const json_t *one = json_array_get(item, i);
        if (!json_is_number(one))
            return lw_fail(err, LW_WRONG_INPUT, key, "Value %zu of %s is not a number.", i + 1, key);
        list[i] = json_number_value(one);
    }
    value->list = list;
    value->count = count;
    return true;
}

/* Words as on the command line: a flag as "yes" or "no", a choice whose word is a number, such as terrain 0. */
static bool is_word(const lw_value *value, const json_t *item, char word[32])
{
    if (value->kind == LW_CHOICE && json_is_integer(item))
        (void)snprintf(word, 32, "%lld", (long long)json_integer_value(item));
    else if (value->kind == LW_FLAG && json_is_string(item))
        (void)snprintf(word, 32, "%s", json_string_value(item));
    else
        return false;
    return true;
}

static bool set_one(lw_figure_call *call, const char *key, const json_t *item, lw_arena *arena, lw_error *err)
{
    lw_value *value = lw_figure_input(call, key, err);
    if (!value)
        return false;
    if (json_is_null(item))
        return true;
    char word[32];
    if (is_word(value, item, word))
        return lw_figure_set_text(call, key, word, arena, err);
    value->given = true;
    const bool number = value->kind == LW_NUMBER || value->kind == LW_INTEGER;
    if (number && json_is_number(item)) {
        value->number = json_number_value(item);
        return true;
    }
    if (value->kind == LW_FLAG && json_is_boolean(item)) {
        value->number = json_is_true(item) ? 1.0 : 0.0;
        return true;
    }
    if (value->kind == LW_NUMBERS && json_is_array(item))
        return set_list(key, item, value, arena, err);
    if ((value->kind == LW_TEXT || value->kind == LW_CHOICE) && json_is_string(item)) {
        value->text = lw_arena_text(arena, json_string_value(item), err);
        return value->text != NULL;
    }
    static const char *const wanted[] = {
        [LW_NUMBER] = "a number",         [LW_INTEGER] = "a whole number",    [LW_TEXT] = "a text",
        [LW_CHOICE] = "one of its words", [LW_NUMBERS] = "a list of numbers", [LW_FLAG] = "true or false"};
    return lw_fail(err, LW_WRONG_INPUT, key, "%s must be %s in JSON.", key, wanted[value->kind]);
}

bool lw_figure_from_json(lw_figure_call *call, const char *text, size_t length, lw_arena *arena, lw_error *err)
{
    json_t *object = lw_json_parse(text, length, err);
    if (!object)
        return false;
    bool done =
        json_is_object(object) || lw_fail(err, LW_WRONG_INPUT, "", "The inputs of a figure must be one JSON object.");
    const char *key;
    json_t *item;
    if (done)
        json_object_foreach(object, key, item) done = done && set_one(call, key, item, arena, err);
    json_decref(object);
    return done;
}

static json_t *output(const lw_value *value)
{
    if (!value->given)
        return json_null();
    switch (value->kind) {
    case LW_NUMBER:
    case LW_INTEGER:
        return lw_json_number(value->number);
    case LW_FLAG:
        return json_boolean(value->number != 0.0);
    case LW_NUMBERS:
        return lw_json_list(value->list, value->count);
    case LW_TEXT:
    case LW_CHOICE:
        break;
    }
    return json_string(value->text);
}

static char *dump(json_t *object)
{
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}

char *lw_figure_to_json(const lw_figure_call *call)
{
    json_t *object = json_object();
    for (size_t i = 0; i < call->figure->output_count; i++)
        json_object_set_new(object, call->figure->outputs[i].name, output(&call->out[i]));
    return dump(object);
}

json_t *lw_json_error(const lw_error *err)
{
    return json_pack("{s:o,s:o,s:s}", "field", lw_json_text(err->field), "message", lw_json_text(err->message),
                     "family", lw_family_text(err->family));
}

char *lw_error_to_json(const lw_error *err)
{
    return dump(json_pack("{s:o}", "error", lw_json_error(err)));
}

static const char *kind_name(lw_kind kind)
{
    static const char *const names[] = {"number", "integer", "text", "choice", "numbers", "flag"};
    return names[kind];
}

static json_t *describe_input(const lw_input *input)
{
    json_t *object = json_pack("{s:s,s:s,s:s,s:s,s:b}", "name", input->name, "unit", input->unit, "meaning",
                               input->meaning, "kind", kind_name(input->kind), "required", input->fallback == NULL);
    if (input->fallback && input->fallback[0])
        json_object_set_new(object, "default", json_string(input->fallback));
    if (input->kind == LW_CHOICE)
        json_object_set_new(object, "choices", json_string(input->choices));
    if (input->kind == LW_NUMBER || input->kind == LW_INTEGER || input->kind == LW_NUMBERS) {
        json_object_set_new(object, "low", lw_json_number(input->low));
        json_object_set_new(object, "high", lw_json_number(input->high));
    }
    return object;
}

static json_t *describe(const lw_figure *figure)
{
    json_t *object = json_pack("{s:s,s:s,s:s,s:s,s:s?,s:s?,s:s}", "name", figure->name, "room", figure->room, "summary",
                               figure->summary, "source", figure->source, "limits", figure->limits, "caution",
                               figure->caution, "example", figure->example);
    json_t *inputs = json_array(), *outputs = json_array();
    for (size_t i = 0; i < figure->input_count; i++)
        json_array_append_new(inputs, describe_input(&figure->inputs[i]));
    for (size_t i = 0; i < figure->output_count; i++)
        json_array_append_new(outputs, json_pack("{s:s,s:s,s:s,s:s}", "name", figure->outputs[i].name, "unit",
                                                 figure->outputs[i].unit, "meaning", figure->outputs[i].meaning, "kind",
                                                 kind_name(figure->outputs[i].kind)));
    json_object_set_new(object, "inputs", inputs);
    json_object_set_new(object, "outputs", outputs);
    return object;
}

char *lw_figure_description_json(const lw_figure *figure)
{
    return dump(describe(figure));
}

char *lw_figure_list_json(void)
{
    json_t *list = json_array();
    for (size_t i = 0; i < lw_figure_count(); i++)
        json_array_append_new(list, describe(lw_figure_at(i)));
    return dump(list);
}
