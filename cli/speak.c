/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines and help in the person's language. What a verb prints is made in English with printf, as everywhere, and said
 * here.
 */
#include "cli.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { LONGEST = 4096, WIDTH = 100 };

static void speak(FILE *out, const char *format, va_list arguments)
{
    char english[LONGEST], said[2 * LONGEST];
    const lw_words *words = lw_cli_words();
    va_list again;
    va_copy(again, arguments);
    const int length = words->count > 0 ? vsnprintf(english, sizeof english, format, arguments) : -1;
    if (length < 0 || (size_t)length >= sizeof english) {
        (void)vfprintf(out, format, again); /* English, or longer than any line */
    } else {
        (void)lw_say_sentence(words, english, said, sizeof said);
        (void)fputs(said, out);
    }
    va_end(again);
}

void lw_cli_print(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    speak(stdout, format, arguments);
    va_end(arguments);
}

void lw_cli_tell(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    speak(stderr, format, arguments);
    va_end(arguments);
}

/* Letters of a text in UTF-8. */
static size_t letters(const char *text, size_t bytes)
{
    size_t n = 0;
    for (size_t i = 0; i < bytes; i++)
        n += ((unsigned char)text[i] & 0xC0) != 0x80;
    return n;
}

/* A description from `column` on, its later lines under its first. */
static void wrap(const char *text, size_t column)
{
    size_t at = column;
    while (*text) {
        const size_t bytes = strcspn(text, " "), wide = letters(text, bytes);
        if (at > column && at + 1 + wide > (column + 30 > WIDTH ? column + 40 : WIDTH)) {
            (void)printf("\n%*s", (int)column, "");
            at = column;
        }
        (void)printf("%s%.*s", at > column ? " " : "", (int)bytes, text);
        at += wide + (at > column);
        text += bytes;
        text += strspn(text, " ");
    }
}

/* One unit of a verb's help: see help_units() in scripts/english.py, which finds the same ones for the catalogues. */
typedef struct unit {
    const char *head;      /* stays as it is: indent, names to be typed */
    size_t head_bytes;     /* up to the description */
    char text[LONGEST];    /* the description, its lines joined; "": the whole line is in the head */
    size_t column, indent; /* of the description, of the line */
} unit;

/* The bytes of a line before its description: behind the first two spaces that follow a word; 0: there is none. */
static size_t gap_of(const char *line, size_t bytes, size_t indent)
{
    for (size_t i = indent + 1; i + 2 < bytes; i++)
        if (line[i] == ' ' && line[i + 1] == ' ') {
            while (i < bytes && line[i] == ' ')
                i++;
            return i;
        }
    return 0;
}

static bool syntax(const char *text)
{
    return strchr("-[(", *text) || strncmp(text, "usage:", 6) == 0 || strncmp(text, "lanewick", 8) == 0;
}

static void finish(const lw_words *words, unit *u)
{
    if (!u->head)
        return;
    char said[2 * LONGEST];
    (void)printf("%.*s", (int)u->head_bytes, u->head);
    (void)lw_say_sentence(words, u->text, said, sizeof said);
    wrap(said, u->column);
    (void)putchar('\n');
    u->head = NULL;
}

static void add(unit *u, const char *text, size_t bytes)
{
    const size_t n = strlen(u->text);
    (void)snprintf(u->text + n, sizeof u->text - n, "%s%.*s", n ? " " : "", (int)bytes, text);
}

static void take_line(const lw_words *words, unit *u, const char *line, size_t bytes)
{
    const size_t indent = strspn(line, " "), gap = gap_of(line, bytes, indent);
    const bool described = gap > 0 && !strchr("-[(", line[gap]);
    if (!described && bytes > indent && gap == 0 && u->head && u->text[0] && indent == u->column) {
        add(u, line + indent, bytes - indent);
        return;
    }
    finish(words, u);
    const bool prose = !described && bytes > indent && gap == 0 && !syntax(line + indent);
    u->head = line;
    u->head_bytes = described ? gap : prose ? indent : bytes;
    u->column = u->head_bytes;
    u->text[0] = '\0';
    if (u->head_bytes < bytes)
        add(u, line + u->head_bytes, bytes - u->head_bytes);
}

void lw_cli_print_usage(const char *usage)
{
    const lw_words *words = lw_cli_words();
    if (words->count == 0) {
        (void)fputs(usage, stdout);
        return;
    }
    unit u = {0};
    while (*usage) {
        const size_t bytes = strcspn(usage, "\n");
        take_line(words, &u, usage, bytes);
        usage += bytes + (usage[bytes] == '\n');
    }
    finish(words, &u);
}
