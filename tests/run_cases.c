/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Runs one file of numeric tests as text; the format stands in cases/README.md. Strict: an unknown word fails.
 * With --print it prints each output with all digits instead, to compare two builds of the core.
 */
#include "lanewick/figure.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 64 << 20, MAX_LINE = 1 << 16 };

typedef struct runner {
    const char *path;
    int line, passed, failed;
    bool print, sourced;
    const lw_figure *figure;
    lw_figure_call call;
    lw_arena arena;
    lw_error err;
    bool ran, answered, checked;
} runner;

static void complain(runner *r, const char *what, const char *detail)
{
    (void)printf("%s:%d: %s%s%s\n", r->path, r->line, what, detail[0] ? ": " : "", detail);
    r->failed++;
}

/* The next word of *text, cut out in place; words in double quotes keep their spaces. */
static char *word(char **text)
{
    char *c = *text;
    while (isspace((unsigned char)*c))
        c++;
    char *start = c, *put = c;
    bool quoted = false;
    for (; *c && (quoted || !isspace((unsigned char)*c)); c++) {
        if (*c == '"')
            quoted = !quoted;
        else
            *put++ = *c;
    }
    *text = *c ? c + 1 : c;
    *put = '\0';
    return start;
}

static void print_outputs(const runner *r)
{
    for (size_t i = 0; i < r->call.figure->output_count; i++) {
        const lw_value *value = &r->call.out[i];
        (void)printf("%d %s", r->line, r->call.figure->outputs[i].name);
        if (!value->given)
            (void)printf(" none");
        else if (value->kind == LW_TEXT || value->kind == LW_CHOICE)
            (void)printf(" \"%s\"", value->text);
        else if (value->kind == LW_NUMBERS)
            for (size_t k = 0; k < value->count; k++)
                (void)printf(" %.17g", value->list[k]);
        else
            (void)printf(" %.17g", value->number);
        (void)puts("");
    }
}

static void given(runner *r, char *rest)
{
    if (r->ran && !r->checked)
        complain(r, "the case before this one expects nothing", "");
    r->arena.used = 0;
    r->err = (lw_error){0};
    r->ran = true;
    r->checked = false;
    lw_figure_begin(&r->call, r->figure);
    r->answered = true;
    for (char *pair = word(&rest); pair[0] && r->answered; pair = word(&rest)) {
        char *equals = strchr(pair, '=');
        if (!equals) {
            complain(r, "not key=value", pair);
            return;
        }
        *equals = '\0';
        r->answered = lw_figure_set_text(&r->call, pair, equals + 1, &r->arena, &r->err);
    }
    r->answered = r->answered && lw_figure_finish(&r->call, &r->arena, &r->err);
    if (r->print && r->answered)
        print_outputs(r);
}

static const lw_value *output(runner *r, const char *key)
{
    for (size_t i = 0; i < r->call.figure->output_count; i++)
        if (strcmp(r->call.figure->outputs[i].name, key) == 0)
            return &r->call.out[i];
    complain(r, "no such output", key);
    return NULL;
}

static bool near(const lw_value *value, size_t place, double wanted, double tolerance, char *found, size_t room)
{
    if (value->kind == LW_NUMBERS && (place == 0 || place > value->count)) {
        (void)snprintf(found, room, "a list of %zu values", value->count);
        return false;
    }
    const double is = value->kind == LW_NUMBERS ? value->list[place - 1] : value->number;
    (void)snprintf(found, room, "%.10g", is);
    return fabs(is - wanted) <= tolerance;
}

