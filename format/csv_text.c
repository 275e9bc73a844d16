/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bytes of a table to UTF-8 text with line ends LF: byte-order marks, UTF-16, CR and CRLF; a field as it is written.
 */
#include "csv_inside.h"

#include <string.h>

static size_t put_utf8(char *out, unsigned long code)
{
    if (code < 0x80) {
        out[0] = (char)code;
        return 1;
    }
    if (code < 0x800) {
        out[0] = (char)(0xc0 | code >> 6);
        out[1] = (char)(0x80 | (code & 0x3f));
        return 2;
    }
    if (code < 0x10000) {
        out[0] = (char)(0xe0 | code >> 12);
        out[1] = (char)(0x80 | (code >> 6 & 0x3f));
        out[2] = (char)(0x80 | (code & 0x3f));
        return 3;
    }
    out[0] = (char)(0xf0 | code >> 18);
    out[1] = (char)(0x80 | (code >> 12 & 0x3f));
    out[2] = (char)(0x80 | (code >> 6 & 0x3f));
    out[3] = (char)(0x80 | (code & 0x3f));
    return 4;
}

static unsigned long unit(const unsigned char *b, bool big)
{
    return big ? (unsigned long)b[0] << 8 | b[1] : (unsigned long)b[1] << 8 | b[0];
}

/* UTF-16 without its mark; at most 3 bytes for each 2 given. A lone half of a pair becomes U+FFFD. */
static size_t decode(const unsigned char *in, size_t length, bool big, char *out)
{
    size_t made = 0;
    for (size_t i = 0; i + 1 < length; i += 2) {
        unsigned long code = unit(in + i, big);
        if (code >= 0xd800 && code < 0xdc00 && i + 3 < length) {
            const unsigned long low = unit(in + i + 2, big);
            if (low >= 0xdc00 && low < 0xe000) {
                code = 0x10000 + ((code - 0xd800) << 10) + (low - 0xdc00);
                i += 2;
            }
        }
        if (code >= 0xd800 && code < 0xe000)
            code = 0xfffd;
        made += put_utf8(out + made, code);
    }
    return made;
}

static size_t unify_line_ends(char *text, size_t length)
{
    size_t made = 0;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '\r') {
            if (i + 1 < length && text[i + 1] == '\n')
                continue;
            text[made++] = '\n';
        } else {
            text[made++] = text[i];
        }
    }
    return made;
}

char *lw_csv_to_text(const char *bytes, size_t length, lw_arena *arena, size_t *made, lw_error *err)
{
    const unsigned char *b = (const unsigned char *)bytes;
    const bool little = length >= 2 && b[0] == 0xff && b[1] == 0xfe, big = length >= 2 && b[0] == 0xfe && b[1] == 0xff;
    char *text = lw_arena_take(arena, length + length / 2 + 8, 1, err);
    if (!text)
        return NULL;
    if (little || big) {
        *made = decode(b + 2, length - 2, big, text);
    } else {
        const size_t mark = length >= 3 && memcmp(b, "\xef\xbb\xbf", 3) == 0 ? 3 : 0;
        memcpy(text, bytes + mark, length - mark);
        *made = length - mark;
    }
    if (memchr(text, '\0', *made)) {
        (void)lw_fail(err, LW_WRONG_INPUT, "file",
                      "This is not a text table: it holds zero bytes. Save it as CSV in UTF-8.");
        return NULL;
    }
    *made = unify_line_ends(text, *made);
    text[*made] = '\0';
    return text;
}

void lw_csv_quote(FILE *out, const char *text)
{
    (void)fputc('"', out);
    for (; *text; text++) {
        if (*text == '"')
            (void)fputc('"', out);
        (void)fputc(*text, out);
    }
    (void)fputc('"', out);
}
