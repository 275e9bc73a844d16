/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A change of one part of the shelf from JSON: see lanewick/prices.h.
 */
#include "lanewick/prices.h"

#include "doc.h"
#include "json_help.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_KEYS = 16 };

/* As it would stand in a table; false: a list, an object, a text of several lines. */
static bool value(FILE *out, const json_t *given)
{
    char text[40];
    if (json_is_string(given)) {
        if (strpbrk(json_string_value(given), "\r\n"))
            return false;
        lw_csv_quote(out, json_string_value(given));
    } else if (json_is_boolean(given)) {
        (void)fputs(json_is_true(given) ? "yes" : "no", out);
    } else if (json_is_integer(given)) {
        (void)fprintf(out, "%lld", (long long)json_integer_value(given));
    } else if (json_is_real(given)) {
        (void)snprintf(text, sizeof text, "%.*g", LW_MONEY_DIGITS, json_real_value(given));
        lw_csv_quote(out, text);
    } else if (!json_is_null(given)) {
        return false;
    }
    return true;
}

static bool is_key(const char *key)
{
    return key[0] && strspn(key, "abcdefghijklmnopqrstuvwxyz_") == strlen(key) && strcmp(key, "name") != 0;
}

/* The head and the one line; the reader of price lists judges both. */
static bool write_table(FILE *out, const char *name, json_t *set, lw_error *err)
{
    const char *key;
    json_t *one;
    (void)fputs("name", out);
    json_object_foreach(set, key, one)
    {
        if (!is_key(key))
            return lw_fail(err, LW_WRONG_INPUT, "set", "set.%.40s is no key of a price list.", key);
        (void)fprintf(out, ",%s", key);
    }
    (void)fputc('\n', out);
    lw_csv_quote(out, name);
    json_object_foreach(set, key, one)
    {
        (void)fputc(',', out);
        if (!value(out, one))
            return lw_fail(err, LW_WRONG_INPUT, key, "%.40s must be a text of one line, a number, true or false.", key);
    }
    (void)fputc('\n', out);
    return true;
}

static char *table_of(const char *name, json_t *set, lw_error *err)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    if (!out) {
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory.");
        return NULL;
    }
    bool done = write_table(out, name, set, err);
    if (fclose(out) != 0 && done)
        done = lw_fail(err, LW_STORAGE, "", "There is not enough memory.");
    if (done)
        return text;
    free(text);
    return NULL;
}

static void read_set(lw_doc *doc, json_t *json, lw_shelf_change *out)
{
    json_t *set = json_object_get(json, "set");
    (void)lw_doc_has(doc, "set");
    if (!doc->root->failed && (json_object_size(set) == 0 || json_object_size(set) > MOST_KEYS))
        lw_doc_fail(doc, "set", "must be an object with the keys that change, as in {\"at_hand\": 3}.");
    if (doc->root->failed)
        return;
    out->table = table_of(out->name, set, doc->root->err);
    doc->root->failed = out->table == NULL;
}

static void read_change(lw_doc *doc, json_t *json, lw_shelf_change *out)
{
    lw_doc_text(doc, "name", NULL, out->name, sizeof out->name);
    lw_doc_text(doc, "mark", "", out->mark, sizeof out->mark);
    lw_doc_text(doc, "currency", "", out->currency.text, sizeof out->currency.text);
    out->currency.decimals = lw_doc_integer_or(doc, "decimals", 0, 3, (lw_doc_or){-1.0, "", NULL});
    if (!doc->root->failed && !out->name[0])
        lw_doc_fail(doc, "name", "is empty; it must be the name of a part.");
    if (!lw_doc_flag_or(doc, "remove", false, NULL))
        read_set(doc, json, out);
    (void)lw_doc_done(doc);
}

bool lw_shelf_change_read(const char *text, size_t length, lw_shelf_change *out, lw_error *err)
{
    *out = (lw_shelf_change){.table = NULL};
    json_t *json = lw_json_parse(text, length, err);
    if (!json)
        return false;
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, json, "");
    read_change(&doc, json, out);
    json_decref(json);
    if (!root.failed)
        return true;
    free(out->table);
    out->table = NULL;
    return false;
}
