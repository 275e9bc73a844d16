/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pairing without a port or a clock: codes end and open once, wrong tries lock for longer each time, tokens end, the
 * file of devices comes back or is refused whole.
 */
#include "serve/addresses.h"
#include "serve/devices_file.h"
#include "serve/server.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static const int64_t start_s = 1790000000, day_s = 86400;
static lw_devices devices;

static void begin(void)
{
    lw_error err = {0};
    assert_true(lw_devices_open(&devices, NULL, &err));
}

static lw_paired pair(const char *code, int64_t now_s, char token[LW_TOKEN])
{
    lw_device device;
    lw_error err = {0};
    return lw_devices_pair(&devices, code, "a phone", now_s, &device, token, &err);
}

static void codes(void **state)
{
    char code[LW_CODE], other[LW_CODE], typed[24], token[LW_TOKEN];
    int64_t ends_s;
    (void)state;
    begin();
    assert_int_equal(pair("", start_s, token), LW_PAIR_WRONG); /* none is open */
    lw_devices_open_code(&devices, LW_ROLE_BENCH, start_s, code, &ends_s);
    assert_int_equal(ends_s, start_s + LW_CODE_MINUTES * 60);
    assert_int_equal(pair(code, ends_s, token), LW_PAIR_WRONG);
    (void)snprintf(typed, sizeof typed, " %.3s- %.5s ", code, code + 3);
    assert_int_equal(pair(typed, ends_s - 1, token), LW_PAIRED);
    assert_int_equal(pair(code, ends_s - 1, token), LW_PAIR_WRONG);
    lw_devices_open_code(&devices, LW_ROLE_OWNER, start_s, code, &ends_s);
    lw_devices_open_code(&devices, LW_ROLE_BENCH, start_s, other, &ends_s);
    assert_string_not_equal(code, other);
    assert_int_equal(pair(code, start_s, token), LW_PAIR_WRONG);
    lw_devices_close_code(&devices);
    assert_int_equal(pair(other, start_s, token), LW_PAIR_WRONG);
    assert_int_equal(pair("\xff\xfe-longer than any code", start_s, token), LW_PAIR_WRONG);
}

static void locks(void **state)
{
    char code[LW_CODE], token[LW_TOKEN];
    int64_t ends_s, now_s = start_s;
    (void)state;
    begin();
    for (int round = 0; round < 9; round++) {
        for (int i = 0; i < LW_WRONG_TRIES; i++)
            assert_int_equal(pair("22222222", now_s, token), LW_PAIR_WRONG);
        const int wait_s = round > 5 ? 3600 : 60 << round;
        assert_int_equal(lw_devices_locked_for_s(&devices, now_s), wait_s);
        assert_int_equal(pair("22222222", now_s + wait_s - 1, token), LW_PAIR_LOCKED);
        now_s += wait_s;
    }
    lw_devices_open_code(&devices, LW_ROLE_BENCH, now_s, code, &ends_s);
    for (int i = 0; i < LW_WRONG_TRIES; i++)
        assert_int_equal(pair("22222222", now_s, token), LW_PAIR_WRONG);
    assert_int_equal(pair(code, now_s, token), LW_PAIR_LOCKED);
    assert_int_equal(pair(code, now_s + 60, token), LW_PAIR_WRONG); /* and the code is void */
}

static void tokens(void **state)
{
    char code[LW_CODE], token[LW_TOKEN];
    int64_t ends_s;
    lw_device device;
    lw_error err = {0};
    bool found;
    (void)state;
    begin();
    lw_devices_open_code(&devices, LW_ROLE_PLANNER, start_s, code, &ends_s);
    assert_int_equal(pair(code, start_s, token), LW_PAIRED);
    assert_true(lw_devices_known(&devices, token, start_s, &device));
    assert_int_equal(device.role, LW_ROLE_PLANNER);
    assert_false(lw_devices_known(&devices, token, start_s + LW_TOKEN_DAYS * day_s, &device));
    token[20] = token[20] == 'A' ? 'B' : 'A';
    assert_false(lw_devices_known(&devices, token, start_s, &device));
    assert_true(lw_devices_revoke(&devices, device.id, &found, &err) && found);
    assert_true(lw_devices_revoke(&devices, device.id, &found, &err) && !found);
    for (int i = 0; i < LW_DEVICES; i++) {
        lw_devices_open_code(&devices, LW_ROLE_BENCH, start_s, code, &ends_s);
        assert_int_equal(pair(code, start_s, token), LW_PAIRED);
    }
    lw_devices_open_code(&devices, LW_ROLE_BENCH, start_s, code, &ends_s);
    assert_int_equal(pair(code, start_s, token), LW_PAIR_FULL);
    const int64_t later_s = start_s + LW_TOKEN_DAYS * day_s; /* those that ended make room */
    lw_devices_open_code(&devices, LW_ROLE_BENCH, later_s, code, &ends_s);
    assert_int_equal(pair(code, later_s, token), LW_PAIRED);
}

