/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a record of a cell may say, and the words for a look. See lanewick/records.h.
 */
#include "lanewick/records.h"

#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

static const char *const looks[] = {"dent", "rust", "swollen", "torn", "leak", "smell", "hot"};
enum { LOOKS = sizeof looks / sizeof looks[0] };

lw_cell_record lw_cell_blank(void)
{
    return (lw_cell_record){.voltage_class = "unknown", .found_v = NAN, .rated_ah = NAN};
}

lw_standing_record lw_standing_blank(void)
{
    return (lw_standing_record){.verdict = "untested",
                                .capacity_ah = NAN,
                                .capacity_sd_ah = NAN,
                                .resistance_ohm = NAN,
                                .resistance_sd_ohm = NAN,
                                .self_discharge_pct = NAN,
                                .self_discharge_sd_pct = NAN};
}

/* Length of the UTF-8 sequence that begins here, 0 when it is none (RFC 3629, without the finer limits of 3-byte ones).
 */
static size_t sequence(const unsigned char *c)
{
    const size_t length = *c < 0x80                 ? 1
                          : *c >= 0xC2 && *c < 0xE0 ? 2
                          : (*c & 0xF0) == 0xE0     ? 3
                          : *c >= 0xF0 && *c < 0xF5 ? 4
                                                    : 0;
    for (size_t i = 1; i < length; i++)
        if ((c[i] & 0xC0) != 0x80)
            return 0;
    return length;
}

bool lw_record_text(const char *field, const char *text, char *out, size_t size, lw_error *err)
{
    const size_t length = strlen(text);
    if (length >= size)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s...\"; it may have %zu bytes, this has %zu.", field,
                       text, size - 1, length);
    for (const unsigned char *c = (const unsigned char *)text; *c;) {
        const size_t step = sequence(c);
        if (step == 0 || *c < 0x20 || *c == 0x7F)
            return lw_fail(err, LW_WRONG_INPUT, field, "%s holds a byte that is no text (0x%02X).", field, *c);
        c += step;
    }
    memcpy(out, text, length + 1);
    return true;
}

bool lw_number_read(const char *field, const char *text, double *x, lw_error *err)
{
    char plain[40];
    const size_t length = strlen(text);
    if (length > 0 && length < sizeof plain && strspn(text, "+-.,0123456789eE") == length) {
        memcpy(plain, text, length + 1);
        char *comma = strchr(plain, ','), *end;
        if (comma)
            *comma = '.';
        *x = strtod(plain, &end);
        if (*end == '\0' && end != plain && isfinite(*x))
            return true;
    }
    return lw_fail(err, LW_WRONG_INPUT, field, "%s is \"%.40s\"; it must be a number.", field, text);
}

bool lw_class_read(const char *text, char voltage_class[12], lw_error *err)
{
    static const char *const meant[][2] = {
        {"4v2", "4v2"},     {"4.2", "4v2"},         {"4,2", "4v2"},   {"nmc", "4v2"},   {"lco", "4v2"},
        {"nca", "4v2"},     {"4v35", "4v35"},       {"4.35", "4v35"}, {"4,35", "4v35"}, {"lfp", "lfp"},
        {"lifepo4", "lfp"}, {"unknown", "unknown"}, {"?", "unknown"}, {"", "unknown"},
    };
    for (size_t i = 0; i < sizeof meant / sizeof meant[0]; i++)
        if (strcasecmp(text, meant[i][0]) == 0) {
            (void)snprintf(voltage_class, 12, "%s", meant[i][1]);
            return true;
        }
    return lw_fail(err, LW_WRONG_INPUT, "voltage_class",
                   "voltage_class is \"%.40s\"; it is 4v2 (LCO, NMC, NCA), 4v35, lfp or unknown.", text);
}

static bool code_is_good(const char *code)
{
    if (!isalnum((unsigned char)code[0]) || strlen(code) >= LW_CODE)
        return false;
    for (const char *c = code; *c; c++)
        if (!isalnum((unsigned char)*c) && !strchr("-_./", *c))
            return false;
    return true;
}

