/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files of the page out of the table, compressed where the browser takes it, not sent again where it has them.
 */
#include "page.h"

#include "server.h"

#include <stdlib.h>
#include <string.h>

static int compare(const void *path, const void *file)
{
    return strcmp(path, ((const lw_page_file *)file)->path);
}

const lw_page_file *lw_page_find(const char *path)
{
    return bsearch(path, lw_page_files, lw_page_file_count, sizeof lw_page_files[0], compare);
}

/* "gzip" stands in Accept-Encoding (RFC 9110, 12.5.3) and is not refused by a weight of 0. */
static bool takes_gzip(const char *accept)
{
    const char *place = accept ? strstr(accept, "gzip") : NULL;
    if (!place)
        return false;
    place += strlen("gzip");
    while (*place == ' ')
        place++;
    return strncmp(place, ";q=0", 4) != 0 || strncmp(place, ";q=0.", 5) == 0;
}

/* Built-in pages have short names of their own; /phones is for the laptop's screen. */
static const lw_page_file *file_of(const char *path, lw_door door)
{
    if (strcmp(path, "/phones") == 0)
        return door == LW_DOOR_LOCAL ? lw_page_find("/built-in/phones.html") : NULL;
    if (strcmp(path, "/") != 0)
        return strncmp(path, "/built-in/", 10) == 0 && strstr(path, ".html") ? NULL : lw_page_find(path);
    const lw_page_file *index = lw_page_find("/index.html");
    return index ? index : lw_page_find("/built-in/no-page.html");
}

bool lw_page_answer(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    const lw_page_file *file = file_of(call->path, request->door);
    if (!file)
        return false;
    if (strcmp(request->method, "GET") != 0 && strcmp(request->method, "HEAD") != 0) {
        lw_answer_problem(out, request, "wrong-method", "", "Files of the page can only be read.");
        out->allow = "GET, HEAD";
        return true;
    }
    *out = (lw_http_response){.status = 200, .type = file->type, .etag = file->etag, .may_be_kept = true};
    if (request->if_none_match && strstr(request->if_none_match, file->etag)) {
        out->status = 304;
        return true;
    }
    const bool packed = file->gzip && takes_gzip(request->accept_encoding);
    out->fixed = packed ? file->gzip : file->bytes;
    out->length = packed ? file->gzip_length : file->length;
    out->encoding = packed ? "gzip" : NULL;
    return true;
}
