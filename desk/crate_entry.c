/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bench prompt: one typed line at a time. A line that is not understood changes nothing; an accepted one is stored
 * at once and said back. docs/crate.md lists the lines.
 */
#include "lanewick/desk_crate.h"

#include <ctype.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

static const char help_text[] =
    "+ [CODE] [VOLTS]  a new cell: the next label, or this one; kind as the cell before\n"
    "CODE [VOLTS]      take that cell in hand\n"
    "VOLTS             as found (first time), then a resting voltage; 3.62 or 3,62\n"
    "v VOLTS           correct the voltage as found\n"
    "l WORDS           look, added: dent rust swollen torn leak smell hot; - takes all away\n"
    "m TEXT  c CLASS  s SHAPE  o PACK  n NOTE    marking, class, shape, origin, note\n"
    "r AH              its capacity when new, as the maker states it\n"
    "=                 the last l m c s o n r again, for this cell\n"
    "u                 undo      w  what is in hand      ?  this list      q  done";

static void say(char reply[LW_ENTRY_REPLY], const char *format, ...) __attribute__((format(printf, 2, 3)));
static void say(char reply[LW_ENTRY_REPLY], const char *format, ...)
{
    const size_t used = strlen(reply);
    va_list values;
    va_start(values, format);
    (void)vsnprintf(reply + used, LW_ENTRY_REPLY - used, format, values);
    va_end(values);
}

static void say_cell(const lw_cell_record *cell, char reply[LW_ENTRY_REPLY])
{
    say(reply, "%s", cell->code);
    if (isnan(cell->found_v))
        say(reply, "  no voltage yet");
    else
        say(reply, "  found %.3f V", cell->found_v);
    say(reply, "  class %s", cell->voltage_class);
    if (!isnan(cell->rated_ah))
        say(reply, "  %.3g Ah when new", cell->rated_ah);
    const char *const names[] = {"", "shape ", "from ", "look: ", "note: "};
    const char *const words[] = {cell->marking, cell->shape, cell->origin, cell->look, cell->note};
    for (size_t i = 0; i < 5; i++)
        if (words[i][0])
            say(reply, "  %s%s", names[i], words[i]);
    for (size_t i = 0; lw_found_caution(cell, i); i++)
        say(reply, "\nCAUTION: %s", lw_found_caution(cell, i));
}

static void remember(lw_entry *entry, lw_entry_step step)
{
    if (entry->undos == LW_ENTRY_UNDOS) {
        memmove(entry->steps, entry->steps + 1, sizeof entry->steps - sizeof entry->steps[0]);
        entry->undos--;
    }
    entry->steps[entry->undos++] = step;
}

/* Stores the changed cell in hand; on failure everything stays as it was. */
static bool keep(lw_entry *entry, const lw_cell_record *changed, lw_error *err)
{
    lw_entry_step step = {.made_cell = changed->id[0] == '\0', .before = entry->cell};
    lw_cell_record cell = *changed;
    if (!lw_cell_check(&cell, err) || !lw_store_put(entry->store, LW_CELLS, &cell, err))
        return false;
    memcpy(step.made, cell.id, sizeof step.made);
    remember(entry, step);
    entry->cell = cell;
    return true;
}

static bool is_volts(const char *text)
{
    return strpbrk(text, ".,") && strspn(text, "+-0123456789.,") == strlen(text);
}

static bool set_volts(lw_entry *entry, lw_cell_record *cell, const char *text, lw_error *err)
{
    if (!lw_number_read("volts", text, &cell->found_v, err))
        return false;
    lw_store_now(entry->store, cell->found_at);
    return true;
}

/* A17 -> A18, A099 -> A100; false when the code does not end in a number or would be too long. */
static bool next_code(const char *code, char out[LW_CODE])
{
    size_t length = strlen(code), digits = 0;
    while (digits < length && isdigit((unsigned char)code[length - 1 - digits]))
        digits++;
    if (digits == 0 || digits > 9)
        return false;
    const long number = strtol(code + length - digits, NULL, 10) + 1;
    const int written = snprintf(out, LW_CODE, "%.*s%0*ld", (int)(length - digits), code, (int)digits, number);
    return written > 0 && written < LW_CODE;
}