/* One cell's, from a button cell to a large prismatic one; mAh typed for Ah are guessed. */
static bool rated_is_good(double ah, lw_error *err)
{
    static const double least_ah = 0.1, most_ah = 60.0;
    if (isnan(ah) || (ah >= least_ah && ah <= most_ah))
        return true;
    const double guess = ah / 1000.0;
    char hint[60] = "";
    if (guess >= least_ah && guess <= most_ah)
        (void)snprintf(hint, sizeof hint, " Did you mean %.3g Ah (%g mAh)?", guess, ah);
    return lw_fail(err, LW_WRONG_INPUT, "rated_ah", "rated_ah is %g Ah; one cell has %g to %g Ah when new.%s", ah,
                   least_ah, most_ah, hint);
}

bool lw_cell_check(const lw_cell_record *cell, lw_error *err)
{
    char class[12];
    if (!code_is_good(cell->code))
        return lw_fail(err, LW_WRONG_INPUT, "code",
                       "code is \"%.40s\"; it must have 1 to %d letters, digits or - _ . / and no spaces.", cell->code,
                       LW_CODE - 1);
    return lw_class_read(cell->voltage_class, class, err) &&
           (isnan(cell->found_v) || lw_cell_volts("found_v", &cell->found_v, 1, err)) &&
           rated_is_good(cell->rated_ah, err);
}

static bool add_look(const char *word, bool seen[LOOKS], lw_error *err)
{
    static const char *const other[][2] = {{"swelling", "swollen"}, {"swell", "swollen"}, {"dented", "dent"},
                                           {"rusty", "rust"},       {"leaking", "leak"},  {"wrap", "torn"},
                                           {"smells", "smell"},     {"warm", "hot"}};
    static const char *const nothing[] = {"", "-", "none", "good", "ok"};
    for (size_t i = 0; i < sizeof nothing / sizeof nothing[0]; i++)
        if (strcasecmp(word, nothing[i]) == 0)
            return true;
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++)
        if (strcasecmp(word, other[i][0]) == 0)
            word = other[i][1];
    const char *near = looks[0];
    for (size_t i = 0; i < LOOKS; i++) {
        if (strcasecmp(word, looks[i]) == 0) {
            seen[i] = true;
            return true;
        }
        if (lw_spelling_distance(looks[i], word) < lw_spelling_distance(near, word))
            near = looks[i];
    }
    return lw_fail(err, LW_WRONG_INPUT, "look",
                   "look holds \"%.30s\"; the words are dent, rust, swollen, torn, leak, smell, hot. Did you mean %s?",
                   word, near);
}

bool lw_look_read(const char *text, char look[LW_WORD], lw_error *err)
{
    bool seen[LOOKS] = {false};
    for (const char *at = text; *at;) {
        char word[40];
        const size_t length = strcspn(at, " ,;+/");
        (void)snprintf(word, sizeof word, "%.*s", (int)(length < 39 ? length : 39), at);
        if (!add_look(word, seen, err))
            return false;
        at += length + (at[length] != '\0');
    }
    size_t used = 0;
    look[0] = '\0';
    for (size_t i = 0; i < LOOKS; i++)
        if (seen[i])
            used += (size_t)snprintf(look + used, LW_WORD - used, "%s%s", used ? " " : "", looks[i]);
    return true;
}

/* Common practice; the numbers are those of the safety limits (docs/safety.md). */
const char *lw_found_caution(const lw_cell_record *cell, size_t i)
{
    const char *all[8];
    size_t n = 0;
    const double low = strcmp(cell->voltage_class, "lfp") == 0 ? 2.0 : 2.5;
    if (cell->found_v < 2.0)
        all[n++] =
            "below 2.0 V: scrap now. Tape both ends, put it in the sand box and out of the house. Never charge it.";
    else if (cell->found_v < low)
        all[n++] =
            "between 2.0 V and 2.5 V: only a watched recovery (0.05 C or less, 3.0 V within 60 min), then a full "
            "test; else scrap.";
    if (strstr(cell->look, "swollen") || strstr(cell->look, "hot"))
        all[n++] =
            "swollen or hot: scrap. Carry it outside in the sand box, away from people; do not press or open it.";
    if (strstr(cell->look, "leak") || strstr(cell->look, "smell"))
        all[n++] = "leaking or smelling: scrap. Gloves and eye protection, open the window, do not touch the liquid.";
    if (strstr(cell->look, "dent") || strstr(cell->look, "rust"))
        all[n++] = "dented or rusty: scrap. Tape both ends and put it with the battery waste.";
    if (strstr(cell->look, "torn"))
        all[n++] = "torn wrap: the can is the negative pole up to the rim. Re-wrap it before anything else.";
    return i < n ? all[i] : NULL;
}
