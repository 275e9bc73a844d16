/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The page as one file that passes from phone to phone: style, script, and every file that the page would fetch, packed
 * and written in letters (RFC 4648, base 64), put into web/single.html.
 */
#include "page.h"

#include "lanewick/serve.h"

#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* "</script" would end the script that it stands in. */
static void put_script(FILE *out, const lw_page_file *file)
{
    const char *at = file->bytes, *end = file->bytes + file->length;
    for (const char *next; (next = strstr(at, "</script")) != NULL && next < end; at = next + 1) {
        (void)fwrite(at, 1, (size_t)(next - at), out);
        (void)fputs("<\\", out);
    }
    (void)fwrite(at, 1, (size_t)(end - at), out);
}

/* One file in an element of its own; false: it is not packed, or memory is out. */
static bool put_file(FILE *out, const lw_page_file *file)
{
    if (!file->gzip)
        return false;
    const size_t room = sodium_base64_encoded_len(file->gzip_length, sodium_base64_VARIANT_ORIGINAL);
    char *letters = malloc(room);
    if (!letters)
        return false;
    (void)sodium_bin2base64(letters, room, (const unsigned char *)file->gzip, file->gzip_length,
                            sodium_base64_VARIANT_ORIGINAL);
    (void)fprintf(out, "<script type=\"text/plain\" id=\"%s\">%s</script>\n", file->path, letters);
    free(letters);
    return true;
}

static bool is_carried(const char *path)
{
    const bool asked_of_laptop = strstr(path, "laptop.json") != NULL; /* sentences that only the server says */
    return (strncmp(path, "/words/", 7) == 0 && !asked_of_laptop) || strcmp(path, "/core.wasm") == 0 ||
           strcmp(path, "/beside.js") == 0 || strcmp(path, "/outlines.txt") == 0 ||
           strcmp(path, "/built-in/demo/nsungwi.json") == 0;
}

static bool put_files(FILE *out)
{
    bool well = true;
    for (size_t i = 0; i < lw_page_file_count; i++)
        if (is_carried(lw_page_files[i].path))
            well = put_file(out, &lw_page_files[i]) && well;
    return well;
}

static bool fill(FILE *out, const lw_page_file *frame)
{
    const lw_page_file *style = lw_page_find("/page.css"), *script = lw_page_find("/single.js");
    bool well = style && script;
    const char *at = frame->bytes;
    while (well && *at) {
        const size_t plain = strcspn(at, "@");
        (void)fwrite(at, 1, plain, out);
        at += plain;
        if (strncmp(at, "@STYLE@", 7) == 0)
            (void)fwrite(style->bytes, 1, style->length, out);
        else if (strncmp(at, "@FILES@", 7) == 0)
            well = put_files(out);
        else if (strncmp(at, "@SCRIPT@", 8) == 0)
            put_script(out, script);
        at += *at ? 1 + strcspn(at + 1, "@") + 1 : 0;
    }
    return well;
}

bool lw_serve_single(char **html, size_t *length, lw_error *err)
{
    const lw_page_file *frame = lw_page_find("/single.html");
    *html = NULL;
    if (!frame || !lw_page_find("/core.wasm"))
        return lw_fail(err, LW_NOT_COMPUTABLE, "",
                       "This program was built without its page or without the page's core; docs/page.md says what the "
                       "build needs.");
    FILE *out = open_memstream(html, length);
    const bool well = out && fill(out, frame);
    if (out && fclose(out) == 0 && well)
        return true;
    free(*html);
    *html = NULL;
    return lw_fail(err, LW_STORAGE, "", "There is not enough memory to write the page.");
}