static bool new_cell(lw_entry *entry, const char *code, const char *volts, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    lw_cell_record cell = lw_cell_blank();
    if (entry->cell.id[0]) { /* kind as the cell before; what was seen of that one is not carried over */
        memcpy(cell.marking, entry->cell.marking, sizeof cell.marking);
        memcpy(cell.voltage_class, entry->cell.voltage_class, sizeof cell.voltage_class);
        memcpy(cell.shape, entry->cell.shape, sizeof cell.shape);
        memcpy(cell.origin, entry->cell.origin, sizeof cell.origin);
        cell.rated_ah = entry->cell.rated_ah;
    }
    memcpy(cell.crate, entry->crate.id, sizeof cell.crate);
    if (code[0]) {
        if (is_volts(code))
            return lw_fail(err, LW_WRONG_INPUT, "code", "%.40s is a voltage, not a label; type + and the label first",
                           code);
        if (!lw_record_text("code", code, cell.code, sizeof cell.code, err))
            return false;
    } else if (!next_code(entry->cell.code, cell.code)) {
        return lw_fail(err, LW_WRONG_INPUT, "code", "no label to count on from; type + and the code, as in +A1");
    }
    if (volts[0] && !set_volts(entry, &cell, volts, err))
        return false;
    if (!keep(entry, &cell, err)) {
        if (strstr(err->message, "cell.code")) {
            *err = (lw_error){0};
            return lw_fail(err, LW_WRONG_INPUT, "code", "there is a cell %s already; type %s to take it in hand",
                           cell.code, cell.code);
        }
        return false;
    }
    say(reply, "new  ");
    say_cell(&entry->cell, reply);
    return true;
}

static bool rest_reading(lw_entry *entry, double volts, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    lw_test_record test = {.method = "rest", .temp_c = NAN};
    char readings[80];
    (void)snprintf(readings, sizeof readings, "{\"times_s\":[0],\"volts_v\":[%.4f]}", volts);
    memcpy(test.cell, entry->cell.id, sizeof test.cell);
    lw_store_now(entry->store, test.at);
    test.readings = readings;
    lw_cell_record trial = entry->cell;
    trial.found_v = volts;
    if (!lw_cell_check(&trial, err) || !lw_store_put(entry->store, LW_TESTS, &test, err))
        return false;
    lw_entry_step step = {.made_test = true, .before = entry->cell};
    memcpy(step.made, test.id, sizeof step.made);
    remember(entry, step);
    say(reply, "%s  rests at %.3f V  (found %.3f V; v VOLTS would correct that)", entry->cell.code, volts,
        entry->cell.found_v);
    for (size_t i = 0; lw_found_caution(&trial, i); i++)
        say(reply, "\nCAUTION: %s", lw_found_caution(&trial, i));
    return true;
}

static bool volts_line(lw_entry *entry, const char *text, bool correct, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    if (!entry->cell.id[0])
        return lw_fail(err, LW_WRONG_INPUT, "cell", "no cell in hand; type its code first");
    lw_cell_record cell = entry->cell;
    if (!set_volts(entry, &cell, text, err))
        return false;
    if (!correct && !isnan(entry->cell.found_v))
        return rest_reading(entry, cell.found_v, reply, err);
    if (!keep(entry, &cell, err))
        return false;
    say_cell(&entry->cell, reply);
    return true;
}

static bool take_cell(lw_entry *entry, const char *code, const char *volts, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    lw_cell_record cell;
    bool found;
    if (!lw_store_get(entry->store, LW_CELLS, "code", code, &cell, &found, err))
        return false;
    if (!found)
        return lw_fail(err, LW_WRONG_INPUT, "code",
                       "%.40s is no cell of the workshop; +%.40s makes it. Voltages need a "
                       "point, as in 4.0",
                       code, code);
    if (strcmp(cell.crate, entry->crate.id) != 0)
        return lw_fail(err, LW_WRONG_INPUT, "code", "%.40s is in another crate", cell.code);
    entry->cell = cell;
    if (volts[0])
        return volts_line(entry, volts, false, reply, err);
    say_cell(&entry->cell, reply);
    return true;
}

/* What is seen is added to what was seen before: a swollen cell stays swollen when a dent is told later. */
static bool look_line(const char *text, char look[LW_WORD], lw_error *err)
{
    char fresh[LW_WORD], both[2 * LW_WORD];
    if (!lw_look_read(text, fresh, err))
        return false;
    (void)snprintf(both, sizeof both, "%s %s", fresh[0] ? look : "", fresh);
    return lw_look_read(both, look, err);
}

static bool word_line(lw_entry *entry, char key, const char *text, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    if (!entry->cell.id[0])
        return lw_fail(err, LW_WRONG_INPUT, "cell", "no cell in hand; type its code first");
    lw_cell_record cell = entry->cell;
    bool good = false;
    switch (key) {
    case 'l':
        good = look_line(text, cell.look, err);
        break;
    case 'm':
        good = lw_record_text("marking", text, cell.marking, sizeof cell.marking, err);
        break;
    case 'c':
        good = lw_class_read(text, cell.voltage_class, err);
        break;
    case 's':
        good = lw_record_text("shape", text, cell.shape, sizeof cell.shape, err);
        break;
    case 'o':
        good = lw_record_text("origin", text, cell.origin, sizeof cell.origin, err);
        break;
    case 'r':
        good = lw_number_read("rated_ah", text, &cell.rated_ah, err);
        break;
    default:
        good = lw_record_text("note", text, cell.note, sizeof cell.note, err);
        break;
    }
    if (!good || !keep(entry, &cell, err))
        return false;
    (void)snprintf(entry->repeat, sizeof entry->repeat, "%c %s", key, text);
    say_cell(&entry->cell, reply);
    return true;
}

