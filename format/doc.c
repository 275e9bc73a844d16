/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading a JSON document key by key: see doc.h.
 */
#include "doc.h"

#include "json_help.h"

#include "lanewick/figure.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void join(char out[LW_DOC_PATH], const char *path, const char *key)
{
    (void)snprintf(out, LW_DOC_PATH, "%.50s%s%.28s", path, path[0] && key[0] ? "." : "", key);
}

void lw_doc_fail(lw_doc *doc, const char *key, const char *format, ...)
{
    if (doc->root->failed)
        return;
    doc->root->failed = true;
    char field[LW_DOC_PATH], message[320];
    join(field, doc->path, key);
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(message, sizeof message, format, arguments);
    va_end(arguments);
    (void)lw_fail(doc->root->err, LW_WRONG_INPUT, field, "%s %s", field, message);
}

lw_doc lw_doc_open(lw_doc_root *root, const json_t *object, const char *path)
{
    lw_doc doc = {.root = root, .object = object};
    (void)snprintf(doc.path, sizeof doc.path, "%s", path);
    if (object && !json_is_object(object)) {
        doc.object = NULL;
        if (!path[0] && !root->failed) { /* the whole of it: there is no key to name */
            root->failed = true;
            (void)lw_fail(root->err, LW_WRONG_INPUT, "document", "The document must be an object in braces { }.");
        }
        lw_doc_fail(&doc, "", "must be an object in braces { }.");
    }
    return doc;
}

/* The value under a key, which becomes a known one; null counts as missing. */
static const json_t *get(lw_doc *doc, const char *key)
{
    if (doc->known_count < LW_DOC_KEYS)
        doc->known[doc->known_count++] = key;
    if (doc->root->failed || !doc->object)
        return NULL;
    const json_t *value = json_object_get(doc->object, key);
    return json_is_null(value) ? NULL : value;
}

bool lw_doc_has(lw_doc *doc, const char *key)
{
    return get(doc, key) != NULL;
}

lw_doc lw_doc_part(lw_doc *doc, const char *key, bool needed)
{
    char path[LW_DOC_PATH];
    join(path, doc->path, key);
    const json_t *value = get(doc, key);
    if (needed && !value)
        lw_doc_fail(doc, key, "is missing; it must be an object in braces { }.");
    return lw_doc_open(doc->root, value, path);
}

const json_t *lw_doc_list(lw_doc *doc, const char *key, size_t least, size_t most)
{
    const json_t *list = get(doc, key);
    if (!list && least > 0)
        lw_doc_fail(doc, key, "is missing; it must be a list in brackets [ ] of %zu to %zu objects.", least, most);
    if (!list || json_is_array(list)) {
        const size_t count = json_array_size(list);
        if (list && (count < least || count > most))
            lw_doc_fail(doc, key, "has %zu entries; %zu to %zu are possible.", count, least, most);
        return doc->root->failed ? NULL : list;
    }
    lw_doc_fail(doc, key, "must be a list in brackets [ ].");
    return NULL;
}

lw_doc lw_doc_element(lw_doc *doc, const char *key, const json_t *list, size_t i)
{
    char entry[LW_DOC_PATH], path[LW_DOC_PATH];
    (void)snprintf(entry, sizeof entry, "%.24s[%zu]", key, i + 1);
    join(path, doc->path, entry);
    return lw_doc_open(doc->root, json_array_get(list, i), path);
}

static void check_range(lw_doc *doc, const char *key, double value, double low, double high, const char *unit)
{
    if (!(value >= low && value <= high))
        lw_doc_fail(doc, key, "is %.6g%s%s; it must be between %.6g and %.6g%s%s.", value, unit[0] ? " " : "", unit,
                    low, high, unit[0] ? " " : "", unit);
}

static double read_number(lw_doc *doc, const char *key, const json_t *value, double low, double high, const char *unit)
{
    if (!json_is_number(value)) {
        lw_doc_fail(doc, key, "must be a number%s%s, without quotes.", unit[0] ? " in " : "", unit);
        return low;
    }
    const double x = json_number_value(value);
    check_range(doc, key, x, low, high, unit);
    return x;
}

double lw_doc_number(lw_doc *doc, const char *key, double low, double high, const char *unit)
{
    const json_t *value = get(doc, key);
    if (value)
        return read_number(doc, key, value, low, high, unit);
    lw_doc_fail(doc, key, "is missing; it must be a number between %.6g and %.6g%s%s.", low, high, unit[0] ? " " : "",
                unit);
    return low;
}

static void tell(lw_doc *doc, const char *key, lw_doc_or fallback)
{
    if (!fallback.why || doc->root->failed || !doc->root->assumed)
        return;
    char path[LW_DOC_PATH];
    join(path, doc->path, key);
    lw_assume(doc->root->assumed, path, fallback.why, "%.6g%s%s", fallback.value, fallback.unit[0] ? " " : "",
              fallback.unit);
}

double lw_doc_number_or(lw_doc *doc, const char *key, double low, double high, lw_doc_or fallback)
{
    const json_t *value = get(doc, key);
    if (value)
        return read_number(doc, key, value, low, high, fallback.unit);
    tell(doc, key, fallback);
    return fallback.value;
}

int lw_doc_integer_or(lw_doc *doc, const char *key, int low, int high, lw_doc_or fallback)
{
    const double x = lw_doc_number_or(doc, key, low, high, fallback);
    if (x != floor(x))
        lw_doc_fail(doc, key, "is %.6g; it must be a whole number from %d to %d.", x, low, high);
    return doc->root->failed ? low : (int)x;
}