static bool matches(const lw_value *value, size_t place, char sign, const char *wanted, char *rest, char *found,
                    size_t room)
{
    if (!value->given) {
        (void)snprintf(found, room, "none");
        return strcmp(wanted, "none") == 0;
    }
    if (value->kind == LW_TEXT || value->kind == LW_CHOICE) {
        (void)snprintf(found, room, "\"%s\"", value->text);
        return sign == '~' ? strstr(value->text, wanted) != NULL : strcmp(value->text, wanted) == 0;
    }
    if (value->kind == LW_FLAG) {
        const char *is = value->number != 0.0 ? "yes" : "no";
        (void)snprintf(found, room, "%s", is);
        return strcmp(wanted, is) == 0;
    }
    const char *within = word(&rest), *amount = word(&rest);
    char *end = NULL, *end_of_value = NULL;
    double tolerance = strtod(amount, &end);
    const double number = strtod(wanted, &end_of_value);
    if (strcmp(within, "within") != 0 || end == amount || *end_of_value) {
        (void)snprintf(found, room, "a line that should read KEY=VALUE within TOLERANCE");
        return false;
    }
    if (*end == '%')
        tolerance *= fabs(number) / 100.0;
    return near(value, place, number, tolerance, found, room);
}

static void expect(runner *r, char *rest)
{
    r->checked = true;
    if (!r->answered) {
        complain(r, "failed instead", r->err.message);
        return;
    }
    char *pair = word(&rest);
    char *sign = strpbrk(pair, "=~");
    if (!sign) {
        complain(r, "expect wants KEY=VALUE", pair);
        return;
    }
    const char kind = *sign;
    *sign = '\0';
    size_t place = 0;
    char *bracket = strchr(pair, '[');
    if (bracket) {
        place = strtoul(bracket + 1, NULL, 10);
        *bracket = '\0';
    }
    const lw_value *value = output(r, pair);
    char found[600], text[900];
    if (!value)
        return;
    if (matches(value, place, kind, sign + 1, rest, found, sizeof found)) {
        r->passed++;
        return;
    }
    (void)snprintf(text, sizeof text, "%.100s should be %.100s, is %s", pair, sign + 1, found);
    complain(r, r->figure->name, text);
}

static void fails(runner *r, char *rest)
{
    const char *field = word(&rest), *refused = word(&rest);
    r->checked = true;
    if (r->answered)
        complain(r, "should have failed on", field);
    else if (strcmp(r->err.field, field) != 0)
        complain(r, "failed on another field", r->err.message);
    else if ((strcmp(refused, "refused") == 0) != (r->err.family == LW_REFUSED))
        complain(r, "wrong family of error", lw_family_text(r->err.family));
    else
        r->passed++;
}

static void figure(runner *r, char *rest)
{
    const char *name = word(&rest);
    if (!r->sourced)
        complain(r, "source must stand before figure", name);
    r->figure = lw_figure_find(name);
    if (!r->figure)
        complain(r, "no such figure", name);
}

static void one_line(runner *r, char *text)
{
    char *rest = text;
    const char *verb = word(&rest);
    if (verb[0] == '\0' || verb[0] == '#')
        return;
    if (strcmp(verb, "source") == 0)
        r->sourced = word(&rest)[0] != '\0';
    else if (strcmp(verb, "figure") == 0)
        figure(r, rest);
    else if (strcmp(verb, "given") == 0 && r->figure)
        given(r, rest);
    else if (strcmp(verb, "expect") == 0 && r->ran)
        expect(r, rest);
    else if (strcmp(verb, "fails") == 0 && r->ran)
        fails(r, rest);
    else
        complain(r, "this word is not known here", verb);
}

int main(int argc, char **argv)
{
    static runner r;
    static char line[MAX_LINE];
    r.print = argc > 2 && strcmp(argv[1], "--print") == 0;
    r.path = argc > 1 ? argv[argc - 1] : "";
    FILE *file = fopen(r.path, "r");
    void *memory = malloc(ARENA_BYTES);
    if (!file || !memory) {
        (void)printf("usage: run_cases [--print] FILE.case\n");
        free(memory);
        return 2;
    }
    r.arena = lw_arena_over(memory, ARENA_BYTES);
    while (fgets(line, sizeof line, file)) {
        r.line++;
        one_line(&r, line);
    }
    (void)fclose(file);
    free(memory);
    if (!r.checked)
        complain(&r, "the last case expects nothing", "");
    if (!r.print)
        (void)printf("%d passed, %d failed\n", r.passed, r.failed);
    return r.failed || r.passed == 0 ? 1 : 0;
}
