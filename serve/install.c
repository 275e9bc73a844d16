/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The door for phones that do not trust the workshop yet: steps to follow and the root certificate, nothing else. It
 * is plain HTTP, so a person compares the fingerprint with the one on the laptop's screen.
 */
#include "page.h"
#include "server.h"

#include "lanewick/words.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const texts[] = /* words */ {
    "Let this phone trust the workshop",
    "Once for each phone. After that the page opens without a warning and also works without connection.",
    "Load the workshop's certificate.",
    "Load certificate",
    "Install it.",
    "Android: Settings, search for \"CA certificate\", choose to install it anyway, pick workshop-root.crt. A screen "
    "lock "
    "may be asked for.",
    "iPhone: Settings, General, VPN and Device Management: install the profile. Then Settings, General, About, "
    "Certificate Trust Settings: switch it on.",
    "Computer: in the browser's settings search for \"certificates\", authorities, import; trust it for websites.",
    "Compare: the certificate's SHA-256 fingerprint must be the one on the laptop's screen.",
    "If it differs, remove the certificate again: somebody else answered you.",
    "Open the page and type the code that the laptop shows.",
    "The certificate counts only for addresses of local networks, not for the internet. To take it back, remove "
    "\"lanewick workshop\" where you installed it.",
};
enum { TEXTS = sizeof texts / sizeof texts[0] };

/* The first language of the browser that there is a catalogue for (RFC 9110, 12.5.4; browsers name them by liking). */
static const lw_words *language_of(const char *accepted)
{
    for (const char *at = accepted; at && *at;) {
        char code[3] = {0};
        at += strspn(at, " ,");
        (void)snprintf(code, sizeof code, "%.2s", at);
        const lw_words *found = strcspn(at, "-,;") == 2 ? lw_words_find(code) : NULL;
        if (found)
            return found;
        at += strcspn(at, ",");
    }
    return lw_words_find("en");
}

/* What stands for the mark that begins here, and the mark's length; NULL: no mark. */
static const char *value_at(const char *mark, const lw_words *words, const char *fingerprint, const char *address,
                            size_t *length)
{
    const struct {
        const char *mark, *value;
    } marks[] = {{"@FINGERPRINT@", fingerprint}, {"@ADDRESS@", address}, {"@LANGUAGE@", words->code}};
    for (size_t m = 0; m < sizeof marks / sizeof marks[0]; m++)
        if (strncmp(mark, marks[m].mark, strlen(marks[m].mark)) == 0) {
            *length = strlen(marks[m].mark);
            return marks[m].value;
        }
    char *end;
    const unsigned long number = strtoul(mark + 1, &end, 10);
    if (mark[1] < '0' || mark[1] > '9' || *end != '@' || number >= TEXTS)
        return NULL;
    *length = (size_t)(end + 1 - mark);
    return lw_say(words, texts[number]);
}

/* The page with its marks filled in, on the heap. */
static char *filled(const lw_page_file *page, const lw_words *words, const char *fingerprint, const char *address)
{
    enum { VALUE = 512, MARKS = 32 };
    const size_t room = page->length + (size_t)VALUE * MARKS;
    char *text = malloc(room + 1);
    size_t used = 0;
    for (size_t i = 0; text && i < page->length && used + VALUE < room;) {
        size_t length = 1;
        const char *value =
            page->bytes[i] == '@' ? value_at(page->bytes + i, words, fingerprint, address, &length) : NULL;
        if (value)
            used += (size_t)snprintf(text + used, VALUE, "%.*s", VALUE - 1, value);
        else
            text[used++] = page->bytes[i];
        i += length;
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
        out->allow = /* no words */ "GET, HEAD";
    } else if (strcmp(call->path, "/") == 0 && page) {
        char address[64];
        (void)snprintf(address, sizeof address, "https://%.*s:%d/", (int)strcspn(call->request->host, ":"),
                       call->request->host, server->lan_port);
        lw_answer_json(out, filled(page, language_of(call->request->accept_language), server->fingerprint, address));
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
