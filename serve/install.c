/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The door for phones that do not trust the workshop yet: steps to follow and the root certificate, nothing else. It
 * is plain HTTP, so a person compares the fingerprint with the one on the laptop's screen.
 */
#include "page.h"
#include "server.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The page with "@FINGERPRINT@" and "@ADDRESS@" filled in, on the heap. */
static char *filled(const lw_page_file *page, const char *fingerprint, const char *address)
{
    const struct {
        const char *mark, *value;
    } marks[] = {{"@FINGERPRINT@", fingerprint}, {"@ADDRESS@", address}};
    const size_t room = page->length + 8 * 128;
    char *text = malloc(room + 1);
    size_t used = 0;
    for (size_t i = 0; text && i < page->length && used + 128 < room;) {
        const char *value = NULL;
        for (size_t m = 0; m < sizeof marks / sizeof marks[0]; m++)
            if (strncmp(page->bytes + i, marks[m].mark, strlen(marks[m].mark)) == 0) {
                value = marks[m].value;
                i += strlen(marks[m].mark);
                break;
            }
        if (value)
            used += (size_t)snprintf(text + used, 128, "%s", value);
        else
            text[used++] = page->bytes[i++];
    }
    if (text)
        text[used] = '\0';
    return text;
}

void lw_install_answer(const lw_call *call, lw_http_response *out)
{
    const lw_server *server = call->server;
    const lw_page_file *page = lw_page_find("/built-in/install.html"), *style = lw_page_find("/built-in/plain.css");
    if (strcmp(call->request->method, "GET") != 0 && strcmp(call->request->method, "HEAD") != 0) {
        lw_answer_problem(out, call->request, "wrong-method", "", "Here files can only be read.");
        out->allow = "GET, HEAD";
    } else if (strcmp(call->path, "/") == 0 && page) {
        char address[64];
        (void)snprintf(address, sizeof address, "https://%.*s:%d/", (int)strcspn(call->request->host, ":"),
                       call->request->host, server->lan_port);
        lw_answer_json(out, filled(page, server->fingerprint, address));
        if (out->status == 200)
            out->type = page->type;
    } else if (strcmp(call->path, "/built-in/plain.css") == 0 && style) {
        *out = (lw_http_response){.status = 200, .type = style->type, .fixed = style->bytes, .length = style->length};
    } else if (strcmp(call->path, "/workshop-root.crt") == 0) {
        *out = (lw_http_response){
            .status = 200, .type = "application/x-x509-ca-cert", .fixed = server->root, .length = strlen(server->root)};
    } else {
        lw_answer_problem(out, call->request, "not-found", "",
                          "Here are only the steps to trust the workshop: open /.");
    }
}
