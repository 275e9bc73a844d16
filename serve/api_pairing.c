/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pairing: codes, devices, the owner's passphrase.
 */
#include "devices.h"
#include "server.h"

#include "lanewick/desk_qr.h"
#include "lanewick/pair_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static lw_device_said said_of(const lw_device *device)
{
    return (lw_device_said){device->id, device->name, lw_role_text(device->role), device->paired_s, device->ends_s};
}

static void answer_token(const lw_call *call, lw_paired result, const lw_device *device, char token[LW_TOKEN],
                         const lw_error *err, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    switch (result) {
    case LW_PAIRED: {
        const lw_device_said said = said_of(device);
        lw_answer_json(out, lw_token_to_json(token, &said));
        break;
    }
    case LW_PAIR_WRONG:
        lw_answer_problem(out, request, "wrong-code", "",
                          "This is not right, was used before or is too old. Ask for a new code at the laptop.");
        break;
    case LW_PAIR_LOCKED:
        lw_answer_problem(out, request, "locked", "",
                          "There were too many wrong tries. Wait, or open a new code at the laptop.");
        out->retry_after_s = lw_devices_locked_for_s(call->server->devices, request->now_s);
        break;
    case LW_PAIR_FULL:
        lw_answer_problem(out, request, "conflict", "", "%d devices are paired; remove one first.", LW_DEVICES);
        break;
    case LW_PAIR_FAILED:
        lw_answer_error(out, request, err);
        break;
    }
    memset(token, 0, LW_TOKEN);
}

void lw_api_pair(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_error err = {0};
    lw_pair_body body;
    lw_device device;
    char token[LW_TOKEN] = "";
    if (!lw_pair_from_json(request->body, request->body_length, &body, &err)) {
        lw_answer_error(out, request, &err);
        return;
    }
    const lw_paired result =
        lw_devices_pair(call->server->devices, body.code, body.name, request->now_s, &device, token, &err);
    answer_token(call, result, &device, token, &err, out);
}

void lw_api_owner(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_error err = {0};
    lw_pair_body body;
    lw_device device;
    char token[LW_TOKEN] = "";
    if (!lw_owner_from_json(request->body, request->body_length, &body, &err)) {
        lw_answer_error(out, request, &err);
        return;
    }
    const lw_paired result =
        lw_devices_owner(call->server->devices, body.passphrase, body.name, request->now_s, &device, token, &err);
    memset(&body, 0, sizeof body);
    answer_token(call, result, &device, token, &err, out);
}

void lw_api_passphrase(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_devices *devices = call->server->devices;
    lw_error err = {0};
    lw_pair_body body;
    lw_device device;
    char token[LW_TOKEN] = "";
    if (!lw_passphrase_from_json(request->body, request->body_length, &body, &err)) {
        lw_answer_error(out, request, &err);
        return;
    }
    lw_paired result = LW_PAIRED;
    bool found;
    if (lw_devices_has_passphrase(devices)) { /* a token alone does not change it */
        result = lw_devices_owner(devices, body.before, "a change", request->now_s, &device, token, &err);
        if (result == LW_PAIRED && !lw_devices_revoke(devices, device.id, &found, &err))
            result = LW_PAIR_FAILED;
    }
    if (result == LW_PAIRED && !lw_devices_set_passphrase(devices, body.passphrase, &err))
        result = LW_PAIR_FAILED;
    memset(&body, 0, sizeof body);
    if (result == LW_PAIRED)
        *out = (lw_http_response){.status = 204};
    else
        answer_token(call, result, &device, token, &err, out);
}

static bool qr(const char *text, char **svg, lw_error *err)
{
    *svg = NULL;
    return !text[0] || lw_desk_qr_svg(text, 60.0, svg, err);
}

void lw_api_code(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    const lw_server *server = call->server;
    lw_error err = {0};
    lw_pair_body body;
    char code[LW_CODE], page[96] = "", install[64] = "", *page_qr = NULL, *install_qr = NULL;
    int64_t ends_s;
    if (!lw_pair_code_from_json(request->body, request->body_length, &body, &err)) {
        lw_answer_error(out, request, &err);
        return;
    }
    lw_devices_open_code(server->devices, lw_role_of(body.role), request->now_s, code, &ends_s);
    if (server->names.count > 0) {
        (void)snprintf(page, sizeof page, "https://%s:%d/#pair=%s", server->names.text[0], server->lan_port, code);
        (void)snprintf(install, sizeof install, "http://%s:%d/", server->names.text[0], server->install_port);
    }
    if (qr(page, &page_qr, &err) && qr(install, &install_qr, &err)) {
        const lw_code_said said = {code,
                                   body.role,
                                   ends_s,
                                   page_qr ? page : NULL,
                                   install_qr ? install : NULL,
                                   page_qr ? server->fingerprint : NULL,
                                   page_qr,
                                   install_qr};
        lw_answer_json(out, lw_code_to_json(&said));
    } else {
        lw_answer_error(out, request, &err);
    }
    free(page_qr);
    free(install_qr);
}

void lw_api_code_close(const lw_call *call, lw_http_response *out)
{
    lw_devices_close_code(call->server->devices);
    *out = (lw_http_response){.status = 204};
}

void lw_api_devices(const lw_call *call, lw_http_response *out)
{
    lw_device *list = calloc(LW_DEVICES, sizeof *list);
    lw_device_said *said = calloc(LW_DEVICES, sizeof *said);
    const size_t count = list && said ? lw_devices_list(call->server->devices, call->request->now_s, list) : 0;
    for (size_t i = 0; i < count; i++)
        said[i] = said_of(&list[i]);
    lw_answer_json(out, list && said ? lw_device_list_to_json(said, count) : NULL);
    free(list);
    free(said);
}

void lw_api_device_revoke(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    bool found;
    if (call->role < LW_ROLE_OWNER && strcmp(call->device, call->name[0]) != 0)
        lw_answer_problem(out, call->request, "not-allowed", "", "Only the owner removes another device.");
    else if (!lw_devices_revoke(call->server->devices, call->name[0], &found, &err))
        lw_answer_error(out, call->request, &err);
    else if (!found)
        lw_answer_problem(out, call->request, "not-found", "", "There is no device %s.", call->name[0]);
    else
        *out = (lw_http_response){.status = 204};
}
