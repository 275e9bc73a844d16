/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The core's door for the page: figures by number, their descriptions as texts, one call at a time with typed values in
 * and out. JSON stays with the browser (web/src/core.ts is the other side). A page has one thread, so one call's state
 * stands here; nothing else of the core keeps any.
 *
 *     lw_door_begin(figure); lw_door_number(0, 4.2); ...; if (lw_door_finish() == 0) lw_door_out_number(0);
 */
#include "door.h"

#include <math.h>
#include <string.h>

enum { TEXT_BYTES = 4096, ARENA_BYTES = 16 << 20 };

static _Alignas(16) char memory[ARENA_BYTES];
static lw_arena arena;
static lw_figure_call call;
static lw_error fault;
static char typed[TEXT_BYTES];

int lw_door_count(void)
{
    return (int)lw_figure_count();
}

static const lw_figure *figure_of(int figure)
{
    return figure >= 0 && figure < lw_door_count() ? lw_figure_at((size_t)figure) : NULL;
}

const char *lw_door_figure(int figure, int what)
{
    const lw_figure *f = figure_of(figure);
    if (!f)
        return NULL;
    const char *const texts[] = {f->name, f->room, f->summary, f->source, f->limits, f->caution, f->example};
    return what >= 0 && what < (int)(sizeof texts / sizeof texts[0]) ? texts[what] : NULL;
}

int lw_door_inputs(int figure)
{
    const lw_figure *f = figure_of(figure);
    return f ? (int)f->input_count : 0;
}

int lw_door_outputs(int figure)
{
    const lw_figure *f = figure_of(figure);
    return f ? (int)f->output_count : 0;
}

static const lw_input *input_of(int figure, int place)
{
    return place >= 0 && place < lw_door_inputs(figure) ? &lw_figure_at((size_t)figure)->inputs[place] : NULL;
}

static const lw_output *output_of(int figure, int place)
{
    return place >= 0 && place < lw_door_outputs(figure) ? &lw_figure_at((size_t)figure)->outputs[place] : NULL;
}

const char *lw_door_input(int figure, int place, int what)
{
    const lw_input *in = input_of(figure, place);
    if (!in)
        return NULL;
    const char *const texts[] = {in->name, in->unit, in->meaning, in->choices, in->fallback};
    return what >= 0 && what < (int)(sizeof texts / sizeof texts[0]) ? texts[what] : NULL;
}

int lw_door_input_kind(int figure, int place)
{
    const lw_input *in = input_of(figure, place);
    return in ? (int)in->kind : -1;
}

double lw_door_input_limit(int figure, int place, int high)
{
    const lw_input *in = input_of(figure, place);
    return !in ? NAN : high ? in->high : in->low;
}

const char *lw_door_output(int figure, int place, int what)
{
    const lw_output *out = output_of(figure, place);
    if (!out)
        return NULL;
    const char *const texts[] = {out->name, out->unit, out->meaning};
    return what >= 0 && what < (int)(sizeof texts / sizeof texts[0]) ? texts[what] : NULL;
}

int lw_door_output_kind(int figure, int place)
{
    const lw_output *out = output_of(figure, place);
    return out ? (int)out->kind : -1;
}

/* --- one call -------------------------------------------------------------------------------------------------- */

int lw_door_begin(int figure)
{
    const lw_figure *f = figure_of(figure);
    arena = lw_arena_over(memory, sizeof memory);
    fault = (lw_error){0};
    if (f)
        lw_figure_begin(&call, f);
    return f ? 0 : -1;
}

char *lw_door_text_room(void)
{
    return typed;
}

int lw_door_text_bytes(void)
{
    return TEXT_BYTES;
}

int lw_door_key(void)
{
    typed[TEXT_BYTES - 1] = '\0';
    const lw_value *value = lw_figure_input(&call, typed, &fault);
    return value ? (int)(value - call.in) : -1;
}

static lw_value *value_at(int place)
{
    return call.figure && place >= 0 && place < (int)call.figure->input_count ? &call.in[place] : NULL;
}

void lw_door_number(int place, double x)
{
    lw_value *value = value_at(place);
    if (!value)
        return;
    value->given = true;
    value->number = x;
}

int lw_door_text(int place)
{
    lw_value *value = value_at(place);
    typed[TEXT_BYTES - 1] = '\0';
    const char *kept = value ? lw_arena_text(&arena, typed, &fault) : NULL;
    if (!kept)
        return -1;
    value->given = true;
    value->text = kept;
    return 0;
}

double *lw_door_list(int place, int count)
{
    lw_value *value = value_at(place);
    if (!value || count < 0 || count > LW_FIGURE_MAX_LIST)
        return NULL;
    double *list = lw_arena_take(&arena, count ? (size_t)count : 1, sizeof *list, &fault);
    if (!list)
        return NULL;
    value->given = true;
    value->list = list;
    value->count = (size_t)count;
    return list;
}

int lw_door_finish(void)
{
    if (!call.figure || lw_figure_finish(&call, &arena, &fault))
        return 0;
    return (int)fault.family;
}

const char *lw_door_fault(int what)
{
    const char *const told[] = {fault.message, fault.field, lw_family_problem(fault.family)};
    return what >= 0 && what < 3 ? told[what] : NULL;
}

static const lw_value *answer_at(int place)
{
    return call.figure && place >= 0 && place < (int)call.figure->output_count ? &call.out[place] : NULL;
}

int lw_door_out_given(int place)
{
    const lw_value *value = answer_at(place);
    return value && value->given;
}

double lw_door_out_number(int place)
{
    const lw_value *value = answer_at(place);
    return value ? value->number : NAN;
}

const char *lw_door_out_text(int place)
{
    const lw_value *value = answer_at(place);
    return value ? value->text : NULL;
}

const double *lw_door_out_list(int place)
{
    const lw_value *value = answer_at(place);
    return value ? value->list : NULL;
}

int lw_door_out_count(int place)
{
    const lw_value *value = answer_at(place);
    return value ? (int)value->count : 0;
}