static bool undo(lw_entry *entry, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    if (entry->undos == 0)
        return lw_fail(err, LW_WRONG_INPUT, "", "nothing to undo");
    lw_entry_step *step = &entry->steps[entry->undos - 1];
    bool done;
    if (step->made_test)
        done = lw_store_remove(entry->store, LW_TESTS, step->made, err);
    else if (step->made_cell)
        done = lw_store_remove(entry->store, LW_CELLS, step->made, err);
    else
        done = lw_store_put(entry->store, LW_CELLS, &step->before, err);
    if (!done)
        return false;
    say(reply, "undone  ");
    entry->cell = step->before;
    entry->undos--;
    if (entry->cell.id[0])
        say_cell(&entry->cell, reply);
    else
        say(reply, "no cell in hand");
    return true;
}

/* "+", "+A17", "+ A17 3.62", "+ 3.62" */
static bool plus_line(lw_entry *entry, char *line, char *rest, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    if (line[1])
        return new_cell(entry, line + 1, rest, reply, err);
    if (is_volts(rest))
        return new_cell(entry, "", rest, reply, err);
    char *volts = rest + strcspn(rest, " \t");
    if (*volts)
        *volts++ = '\0';
    return new_cell(entry, rest, volts, reply, err);
}

/* A line that begins with a single letter; *known false when the letter is no key. */
static bool key_line(lw_entry *entry, char key, const char *rest, char reply[LW_ENTRY_REPLY], bool *known,
                     lw_error *err)
{
    const bool alone = strchr("uw", key) != NULL;
    *known = strchr("lmcsonrvuw", key) != NULL;
    if (!*known)
        return false;
    if (alone == (rest[0] != '\0'))
        return lw_fail(err, LW_WRONG_INPUT, "", "\"%c\" %s; ? lists the keys", key,
                       alone ? "stands alone" : "needs something after it");
    if (key == 'u')
        return undo(entry, reply, err);
    if (key == 'v')
        return volts_line(entry, rest, true, reply, err);
    if (key != 'w')
        return word_line(entry, key, rest, reply, err);
    if (!entry->cell.id[0])
        return lw_fail(err, LW_WRONG_INPUT, "cell", "no cell in hand");
    say_cell(&entry->cell, reply);
    return true;
}

static bool understand(lw_entry *entry, char *line, char reply[LW_ENTRY_REPLY], lw_error *err)
{
    char *rest = line + strcspn(line, " \t");
    if (*rest)
        *rest++ = '\0';
    rest += strspn(rest, " \t");
    if (line[0] == '+')
        return plus_line(entry, line, rest, reply, err);
    bool known = false;
    if (line[1] == '\0') {
        const bool done = key_line(entry, (char)tolower((unsigned char)line[0]), rest, reply, &known, err);
        if (known)
            return done;
    }
    if (is_volts(line) && !*rest)
        return volts_line(entry, line, false, reply, err);
    return take_cell(entry, line, rest, reply, err);
}

bool lw_entry_begin(lw_entry *entry, lw_store *store, const char *crate, lw_error *err)
{
    *entry = (lw_entry){.store = store};
    entry->cell = lw_cell_blank();
    return lw_desk_crate(store, crate, &entry->crate, err);
}

bool lw_entry_line(lw_entry *entry, const char *line, char reply[LW_ENTRY_REPLY])
{
    char text[LW_NOTE + 40];
    reply[0] = '\0';
    while (isspace((unsigned char)*line))
        line++;
    size_t length = strlen(line);
    while (length > 0 && isspace((unsigned char)line[length - 1]))
        length--;
    if (length == 0)
        return true;
    if (length >= sizeof text) {
        say(reply, "not stored: the line is too long");
        return true;
    }
    memcpy(text, line, length);
    text[length] = '\0';
    if (strcmp(text, "=") == 0) {
        if (!entry->repeat[0]) {
            say(reply, "not stored: nothing to repeat yet");
            return true;
        }
        memcpy(text, entry->repeat, sizeof entry->repeat);
    }
    if (strcasecmp(text, "q") == 0)
        return false;
    if (strcmp(text, "?") == 0) {
        say(reply, "%s", help_text);
        return true;
    }
    char what[120];
    (void)snprintf(what, sizeof what, "crate enter: %.90s", text);
    lw_store_what(entry->store, what);
    lw_error err = {0};
    if (!understand(entry, text, reply, &err)) {
        reply[0] = '\0';
        say(reply, "not stored: %s", err.message);
    }
    return true;
}
