/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Paths and queries of a request (RFC 3986). Paths of ours need no escapes, so an escape in a path is refused and
 * there is nothing to escape from: files come out of a table by their exact names.
 */
#include "http.h"

#include <string.h>

static bool plain(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || strchr("-._~", c) != NULL;
}

bool lw_uri_path(const char *uri, char *out, size_t size)
{
    size_t length = strcspn(uri, "?#");
    if (length == 0 || length >= size || uri[0] != '/' || uri[length] == '#')
        return false;
    size_t part = 0;
    for (size_t i = 1; i <= length; i++) {
        const char c = i < length ? uri[i] : '/';
        if (c != '/') {
            if (c == '\0' || !plain(c))
                return false;
            part++;
            continue;
        }
        const bool dots = part > 0 && part <= 2 && strncmp(uri + i - part, "..", part) == 0;
        if (dots || (part == 0 && length > 1))
            return false;
        part = 0;
    }
    memcpy(out, uri, length);
    out[length] = '\0';
    return true;
}

static int hex(char c)
{
    static const char digits[] = "0123456789abcdefABCDEF";
    const char *place = c ? strchr(digits, c) : NULL;
    const int value = place ? (int)(place - digits) : -1;
    return value > 15 ? value - 6 : value;
}

/* text[0..length) decoded; false on a bad escape, a control sign or too little room. */
static bool decode(const char *text, size_t length, char *out, size_t size)
{
    size_t used = 0;
    for (size_t i = 0; i < length; i++) {
        int c = (unsigned char)text[i];
        if (c == '%') {
            if (i + 2 >= length || hex(text[i + 1]) < 0 || hex(text[i + 2]) < 0)
                return false;
            c = 16 * hex(text[i + 1]) + hex(text[i + 2]);
            i += 2;
        } else if (c == '+') {
            c = ' ';
        }
        if (c < 32 || c == 127 || used + 1 >= size)
            return false;
        out[used++] = (char)c;
    }
    out[used] = '\0';
    return true;
}

int lw_uri_query(const char *uri, const char *key, char *out, size_t size)
{
    const char *query = strchr(uri, '?');
    const size_t wanted = strlen(key);
    int found = 0;
    while (query && *query) {
        query++;
        const size_t length = strcspn(query, "&");
        if (length >= wanted && strncmp(query, key, wanted) == 0 && (length == wanted || query[wanted] == '=')) {
            const size_t skip = length == wanted ? wanted : wanted + 1;
            if (found || !decode(query + skip, length - skip, out, size))
                return -1;
            found = 1;
        }
        query += length;
    }
    return found;
}
