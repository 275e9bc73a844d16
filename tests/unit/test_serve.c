/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The server without a port: paths and queries, the checks before any work, routes, problems.
 */
#include "serve/connections.h"
#include "serve/page.h"
#include "serve/server.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static lw_server server = {.port = 8642};

static lw_http_request get(const char *uri)
{
    return (lw_http_request){.method = "GET", .uri = uri, .host = "127.0.0.1:8642", .body = "", .id = "t-1"};
}

static lw_http_request post(const char *uri, const char *body)
{
    lw_http_request request = get(uri);
    request.method = "POST";
    request.content_type = "application/json";
    request.body = body;
    request.body_length = strlen(body);
    return request;
}

/* Answers; the body must hold a text. */
static void expect(const lw_http_request *request, int status, const char *part)
{
    lw_http_response out;
    lw_serve_answer(&server, request, &out);
    const char *body = out.text ? out.text : out.fixed;
    if (out.status != status || (part && (!body || !strstr(body, part))))
        fail_msg("%s %s: %d %.300s", request->method, request->uri, out.status, body ? body : "");
    if (status >= 400)
        assert_string_equal(out.type, "application/problem+json");
    lw_response_free(&out);
}

static void paths(void **state)
{
    static const char *const good[] = {"/", "/a", "/api/v1?x=1", "/a.b/c-d_e~f"};
    static const char *const bad[] = {"",          "a",       "/..",   "/a/../b",       "/./a", "//", "/a//b", "/a/",
                                      "/a%2e",     "/%2e%2e", "/a\\b", "/a b",          "/a#b", "*",  "http:", "/a;b",
                                      "/\xc3\xa4", "/a/..",   "/.",    "/../etc/passwd"};
    char out[64];
    (void)state;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++)
        if (!lw_uri_path(good[i], out, sizeof out))
            fail_msg("refused: %s", good[i]);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        if (lw_uri_path(bad[i], out, sizeof out))
            fail_msg("taken: %s", bad[i]);
    assert_false(lw_uri_path("/0123456789", out, 5));
}

static void queries(void **state)
{
    char out[16];
    (void)state;
    assert_int_equal(lw_uri_query("/a?x=1&why=a%20b+c", "why", out, sizeof out), 1);
    assert_string_equal(out, "a b c");
    assert_int_equal(lw_uri_query("/a?xx=1", "x", out, sizeof out), 0);
    assert_int_equal(lw_uri_query("/a", "x", out, sizeof out), 0);
    assert_int_equal(lw_uri_query("/a?x", "x", out, sizeof out), 1);
    assert_string_equal(out, "");
    static const char *const broken[] = {
        "/a?x=%", "/a?x=%4", "/a?x=%zz", "/a?x=%00", "/a?x=1&x=2", "/a?x=%0a", "/a?x=0123456789abcdefg"};
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++)
        assert_int_equal(lw_uri_query(broken[i], "x", out, sizeof out), -1);
}

static void answers(void **state)
{
    (void)state;
    lw_http_request r = get("/api/v1");
    expect(&r, 200, "\"role\":\"owner\"");
    r = get("/api/v1/figures/normal_quantile");
    expect(&r, 200, "\"inputs\"");
    r = get("/api/v1/figures");
    expect(&r, 200, "\"name\":\"sun_position\"");
    r = post("/api/v1/figures/normal_quantile", "{\"probability\":0.975}");
    expect(&r, 200, "{\"deviations\":1.95996"); /* normal tables: 1.959964 */
    r = get("/api/v1/climate?lat=-11.62&lon=34.27");
    expect(&r, 200, "\"ghi_kwh_m2_day\":[");
    r = get("/api/v1/problems");
    expect(&r, 200, "/api/v1/problems#refused");
    r = get("/");
    expect(&r, 200, "<!doctype html>");
    r = get("/api/v1/openapi.json");
    expect(&r, 200, "\"openapi\"");
}

static void refusals(void **state)
{
    (void)state;
    lw_http_request r = get("/api/v1/nothing");
    expect(&r, 404, "There is nothing at");
    r = get("/built-in/install.html");
    expect(&r, 404, NULL);
    r = get("/api/v1/figures/normal_quantil");
    expect(&r, 404, "did you mean normal_quantile");
    r = get("/api/v1/figures");
    r.method = "DELETE";
    expect(&r, 405, "takes GET, HEAD");
    r.method = "BREW";
    expect(&r, 405, NULL);
    r = get("/api/v1/climate?lat=91&lon=1");
    expect(&r, 400, "\"field\":\"lat\"");
    r = get("/api/v1/climate?lat=nan&lon=1");
    expect(&r, 400, "\"field\":\"lat\"");
    r = get("/api/v1/climate?lat=1");
    expect(&r, 400, "\"field\":\"lon\"");
    static const char *const bodies[] = {"",
                                         "{",
                                         "[]",
                                         "{\"probability\":\"x\"}",
                                         "{\"probability\":2}",
                                         "nonsense",
                                         "{\"probability\":0.5}{}",
                                         "{\"probability\":0.5,\"probability\":0.6}",
                                         "{\"probability\":1e999}",
                                         "{\"probability\":null}",
                                         "\xff\xfe"};
    for (size_t i = 0; i < sizeof bodies / sizeof bodies[0]; i++) {
        r = post("/api/v1/figures/normal_quantile", bodies[i]);
        expect(&r, 400, "\"detail\"");
    }
    r = get("/api/v1");
    r.body = "{}", r.body_length = 2;
    expect(&r, 400, "takes no body");
}