static int status_of(lw_server *server, lw_http_request request)
{
    lw_http_response out;
    request.body = "{}";
    request.body_length = strcmp(request.method, "POST") == 0 ? 2 : 0;
    request.content_type = "application/json";
    request.id = "t";
    lw_serve_answer(server, &request, &out);
    const int status = out.status;
    lw_response_free(&out);
    return status;
}

static void doors(void **state)
{
    char code[LW_CODE], token[LW_TOKEN], bearer[LW_TOKEN + 8];
    int64_t ends_s;
    (void)state;
    begin();
    lw_server server = {.port = 1, .lan_port = 2, .install_port = 3, .devices = &devices, .root = "root"};
    server.names.count = 1;
    memcpy(server.names.text[0], "10.1.2.3", 9);
    lw_devices_open_code(&devices, LW_ROLE_BENCH, start_s, code, &ends_s);
    assert_int_equal(pair(code, start_s, token), LW_PAIRED);
    (void)snprintf(bearer, sizeof bearer, "Bearer %s", token);
    lw_http_request r = {
        .door = LW_DOOR_LAN, .method = "GET", .uri = "/api/v1/figures", .host = "10.1.2.3:2", .now_s = start_s};
    assert_int_equal(status_of(&server, r), 401);
    r.authorization = token;
    assert_int_equal(status_of(&server, r), 401);
    r.authorization = bearer;
    assert_int_equal(status_of(&server, r), 200);
    r.now_s = start_s + LW_TOKEN_DAYS * day_s;
    assert_int_equal(status_of(&server, r), 401);
    r.now_s = start_s;
    r.uri = "/api/v1/devices";
    assert_int_equal(status_of(&server, r), 403);
    r.host = "10.1.2.3:1";
    assert_int_equal(status_of(&server, r), 421);
    r.door = LW_DOOR_LOCAL; /* the laptop's door does not answer under the network's name */
    assert_int_equal(status_of(&server, r), 421);
    r = (lw_http_request){.door = LW_DOOR_INSTALL, .method = "GET", .uri = "/workshop-root.crt", .host = "10.1.2.3:3"};
    assert_int_equal(status_of(&server, r), 200);
    r.uri = "/api/v1/figures";
    assert_int_equal(status_of(&server, r), 404);
    r.method = "POST";
    assert_int_equal(status_of(&server, r), 405);
}

static bool parses(const char *text)
{
    char copy[512];
    (void)snprintf(copy, sizeof copy, "%s", text);
    devices.count = 0;
    return lw_devices_parse(&devices, copy);
}

static void file(void **state)
{
#define HASH "00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff"
    static const char *const bad[] = {"",
                                      "\n",
                                      "lanewick.devices/1",
                                      "lanewick.devices/2\n",
                                      "lanewick.devices/1\ndevice\n",
                                      "lanewick.devices/1\nking x\n",
                                      "lanewick.devices/1\n\n",
                                      "lanewick.devices/1\ndevice 0123456789abcde bench 1 2 " HASH " x\n",
                                      "lanewick.devices/1\ndevice 0123456789abcdef king 1 2 " HASH " x\n",
                                      "lanewick.devices/1\ndevice 0123456789abcdef bench -1 2 " HASH " x\n",
                                      "lanewick.devices/1\ndevice 0123456789abcdef bench 1 x " HASH " x\n",
                                      "lanewick.devices/1\ndevice 0123456789abcdef bench 1 2 0011 x\n",
                                      "lanewick.devices/1\ndevice 0123456789abcdef bench 1 2 " HASH " x"};
    (void)state;
    begin();
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        if (parses(bad[i]))
            fail_msg("taken: %s", bad[i]);
    assert_true(
        parses("lanewick.devices/1\npass $argon2id$x\ndevice 0123456789abcdef owner 1 2 " HASH " My old phone\n"));
    assert_int_equal(devices.count, 1);
    assert_int_equal(devices.device[0].role, LW_ROLE_OWNER);
    assert_string_equal(devices.device[0].name, "My old phone");
    assert_string_equal(devices.pass, "$argon2id$x");
}

/* RFC 1918 and RFC 3927. */
static void private_addresses(void **state)
{
    static const unsigned long inside[] = {0x0A000001, 0xAC100001, 0xAC1FFFFF, 0xC0A80001, 0xA9FE0101};
    static const unsigned long outside[] = {0x08080808, 0xAC200001, 0xAC0FFFFF, 0xC0A70001, 0x7F000001, 0xC0000202};
    (void)state;
    for (size_t i = 0; i < sizeof inside / sizeof inside[0]; i++)
        assert_true(lw_address_is_private(inside[i]));
    for (size_t i = 0; i < sizeof outside / sizeof outside[0]; i++)
        assert_false(lw_address_is_private(outside[i]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(codes), cmocka_unit_test(locks), cmocka_unit_test(tokens),
        cmocka_unit_test(doors), cmocka_unit_test(file),  cmocka_unit_test(private_addresses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
