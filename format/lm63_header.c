/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first part of an LM-63 file: version line, keyword lines, TILT.
 */
#include "lm63_inside.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

static const struct {
    const char *text;
    int year;
} versions[] = {{"IESNA91", 1991}, {"IESNA:LM-63-1995", 1995}, {"IESNA:LM-63-2002", 2002}, {"IES:LM-63-2019", 2019}};

static const struct {
    const char *name;
    int from_year;
} required[] = {{"TEST", 1991}, {"MANUFAC", 1991}, {"TESTLAB", 2002}, {"ISSUEDATE", 2002}};
enum { REQUIRED = sizeof required / sizeof required[0] };

/* The next line without its end. False at the end of the text or (fatal) when it is too long. */
static bool next_line(lw_lm63_reader *r, char *line, size_t size, bool *more)
{
    *more = r->at < r->end;
    size_t length = 0;
    while (r->at < r->end && *r->at != '\n' && *r->at != '\r') {
        if (length + 1 >= size)
            return lw_lm63_end(r, r->line, "the line is longer than %zu characters", size - 1);
        line[length++] = *r->at++;
    }
    line[length] = '\0';
    if (r->at < r->end && *r->at == '\r')
        r->at++;
    if (r->at < r->end && *r->at == '\n')
        r->at++;
    return true;
}

static char *trimmed(char *text)
{
    while (isspace((unsigned char)*text))
        text++;
    size_t length = strlen(text);
    while (length && isspace((unsigned char)text[length - 1]))
        text[--length] = '\0';
    return text;
}

/* True with the year when the line names a version; spaces inside are a defect of real files. */
static bool is_version(lw_lm63_reader *r, const char *line)
{
    char packed[64];
    size_t length = 0;
    for (const char *c = line; *c && length + 1 < sizeof packed; c++)
        if (!isspace((unsigned char)*c))
            packed[length++] = *c;
    packed[length] = '\0';
    for (size_t i = 0; i < sizeof versions / sizeof versions[0]; i++) {
        if (strcmp(packed, versions[i].text) != 0)
            continue;
        r->out->year = versions[i].year;
        (void)snprintf(r->out->version, sizeof r->out->version, "%s", versions[i].text);
        if (strcmp(packed, line) != 0)
            (void)lw_lm63_tell(r, 1, LW_TOLD, "the version line has spaces that the standard has not");
        return true;
    }
    return false;
}

static void keep(char *place, size_t size, const char *text)
{
    (void)snprintf(place, size, "%.*s", (int)size - 1, text);
}

/* One line [NAME] text; marks the required keywords that it brings. */
static void keyword(lw_lm63_reader *r, char *line, bool found[REQUIRED])
{
    char *close = strchr(line, ']');
    if (line[0] != '[' || !close) {
        if (r->out->year != 1986 && line[0])
            (void)lw_lm63_tell(r, r->line, LW_TOLD, "the line before TILT= is no keyword line");
        return;
    }
    *close = '\0';
    char *value = trimmed(close + 1);
    for (size_t i = 0; i < REQUIRED; i++) {
        if (strcmp(line + 1, required[i].name) != 0)
            continue;
        found[i] = true;
        if (!value[0])
            (void)lw_lm63_tell(r, r->line, LW_TOLD, "the keyword [%s] is empty", required[i].name);
    }
    if (strcmp(line + 1, "TEST") == 0)
        keep(r->out->test, sizeof r->out->test, value);
    if (strcmp(line + 1, "LUMINAIRE") == 0)
        keep(r->out->luminaire, sizeof r->out->luminaire, value);
}

/* Angles rise from 0 to 180 degree, factors are not below 0. */
static bool tilt_number(lw_lm63_reader *r, double number, double *before)
{
    if (!before)
        return !(number < 0.0) || lw_lm63_tell(r, r->line, LW_FATAL, "TILT factor %g is below 0", number);
    const double last = *before;
    *before = number;
    if (number < 0.0 || number > 180.0)
        return lw_lm63_tell(r, r->line, LW_FATAL, "TILT angle %g lies outside 0 to 180 degree", number);
    if (number <= last)
        return lw_lm63_tell(r, r->line, LW_FATAL, "TILT angle %g comes after %g; angles must rise", number, last);
    return true;
}

static bool tilt_include(lw_lm63_reader *r)
{
    int geometry = 0, count = 0;
    double number = 0.0, before = -1.0;
    if (!lw_lm63_whole(r, "the lamp position of TILT", 1, 3, &geometry) ||
        !lw_lm63_whole(r, "the number of TILT angles", 1, LW_LM63_MAX_ANGLES, &count) || count == 0)
        return false;
    for (int i = 0; i < 2 * count; i++)
        if (!lw_lm63_number(r, i < count ? "a TILT angle" : "a TILT factor", &number) ||
            !tilt_number(r, number, i < count ? &before : NULL))
            return false;
    return lw_lm63_tell(r, r->line, LW_TOLD,
                        "TILT data were read; they change the light of a tilted lamp and are not applied");
}

static bool tilt(lw_lm63_reader *r, const char *value)
{
    if (strcmp(value, "NONE") == 0)
        return true;
    if (strcmp(value, "INCLUDE") == 0)
        return tilt_include(r);
    return lw_lm63_tell(r, r->line - 1, LW_FATAL,
                        "TILT names another file (%.40s), which is not opened; use NONE or INCLUDE", value);
}

static void missing_keywords(lw_lm63_reader *r, const bool found[REQUIRED])
{
    for (size_t i = 0; i < REQUIRED; i++)
        if (!found[i] && r->out->year >= required[i].from_year)
            (void)lw_lm63_tell(r, r->keywords_end, LW_TOLD, "the keyword [%s] is missing", required[i].name);
}

static bool first_line(lw_lm63_reader *r, const char *line)
{
    if (is_version(r, line))
        return true;
    r->out->year = 2019;
    if (strncmp(line, "IES", 3) == 0)
        return lw_lm63_tell(r, 1, LW_FATAL, "\"%.40s\" is not a version of LM-63 that is known", line);
    r->out->year = 1986;
    (void)snprintf(r->out->version, sizeof r->out->version, "LM-63-1986");
    return lw_lm63_tell(r, 1, LW_TOLD, "there is no version line: read as LM-63-1986");
}

bool lw_lm63_header(lw_lm63_reader *r)
{
    static const size_t longest = LW_LM63_MAX_LINE;
    bool found[REQUIRED] = {false};
    char *line = lw_arena_take(r->arena, longest + 1, 1, r->err);
    bool more = true;
    for (bool first = true; line; first = false) {
        if (!next_line(r, line, longest + 1, &more))
            return false;
        if (!more)
            return lw_lm63_end(r, r->line, "there is no line that begins with TILT=");
        char *text = trimmed(line);
        if (first && !first_line(r, text))
            return false;
        if (strncmp(text, "TILT=", 5) == 0) {
            if (text != line)
                (void)lw_lm63_tell(r, r->line, LW_TOLD, "TILT= does not stand in the first column");
            r->keywords_end = r->line++;
            missing_keywords(r, found);
            return tilt(r, trimmed(text + 5));
        }
        if (!first || r->out->year == 1986)
            keyword(r, text, found);
        r->line++;
    }
    return false;
}