static void only_our_page(void **state)
{
    static const char *const hosts[] = {
        "evil.example:8642",          "127.0.0.1", "127.0.0.1:80", "localhost:8642x", "", ":8642", "127.0.0.1:",
        "127.0.0.1.evil.example:8642"};
    (void)state;
    lw_http_request r = get("/api/v1");
    for (size_t i = 0; i < sizeof hosts / sizeof hosts[0]; i++) {
        r.host = hosts[i];
        expect(&r, 421, "Host");
    }
    r.host = NULL;
    expect(&r, 421, "Host");
    r.host = "LocalHost:8642";
    expect(&r, 200, NULL);
    r.origin = "http://localhost:8642";
    expect(&r, 200, NULL);
    static const char *const origins[] = {"null",
                                          "http://evil.example",
                                          "https://localhost:8642",
                                          "http://localhost:1",
                                          "http://localhost:8642/",
                                          "http://127.0.0.1:8642"};
    for (size_t i = 0; i < sizeof origins / sizeof origins[0]; i++) {
        r.origin = origins[i];
        expect(&r, 403, "other-origin");
    }
    r.origin = NULL;
    static const char *const sites[] = {"cross-site", "same-site", "anything"};
    for (size_t i = 0; i < sizeof sites / sizeof sites[0]; i++) {
        r.fetch_site = sites[i];
        expect(&r, 403, "other-origin");
    }
    r.fetch_site = "same-origin";
    expect(&r, 200, NULL);
}

static void only_json(void **state)
{
    static const char *const types[] = {"text/plain",        "application/x-www-form-urlencoded", "multipart/form-data",
                                        "application/json2", "application/json;charset=latin1",   "",
                                        "application/jso"};
    (void)state;
    lw_http_request r = post("/api/v1/figures/normal_quantile", "{\"probability\":0.5}");
    for (size_t i = 0; i < sizeof types / sizeof types[0]; i++) {
        r.content_type = types[i];
        expect(&r, 415, "application/json");
    }
    r.content_type = NULL;
    expect(&r, 415, NULL);
    r.content_type = "application/json; charset=utf-8";
    expect(&r, 200, NULL);
    r.body_length = LW_SERVE_BODY_BYTES + 1;
    expect(&r, 413, NULL);
    char uri[LW_SERVE_URI_BYTES + 2];
    memset(uri, 'a', sizeof uri);
    uri[0] = '/';
    uri[sizeof uri - 1] = '\0';
    r = get(uri);
    expect(&r, 414, NULL);
}

static void kept_files(void **state)
{
    (void)state;
    lw_http_request r = get("/");
    lw_http_response out;
    lw_serve_answer(&server, &r, &out);
    r.if_none_match = out.etag;
    assert_non_null(out.etag);
    assert_null(out.encoding);
    lw_serve_answer(&server, &r, &out);
    assert_int_equal(out.status, 304);
    assert_int_equal(out.length, 0);
    const lw_page_file *file = lw_page_find("/built-in/openapi.json");
    assert_non_null(file);
    assert_true(file->gzip_length < file->length);
    r = get("/built-in/openapi.json");
    r.accept_encoding = "br, gzip";
    lw_serve_answer(&server, &r, &out);
    assert_string_equal(out.encoding, "gzip");
    assert_int_equal(out.length, file->gzip_length);
    r.accept_encoding = "gzip;q=0";
    lw_serve_answer(&server, &r, &out);
    assert_null(out.encoding);
}

/* A crowd of connections that send nothing is let go sooner; one that works or streams stays. */
static void slow_connections(void **state)
{
    (void)state;
    lw_connections list;
    lw_connections_begin(&list, 8);
    lw_connection *all[7];
    for (size_t i = 0; i < 7; i++)
        all[i] = lw_connection_add(&list, -1, 100);
    lw_connection_works(&list, all[0], 100);
    lw_connection_streams(&list, all[1]);
    assert_int_equal(lw_connections_sweep(&list, 100), 0);
    assert_int_equal(lw_connections_sweep(&list, 100 + LW_SERVE_CROWDED_S), 5);
    assert_int_equal(lw_connections_sweep(&list, 100 + LW_SERVE_EXCHANGE_S), 1);
    for (size_t i = 0; i < 7; i++)
        lw_connection_drop(&list, all[i]);
    lw_connection *alone = lw_connection_add(&list, -1, 100);
    assert_int_equal(lw_connections_sweep(&list, 100 + LW_SERVE_CROWDED_S), 0);
    assert_int_equal(lw_connections_sweep(&list, 100 + LW_SERVE_HEADERS_S), 1);
    lw_connection_drop(&list, alone);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(paths),      cmocka_unit_test(queries),          cmocka_unit_test(answers),
        cmocka_unit_test(refusals),   cmocka_unit_test(only_our_page),    cmocka_unit_test(only_json),
        cmocka_unit_test(kept_files), cmocka_unit_test(slow_connections),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
