/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figures as text for a person: see figure_print.h.
 */
#include "figure_print.h"

#include "cli.h"

#include "lanewick/figure_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void lw_figure_print_list(bool json)
{
    if (json) {
        char *text = lw_figure_list_json();
        (void)puts(text ? text : "[]");
        free(text);
        return;
    }
    const char *room = "";
    for (size_t i = 0; i < lw_figure_count(); i++) {
        const lw_figure *figure = lw_figure_at(i);
        if (strcmp(room, figure->room) != 0)
            (void)printf("%s%s\n", i ? "\n" : "", figure->room);
        room = figure->room;
        (void)printf("  %-22s %s\n", figure->name, lw_say(lw_cli_words(), figure->summary));
    }
    lw_cli_print("\nlanewick figure NAME --help explains one.\n");
}

static bool has_range(const lw_input *input)
{
    return input->kind == LW_NUMBER || input->kind == LW_INTEGER || input->kind == LW_NUMBERS;
}

/* "unit; from 1 to 2; default 3" of an input. */
static void print_terms(const lw_words *words, const lw_input *input)
{
    const char *gap = "";
    if (input->unit[0])
        (void)printf("%s%s", gap, input->unit), gap = "; ";
    if (has_range(input))
        (void)printf(lw_say(words, "%s%g to %g"), gap, input->low, input->high), gap = "; ";
    if (input->kind == LW_CHOICE)
        (void)printf("%s%s", gap, input->choices), gap = "; ";
    if (input->kind == LW_FLAG)
        (void)printf(lw_say(words, "%syes or no"), gap), gap = "; ";
    if (input->kind == LW_NUMBERS && input->min_count && input->min_count == input->max_count)
        (void)printf(lw_say(words, "%s%zu values, separated by commas"), gap, input->min_count), gap = "; ";
    else if (input->kind == LW_NUMBERS)
        (void)printf(lw_say(words, "%sa list separated by commas"), gap), gap = "; ";
    if (!input->fallback)
        (void)printf(lw_say(words, "%sneeded"), gap);
    else if (input->fallback[0])
        (void)printf(lw_say(words, "%sdefault %s"), gap, input->fallback);
    else
        (void)printf(lw_say(words, "%smay be left out"), gap);
}

void lw_figure_print_help(const lw_figure *figure)
{
    const lw_words *words = lw_cli_words();
    (void)printf("%s (%s): %s\n\n%s\n", figure->name, figure->room, lw_say(words, figure->summary),
                 lw_say(words, "inputs"));
    for (size_t i = 0; i < figure->input_count; i++) {
        const lw_input *input = &figure->inputs[i];
        (void)printf("  %-24s %s (", input->name, lw_say(words, input->meaning));
        print_terms(words, input);
        (void)printf(")\n");
    }
    (void)printf("\n%s\n", lw_say(words, "outputs"));
    for (size_t i = 0; i < figure->output_count; i++) {
        const lw_output *output = &figure->outputs[i];
        (void)printf("  %-24s %s%s%s%s\n", output->name, lw_say(words, output->meaning), output->unit[0] ? " (" : "",
                     output->unit, output->unit[0] ? ")" : "");
    }
    (void)printf("\n%s: %s\n", lw_say(words, "source"), figure->source);
    if (figure->limits)
        (void)printf("%s: %s\n", lw_say(words, "limits"), lw_say(words, figure->limits));
    if (figure->caution)
        lw_cli_print("CAUTION: %s\n", figure->caution);
    (void)printf("\n%s: lanewick figure %s %s\n", lw_say(words, "example"), figure->name, figure->example);
}

static void print_value(const lw_value *value, const char *unit)
{
    const char *gap = unit[0] ? " " : "";
    if (!value->given) {
        lw_cli_print("none\n");
        return;
    }
    switch (value->kind) {
    case LW_NUMBER:
    case LW_INTEGER:
        (void)printf("%.6g%s%s\n", value->number, gap, unit);
        return;
    case LW_FLAG:
        (void)puts(value->number != 0.0 ? lw_say(lw_cli_words(), "yes") : lw_say(lw_cli_words(), "no"));
        return;
    case LW_TEXT:
    case LW_CHOICE:
        lw_cli_print("%s\n", value->text);
        return;
    case LW_NUMBERS:
        break;
    }
    for (size_t i = 0; i < value->count; i++)
        (void)printf("%s%.5g", i ? ", " : "", value->list[i]);
    (void)printf("%s%s\n", gap, unit);
}

void lw_figure_print_answer(const lw_figure_call *call)
{
    const lw_figure *figure = call->figure;
    for (size_t i = 0; i < figure->output_count; i++) {
        if (!call->out[i].given)
            continue;
        (void)printf("%-26s ", figure->outputs[i].name);
        print_value(&call->out[i], figure->outputs[i].unit);
    }
    if (figure->caution)
        lw_cli_print("CAUTION: %s\n", figure->caution);
}

static void print_page(const lw_figure *figure)
{
    (void)printf("\n### %s\n\n%s\n\nSource: %s.\n\n", figure->name, figure->summary, figure->source);
    if (figure->limits)
        (void)printf("Limits: %s\n\n", figure->limits);
    if (figure->caution)
        (void)printf("**Caution:** %s\n\n", figure->caution);
    (void)puts("| input | meaning | terms |\n|---|---|---|");
    for (size_t i = 0; i < figure->input_count; i++) {
        (void)printf("| `%s` | %s | ", figure->inputs[i].name, figure->inputs[i].meaning);
        print_terms(NULL, &figure->inputs[i]);
        (void)puts(" |");
    }
    (void)puts("\n| output | unit | meaning |\n|---|---|---|");
    for (size_t i = 0; i < figure->output_count; i++)
        (void)printf("| `%s` | %s | %s |\n", figure->outputs[i].name, figure->outputs[i].unit,
                     figure->outputs[i].meaning);
    (void)printf("\n    lanewick figure %s %s\n", figure->name, figure->example);
}

void lw_figure_print_reference(void)
{
    (void)puts("# Figures\n\nPrinted by `lanewick figure --reference` from the register; do not edit by hand.");
    const char *room = "";
    for (size_t i = 0; i < lw_figure_count(); i++) {
        const lw_figure *figure = lw_figure_at(i);
        if (strcmp(room, figure->room) != 0)
            (void)printf("\n## %s\n", figure->room);
        room = figure->room;
        print_page(figure);
    }
}