bool lw_doc_flag_or(lw_doc *doc, const char *key, bool fallback, const char *why)
{
    const json_t *value = get(doc, key);
    if (value && !json_is_boolean(value))
        lw_doc_fail(doc, key, "must be true or false.");
    if (value)
        return json_is_true(value);
    if (why && !doc->root->failed && doc->root->assumed) {
        char path[LW_DOC_PATH];
        join(path, doc->path, key);
        lw_assume(doc->root->assumed, path, why, "%s", fallback ? "yes" : "no");
    }
    return fallback;
}

bool lw_doc_numbers(lw_doc *doc, const char *key, double low, double high, const char *unit, double *out, size_t count)
{
    const json_t *list = get(doc, key);
    if (!list)
        return false;
    if (!json_is_array(list) || json_array_size(list) != count) {
        lw_doc_fail(doc, key, "has %zu values; it must be a list of %zu numbers.", json_array_size(list), count);
        return false;
    }
    for (size_t i = 0; i < count; i++) {
        char entry[LW_DOC_PATH];
        (void)snprintf(entry, sizeof entry, "%.24s[%zu]", key, i + 1);
        out[i] = read_number(doc, entry, json_array_get(list, i), low, high, unit);
    }
    return !doc->root->failed;
}

/* The i-th of the words separated by |, its length; NULL when there are not so many. */
static const char *word_at(const char *words, int i, size_t *length)
{
    for (; i > 0 && words; i--) {
        words = strchr(words, '|');
        words = words ? words + 1 : NULL;
    }
    if (words)
        *length = strcspn(words, "|");
    return words;
}

json_t *lw_doc_word(const char *words, int i)
{
    size_t length = 0;
    const char *word = word_at(words, i, &length);
    char copy[LW_DOC_WORD] = "";
    (void)snprintf(copy, sizeof copy, "%.*s", (int)length, word ? word : "");
    return json_string(copy);
}

static void assume_choice(lw_doc *doc, const char *key, const char *words, int fallback, const char *why)
{
    size_t length = 0;
    const char *word = word_at(words, fallback, &length);
    char path[LW_DOC_PATH];
    join(path, doc->path, key);
    if (why && word && !doc->root->failed && doc->root->assumed)
        lw_assume(doc->root->assumed, path, why, "%.*s", (int)length, word);
}

int lw_doc_choice(lw_doc *doc, const char *key, const char *words, int fallback, const char *why)
{
    const json_t *value = get(doc, key);
    if (!value && fallback >= 0) {
        assume_choice(doc, key, words, fallback, why);
        return fallback;
    }
    size_t length = 0;
    const char *text = json_string_value(value);
    for (int i = 0; text; i++) {
        const char *word = word_at(words, i, &length);
        if (!word)
            break;
        if (strlen(text) == length && strncmp(text, word, length) == 0)
            return i;
    }
    lw_doc_fail(doc, key, "%s%.40s%s; it must be one of %s.",
                text    ? "is \""
                : value ? "is not a text"
                        : "is missing",
                text ? text : "", text ? "\"" : "", words);
    return fallback >= 0 ? fallback : 0;
}

void lw_doc_text(lw_doc *doc, const char *key, const char *fallback, char *out, size_t size)
{
    const json_t *value = get(doc, key);
    const char *text = value ? json_string_value(value) : fallback;
    out[0] = '\0';
    if (!text) {
        lw_doc_fail(doc, key, "%s", value ? "must be a text in quotes." : "is missing; it must be a text in quotes.");
        return;
    }
    if (strlen(text) >= size)
        lw_doc_fail(doc, key, "is %zu bytes long; the most is %zu.", strlen(text), size - 1);
    for (const char *sign = text; *sign; sign++)
        if ((unsigned char)*sign < 32 || *sign == 127)
            lw_doc_fail(doc, key, "holds a control sign; only text that can be printed is possible.");
    if (!doc->root->failed)
        (void)snprintf(out, size, "%s", text);
}

bool lw_doc_done(lw_doc *doc)
{
    const char *key;
    json_t *item;
    if (doc->root->failed || !doc->object)
        return !doc->root->failed;
    json_object_foreach((json_t *)doc->object, key, item)
    {
        size_t nearest = 0;
        bool known = false;
        for (size_t i = 0; i < doc->known_count; i++) {
            known = known || strcmp(key, doc->known[i]) == 0;
            if (lw_spelling_distance(key, doc->known[i]) < lw_spelling_distance(key, doc->known[nearest]))
                nearest = i;
        }
        if (!known)
            lw_doc_fail(doc, key, "is not a key that is known here; did you mean \"%s\"?",
                        doc->known_count ? doc->known[nearest] : "");
    }
    return !doc->root->failed;
}

bool lw_doc_file_open(lw_doc_file *file, const char *text, size_t length, const char *format, lw_error *err)
{
    char name[120];
    *file = (lw_doc_file){.json = lw_json_parse(text, length, err), .root = {.err = err}};
    if (!file->json)
        return false;
    file->doc = lw_doc_open(&file->root, file->json, "");
    (void)lw_doc_choice(&file->doc, "format", format, -1, NULL);
    lw_doc_text(&file->doc, "name", "", name, sizeof name);
    return true;
}

bool lw_doc_file_close(lw_doc_file *file)
{
    const bool done = lw_doc_done(&file->doc);
    json_decref(file->json);
    return done;
}

void lw_doc_set(lw_doc *doc, const char *key, double low, double high, const char *unit, double *value)
{
    *value = lw_doc_number_or(doc, key, low, high, (lw_doc_or){*value, unit, NULL});
}
