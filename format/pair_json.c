/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Documents of pairing: see lanewick/pair_json.h.
 */
#include "lanewick/pair_json.h"

#include "doc.h"
#include "json_help.h"

#include <string.h>

typedef void reader(lw_doc *doc, lw_pair_body *out);

static bool read(const char *text, size_t length, reader *keys, lw_pair_body *out, lw_error *err)
{
    json_t *value = lw_json_parse(text, length, err);
    if (!value)
        return false;
    memset(out, 0, sizeof *out);
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, value, "");
    keys(&doc, out);
    const bool done = lw_doc_done(&doc);
    json_decref(value);
    return done;
}

static void name_of(lw_doc *doc, lw_pair_body *out)
{
    enum { NAME = 64 };
    char name[NAME] = "";
    lw_doc_text(doc, "name", "a device", name, sizeof name);
    memcpy(out->name, name, sizeof name);
}

static void pair(lw_doc *doc, lw_pair_body *out)
{
    lw_doc_text(doc, "code", NULL, out->code, sizeof out->code);
    name_of(doc, out);
}

static void role(lw_doc *doc, lw_pair_body *out)
{
    static const char *const roles[] = {"bench", "planner", "owner"};
    const int place = lw_doc_choice(doc, "role", "bench|planner|owner", 0, NULL);
    memcpy(out->role, roles[place > 0 ? place : 0], strlen(roles[place > 0 ? place : 0]) + 1);
}

static void owner(lw_doc *doc, lw_pair_body *out)
{
    lw_doc_text(doc, "passphrase", NULL, out->passphrase, sizeof out->passphrase);
    name_of(doc, out);
}

static void passphrase(lw_doc *doc, lw_pair_body *out)
{
    enum { LEAST = 8 };
    lw_doc_text(doc, "passphrase", NULL, out->passphrase, sizeof out->passphrase);
    lw_doc_text(doc, "before", "", out->before, sizeof out->before);
    const size_t length = strlen(out->passphrase);
    if (length > 0 && length < LEAST)
        lw_doc_fail(doc, "passphrase", "has %zu letters; it needs at least %d (four words are easy to keep).", length,
                    LEAST);
}

bool lw_pair_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err)
{
    return read(text, length, pair, out, err);
}

bool lw_pair_code_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err)
{
    return read(text, length, role, out, err);
}

bool lw_owner_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err)
{
    return read(text, length, owner, out, err);
}

bool lw_passphrase_from_json(const char *text, size_t length, lw_pair_body *out, lw_error *err)
{
    return read(text, length, passphrase, out, err);
}

static char *dump(json_t *object)
{
    char *text = object ? json_dumps(object, JSON_COMPACT) : NULL;
    json_decref(object);
    return text;
}

static json_t *device(const lw_device_said *said)
{
    return json_pack("{s:s,s:s,s:s,s:I,s:I}", "id", said->id, "name", said->name, "role", said->role, "paired_s",
                     (json_int_t)said->paired_s, "ends_s", (json_int_t)said->ends_s);
}

char *lw_device_list_to_json(const lw_device_said *devices, size_t count)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, device(&devices[i]));
    return dump(json_pack("{s:o}", "devices", list));
}

char *lw_token_to_json(const char *token, const lw_device_said *said)
{
    return dump(json_pack("{s:s,s:o}", "token", token, "device", device(said)));
}

char *lw_code_to_json(const lw_code_said *said)
{
    return dump(json_pack("{s:s,s:s,s:I,s:s?,s:s?,s:s?,s:s?,s:s?}", "code", said->code, "role", said->role, "ends_s",
                          (json_int_t)said->ends_s, "page", said->page, "install", said->install, "fingerprint",
                          said->fingerprint, "page_qr", said->page_qr, "install_qr", said->install_qr));
}
