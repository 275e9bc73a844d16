#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The JSON interface on a real port: every route, every kind of wrong request; answers against the OpenAPI document
(by python3-jsonschema, draft 2020-12).   usage: api.py PROGRAM"""
import http.client
import json
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time

import jsonschema

from client import API, ROOT, STORE, Server, ask, check, covered, end, expect


def document(name):
    return json.loads((ROOT / name).read_text(encoding="utf-8"))


def description():
    check(API["openapi"].startswith("3.1"), "openapi version")
    for name, schema in API["components"]["schemas"].items():
        try:
            jsonschema.Draft202012Validator.check_schema(schema)
        except jsonschema.SchemaError as fault:
            check(False, f"{name}: {fault.message}")
    seen = set()
    for path, methods in API["paths"].items():
        for method, operation in methods.items():
            check(operation["operationId"] not in seen, f"{path} {method}: operationId is not unique")
            seen.add(operation["operationId"])
            named = {p["name"] for p in operation.get("parameters", []) if p["in"] == "path"}
            check(all("{" + name + "}" in path for name in named) and path.count("{") == len(named), f"{path}: parameters")
    table = (ROOT / "serve/routes.c").read_text(encoding="utf-8")
    for path, methods in API["paths"].items():
        for method in methods:
            pattern = "/".join("*" if part.startswith("{") else part for part in path.split("/"))
            check(f'{{"{method.upper()}", "{pattern}",' in table, f"{method} {path} is described, but no route")
    check(table.count('{"GET", "/api') + table.count('{"POST", "/api') + table.count('{"DELETE", "/api')
          == sum(len(methods) for methods in API["paths"].values()), "a route is not described")


def good(server):
    state = json.loads(expect(server, 200, "GET", "/api/v1")[1])
    check(state["language"] is None, "no language was chosen yet")
    expect(server, 400, "POST", "/api/v1/language?code=xx", problem="wrong-input")
    expect(server, 400, "POST", "/api/v1/language")
    expect(server, 204, "POST", "/api/v1/language?code=sw")
    check(json.loads(expect(server, 200, "GET", "/api/v1")[1])["language"] == "sw", "the language is kept")
    said = subprocess.run([server.program, "language"], capture_output=True, text=True, env={**os.environ, "LANGUAGE": ""})
    check("> sw" in said.stdout, f"the command line speaks it too: {said.stdout}")
    expect(server, 200, "GET", "/api/v1/problems")
    answer, text = expect(server, 200, "GET", "/api/v1/openapi.json")
    check(json.loads(text) == API, "the served description is another")
    _, text = expect(server, 200, "GET", "/api/v1/figures")
    for figure in json.loads(text):
        expect(server, 200, "GET", f"/api/v1/figures/{figure['name']}")
    _, text = expect(server, 200, "POST", "/api/v1/figures/normal_quantile", {"probability": 0.975})
    check(abs(json.loads(text)["deviations"] - 1.959964) < 1e-6, text)  # any table of the normal distribution
    expect(server, 200, "GET", "/api/v1/climate?lat=-11.62&lon=34.27")
    expect(server, 200, "GET", "/api/v1/climate?lat=-11.62&lon=34.27&elev=480")
    places(server)
    expect(server, 200, "POST", "/api/v1/nights", {"system": document("tests/lamps/a.json"), "years": 30,
                                                   "place": {"lat_deg": -11.62, "lon_deg": 34.27}})
    ribbon(server)
    expect(server, 200, "POST", "/api/v1/light/lane", document("tests/lanes/row-o.json"))
    expect(server, 200, "POST", "/api/v1/light/picture", document("tests/lanes/row-o.json"))
    expect(server, 200, "POST", "/api/v1/light/search", document("demo/nsungwi-path.json"))
    _, text = expect(server, 200, "POST", "/api/v1/light/search", document("tests/briefs/lane.json"))
    lane = json.loads(text)
    check(len(lane["masts"]) == lane["chosen"]["masts"] and lane["chosen"]["class"] == "P6", text[:300])
    expect(server, 200, "POST", "/api/v1/mast", document("tests/masts/thin-pipe.json"))
    mast_document(server)
    expect(server, 200, "POST", "/api/v1/circuit", document("tests/circuits/glass-fuse.json"))
    cells = [{"id": f"c{i}", "capacity_ah": 1.31 + 0.07 * (i * 7 % 11), "voltage_class": "4v2"} for i in range(13)]
    _, text = expect(server, 200, "POST", "/api/v1/pack/match", {"series": 3, "parallel": 4, "cells": cells})
    check(len(json.loads(text)["left_out"]) == 1, text)
    expect(server, 200, "POST", "/api/v1/pack/match", {"series": 2, "need_ah": 3.1, "cells": cells})
    for name in STORE:
        expect(server, 200, "GET", name)
    for path in ("/", "/phones", "/built-in/plain.css"):
        status, _, text = ask(server, "GET", path)
        check(status == 200 and b"<script>" not in text and b"style=" not in text and b" on" + b"click=" not in text, path)
    answer, text = expect(server, 200, "GET", "/built-in/demo/nsungwi.json")
    check(json.loads(text) == document("demo/nsungwi.json"), "the demo brief")


def places(server):
    """Names and positions of data/climate/normals.csv."""
    for sought, name in (("sorstok", "Sorstokken / Stord"), ("R%C3%B8rvik", "Rorvik/Ryum"), ("rorvik", "Rorvik/Ryum"), ("STORD", "Sorstokken / Stord")):
        _, text = expect(server, 200, "GET", f"/api/v1/places?name={sought}")
        check(name in [place["name"] for place in json.loads(text)["places"]], f"{sought}: {text[:300]}")
    stord = json.loads(expect(server, 200, "GET", "/api/v1/places?name=sorstokken")[1])["places"]
    check(stord == [{"name": "Sorstokken / Stord", "country": "NO", "lat_deg": 59.792, "lon_deg": 5.341, "elev_m": 49}], f"{stord}")
    for sought, most in (("a", 0), ("zzzz", 0), ("%20%20", 0), ("an", 20)):
        _, text = expect(server, 200, "GET", f"/api/v1/places?name={sought}")
        check(len(json.loads(text)["places"]) == most, f"{sought}: {text[:200]}")
    for broken in ("", "name=a&name=b", "name=%ff%zz", "name=" + "a" * 80):
        expect(server, 400, "GET", f"/api/v1/places?{broken}", problem="wrong-input")


def mast_document(server):
    """The mast of a planned lamp, by the same C function as `lanewick mast --document`; judged it is the plan's own. Without a plan or a brief there is one, too."""
    mast, document_of = "/api/v1/mast", "/api/v1/mast/document"
    for name in ("demo/nsungwi.json", "tests/briefs/plate.json", "tests/briefs/two-pipes.json"):
        plan = json.loads(subprocess.run([sys.argv[1], "plan", name, "--json"], capture_output=True, text=True, cwd=ROOT).stdout)
        lamp = plan["lamps"][-1]
        told = {key: lamp["size"][key] for key in ("panel_w", "pack_wh")} | {key: lamp["mast"][key] for key in ("pole", "material", "diameter_mm", "wall_mm", "height_m")}
        question = {"brief": plan["brief"], "lamp": told | {"tilt_deg": lamp["tilt_deg"]}}
        _, text = expect(server, 200, "POST", document_of, question)
        run = subprocess.run([sys.argv[1], "mast", name, "--document", lamp["kind"]], capture_output=True, text=True, cwd=ROOT)
        check(json.loads(run.stdout) == json.loads(text), f"{name}: {run.stdout} {run.stderr} is not {text}")
        judged = json.loads(expect(server, 200, "POST", mast, json.loads(text))[1])
        off = [key for key, value in judged.items() if not (abs(value - lamp["mast"][key]) <= 1e-9 * abs(value) if isinstance(value, float) else value == lamp["mast"][key])]
        check(not off, f"{name}: the plan's mast differs in {off}")
        _, text = expect(server, 200, "POST", document_of, question | {"instead": {"no_wind": True, "soil": "gravel", "wall_mm": 4, "people_below": True}})
        tried = json.loads(text)
        check("wind" not in tried and tried["base"]["soil"] == "gravel" and tried["pipe"]["wall_mm"] == 4 and tried["place"]["people_below"], text)
        expect(server, 400, "POST", document_of, question | {"instead": {"colour": "red"}}, problem="wrong-input")
    _, text = expect(server, 200, "POST", document_of, {"instead": {"height_m": 5, "soil": "soft"}})
    expect(server, 422, "POST", mast, json.loads(text), problem="refused")


def lane_ribbon(server):
    """A lamp of a lane: the plan found its watts and late level, so they are told with the question."""
    run = subprocess.run([sys.argv[1], "plan", "tests/briefs/lane.json", "--json"], capture_output=True, text=True, cwd=ROOT)
    plan = json.loads(run.stdout)
    lamp, chosen = plan["lamps"][0], plan["lane"]["chosen"]
    question = {key: lamp["size"][key] for key in ("panel", "panels", "cell", "series", "parallel", "charger", "driver", "trimmed")}
    question |= {"brief": plan["brief"], "kind": lamp["kind"], "seed": 1}
    expect(server, 400, "POST", "/api/v1/ribbon", question, problem="wrong-input")
    _, text = expect(server, 200, "POST", "/api/v1/ribbon", question | {"head_w": chosen["watts_each"], "late_level": chosen["late_level"]})
    mean = lamp["nights"]["dark_per_year"]["mean"]
    check(abs(json.loads(text)["dark_per_year"]["mean"] - mean) < 0.06, f"ribbon of a lane's lamp: plan {mean}")


def board_ribbon(server):
    """A board that opens early, and a driver without a stop of its own: the ribbon's nights are those of the plan with that board only."""
    brief = document("demo/nsungwi.json")
    brief["want"] |= {"lamps": 1, "lumens": 400, "dark_nights_per_year": 20}
    for driver in brief["shelf"]["drivers"]:
        driver.pop("low_stop_v_per_cell", None)
    for board in brief["shelf"]["boards"]:
        board["low_v"] = 3.45
    plan = json.loads(subprocess.run([sys.argv[1], "plan", "-", "--json"], input=json.dumps(brief), capture_output=True, text=True, cwd=ROOT).stdout)
    lamp = plan["lamps"][0]
    question = {key: lamp["size"][key] for key in ("panel", "panels", "cell", "series", "parallel", "charger", "driver", "trimmed")}
    question |= {"brief": plan["brief"], "kind": lamp["kind"]}
    means = [json.loads(expect(server, 200, "POST", "/api/v1/ribbon", question | more)[1])["dark_per_year"]["mean"] for more in ({"board": lamp["size"]["board"]}, {})]
    check(abs(means[0] - lamp["nights"]["dark_per_year"]["mean"]) < 0.06 and means[1] < means[0] - 0.5, f"plan {lamp['nights']}, ribbon with and without the board {means}")
    expect(server, 400, "POST", "/api/v1/ribbon", question | {"board": "none"}, problem="wrong-input")


def ribbon(server):
    """A lamp night by night: its dark nights are those of the plan, whose code counts them in another place."""
    run = subprocess.run([sys.argv[1], "plan", "demo/nsungwi.json", "--seed", "3", "--json"], capture_output=True, text=True, cwd=ROOT)
    plan = json.loads(run.stdout)
    lamp = plan["lamps"][-1]
    ask_for = {key: lamp["size"][key] for key in ("panel", "panels", "cell", "series", "parallel", "charger", "driver", "board", "trimmed")}
    ask_for |= {"brief": plan["brief"], "kind": lamp["kind"], "seed": 3}
    _, text = expect(server, 200, "POST", "/api/v1/ribbon", ask_for)
    answer = json.loads(text)
    mean = lamp["nights"]["dark_per_year"]["mean"]
    check(answer["years"] == lamp["nights"]["years_simulated"], "the years of the plan")
    check(abs(sum(answer["dark_share"]) - mean) < 0.03, f"ribbon {sum(answer['dark_share'])}, plan {mean} dark nights a year")
    for key, value in lamp["nights"]["dark_per_year"].items():
        check(abs(answer["dark_per_year"][key] - value) < 0.06, f"{key}: ribbon {answer['dark_per_year'][key]}, plan {value}")
    for year in answer["shown"]:
        check(sum(share > 0.01 for share in year["missing_share"]) == year["dark_nights"], f"{year['kind']}: dark nights")
    check(all(0 < dawn - dusk < 14 for dusk, dawn in zip(answer["dusk_h"], answer["dawn_h"])), "nights of the tropics")
    lane_ribbon(server)
    board_ribbon(server)
    for key, value in (("kind", "none"), ("panel", "PANEL"), ("series", 0), ("parallel", "4"), ("seed", -1)):
        expect(server, 400, "POST", "/api/v1/ribbon", ask_for | {key: value}, problem="wrong-input")
    for part, key in (("place", "weather_file"), ("cells", "cells_file")):
        filed = json.loads(json.dumps(plan["brief"]))
        where = filed["place"] if part == "place" else filed["shelf"]["cells"][0]
        for gone in ("capacity_ah", "count", "verdict"):
            where.pop(gone, None)
        where[key] = "/etc/passwd"
        _, text = expect(server, 400, "POST", "/api/v1/ribbon", ask_for | {"brief": filed}, problem="wrong-input")
        check("names a file" in json.loads(text)["detail"], text)
    sealed = json.loads(json.dumps(plan["brief"]))
    sealed["build"]["vent"] = False
    expect(server, 422, "POST", "/api/v1/ribbon", ask_for | {"brief": sealed})


def wrong_calls(server):
    for path in ("/api/v1/nothing", "/api/v2", "/api/v1/figures/", "/nothing.js", "/api/v1/jobs/0"):
        status = 400 if path.endswith("/") else 404
        expect(server, status, "GET", path)
    for path in ("/../etc/passwd", "/%2e%2e/etc/passwd", "/built-in/../../etc/passwd", "//etc/passwd", "/.", "/a\\..\\b"):
        expect(server, 400, "GET", path, problem="bad-request")
    expect(server, 414, "GET", "/" + "a" * 3000, problem="too-long")
    for method in ("PUT", "PATCH", "OPTIONS", "TRACE"):
        answer, _ = expect(server, 405, method, "/api/v1/figures")
        check(answer.getheader("Allow") == "GET, HEAD", f"{method}: Allow is {answer.getheader('Allow')}")
    expect(server, 405, "POST", "/index.html" if ask(server, "GET", "/index.html")[0] == 200 else "/")
    for field in ("lat=91&lon=1", "lat=x&lon=1", "lat=1", "lat=1&lat=2&lon=1", "lat=1&lon=%zz", "lat=inf&lon=1", ""):
        expect(server, 400, "GET", f"/api/v1/climate?{field}", problem="wrong-input")


def wrong_bodies(server):
    posts = [path for path, methods in API["paths"].items() if "post" in methods and "requestBody" in methods["post"]]
    for path in posts:
        path = path.replace("{name}", "normal_quantile")
        bodies = ["", "{", "[", "[]", "nonsense", "null", "7", '"text"', "{}x", '{"a":1,"a":2}', '{"unknown_key":1}', "[" * 5000,
                  "{\"a\":" * 3000, b"\xff\xfe{}", b"{\"a\":\"\x00\"}", '{"a":1e99999}']
        for body in bodies:
            expect(server, 400, "POST", path, body if isinstance(body, bytes) else body.encode())
        for kind in ("text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x", "application/jsonp"):
            expect(server, 415, "POST", path, b"{}", {"Content-Type": kind}, problem="wrong-type")
    huge = b'{"probability":' + b" " * (5 << 20) + b"0.5}"
    expect(server, 413, "POST", "/api/v1/figures/normal_quantile", huge, problem="too-large")
    chunks = (b" " * 65536 for _ in range(80))  # no length told beforehand
    status, _, _ = ask(server, "POST", "/api/v1/figures/normal_quantile", chunks)
    check(status == 413, f"a huge body in chunks: {status}")
    expect(server, 422, "POST", "/api/v1/pack/match", problem="refused", body={
        "series": 2, "cells": [{"id": "a", "capacity_ah": 2, "verdict": "scrap"}, {"id": "b", "capacity_ah": 2}]})
    brief = document("demo/nsungwi.json")
    brief["place"]["weather_file"] = "/etc/passwd"
    _, text = expect(server, 400, "POST", "/api/v1/plans", brief, problem="wrong-input")
    check(json.loads(text)["field"] == "place.weather_file", text)
    lane = document("tests/lanes/row-o.json")
    lane["head"] = {"intensity_file": "/etc/passwd"}
    expect(server, 400, "POST", "/api/v1/light/lane", lane, problem="wrong-input")
    expect(server, 400, "POST", "/api/v1/light/search", document("tests/briefs/small.json"), problem="wrong-input")
    expect(server, 400, "POST", "/api/v1/light/search", document("tests/briefs/bad/lane-file.json"), problem="wrong-input")


def strangers(server):
    for host in ("evil.example", f"evil.example:{server.port}", "127.0.0.1:1", ""):
        expect(server, 421, "GET", "/api/v1", headers={"Host": host})
        status, _, _ = ask(server, "GET", "/", headers={"Host": host})
        check(status == 421, f"the page answered under the name {host}")
    for fields in ({"Origin": "http://evil.example"}, {"Origin": "null"}, {"Sec-Fetch-Site": "cross-site"},
                   {"Origin": f"https://127.0.0.1:{server.port}"}, {"Sec-Fetch-Site": "same-site"}):
        expect(server, 403, "GET", "/api/v1/figures", headers=fields, problem="other-origin")
        expect(server, 403, "POST", "/api/v1/plans", b"{}", fields, problem="other-origin")
    answer, _ = expect(server, 200, "GET", "/api/v1", headers={"Origin": f"http://127.0.0.1:{server.port}",
                                                               "Sec-Fetch-Site": "same-origin"})
    check(answer.getheader("Access-Control-Allow-Origin") is None, "another site may read answers")
    check(answer.getheader("Set-Cookie") is None, "a cookie was set")


def raw(server, text, wait=5):
    """Bytes as they are; what comes back."""
    with socket.create_connection(("127.0.0.1", server.port), timeout=wait) as connection:
        got = b""
        try:
            connection.sendall(text)  # it may be refused before it is all there
            while piece := connection.recv(65536):
                got += piece
        except OSError:
            pass
        return got


def broken_http(server):
    name = f"Host: 127.0.0.1:{server.port}\r\n".encode()
    for text in (b"\r\n\r\n", b"GET\r\n\r\n", b"GET / HTTP/9.9\r\n\r\n", b"\x16\x03\x01\x02\x00\x01\x00", b"GET /api/v1 HTTP/1.1\r\n\r\n",
                 b"GET / HTTP/1.1\r\n" + name + b"A: " + b"b" * 40000 + b"\r\n\r\n",
                 b"POST /api/v1/mast HTTP/1.1\r\n" + name + b"Content-Length: -5\r\n\r\n",
                 b"POST /api/v1/mast HTTP/1.1\r\n" + name + b"Content-Length: 99999999999999999999\r\n\r\n",
                 b"POST /api/v1/mast HTTP/1.1\r\n" + name + b"Transfer-Encoding: chunked\r\n\r\nzz\r\n"):
        got = raw(server, text, 1)
        check(b" 200 " not in got[:20], f"{text[:60]} was answered {got[:60]}")
    expect(server, 200, "GET", "/api/v1")


def crates(server, store):
    expect(server, 404, "GET", "/api/v1/crates", problem="not-found")
    rows = "".join(f"B{i:03d},{3.1 + 0.007 * i:.3f}\n" for i in range(1, 24))
    for words, given in ((("new", "B", "--name", "blue crate"), ""), (("import", "B", "-"), "code,found_v\n" + rows)):
        run = subprocess.run([sys.argv[1], "crate", *words, "--store", store], input=given, capture_output=True, text=True)
        check(run.returncode == 0, f"crate {words}: {run.stdout}{run.stderr}")
    _, text = expect(server, 200, "GET", "/api/v1/crates")
    check(json.loads(text)["crates"][0]["name"] == "blue crate", text)
    seen, after = [], ""
    while after is not None:
        _, text = expect(server, 200, "GET", "/api/v1/crates/B/cells?limit=10" + (f"&after={after}" if after else ""))
        page = json.loads(text)
        seen += [cell["code"] for cell in page["cells"]]
        after = page["after"]
    check(seen == [f"B{i:03d}" for i in range(1, 24)], f"pages: {seen}")
    _, text = expect(server, 200, "GET", "/api/v1/crates/B/cells?search=B01&verdict=untested")
    check(len(json.loads(text)["cells"]) == 10, text)
    expect(server, 404, "GET", "/api/v1/crates/C/cells", problem="not-found")
    for query in ("limit=0", "limit=501", "limit=x", "search=a&after=b", "search=" + "a" * 64, "after=%00"):
        expect(server, 400, "GET", f"/api/v1/crates/B/cells?{query}", problem="wrong-input")


def follow(server, brief):
    _, text = expect(server, 202, "POST", "/api/v1/plans", brief)
    job = json.loads(text)
    while job["state"] in ("waiting", "running"):
        time.sleep(0.1)
        _, text = expect(server, 200, "GET", f"/api/v1/jobs/{job['id']}")
        job = json.loads(text)
    check(job["state"] == "done", text[:400])
    return job


def crate_plan(server, store):
    """The brief names a crate of the server's store; the plan's cells are reserved once."""
    rows = "".join(f"K{i},3.6,4v2,2.3\n" for i in range(12))
    words = [("new", "K"), ("import", "K", "-")]
    for i in range(12):
        words += [("test", f"K{i}", "--method", "charger", "--capacity", "1.95", "--current", "0.4"),
                  ("test", f"K{i}", "--method", "two_pulse", "--volts", "3.97,3.86", "--amps", "0.41,2.03"),
                  ("test", f"K{i}", "--method", "hold", "--volts", "4.13")]
    for line in [*words, ("judge", "K")]:
        given = "code,volts,class,rated\n" + rows if line[0] == "import" else ""
        run = subprocess.run([sys.argv[1], "crate", *line, "--store", store], input=given, capture_output=True, text=True)
        check(run.returncode == 0, f"crate {line}: {run.stdout}{run.stderr}")
    brief = document("tests/briefs/crate-of-store.json")
    brief["shelf"]["cells"][0]["crate"] = "K"
    brief["want"]["lamps"] = [{"name": "path lamp", "count": 1, "lumens": 110}]
    job = follow(server, brief)
    pack = job["result"]["lamps"][0]["pack"]
    named = [code for group in pack["groups"] for code in group]
    check(pack["crate"] == "K" and len(set(named)) == len(named) and named[0][0] == "K", f"{pack}")
    _, text = expect(server, 200, "POST", f"/api/v1/jobs/{job['id']}/packs")
    check(json.loads(text)["cells"] == len(named), text)
    expect(server, 409, "POST", f"/api/v1/jobs/{job['id']}/packs", problem="conflict")
    expect(server, 404, "POST", "/api/v1/jobs/0123/packs", problem="not-found")
    _, text = expect(server, 200, "GET", "/api/v1/crates/K/cells")
    check(sum("pack" in cell for cell in json.loads(text)["cells"]) == len(named), text)
    packs(server, pack)


def packs(server, planned):
    """What is reserved is listed with the cells in their places; taken apart, the cells are free again."""
    _, text = expect(server, 200, "GET", "/api/v1/packs")
    got = json.loads(text)["packs"]
    check(len(got) == 1 and got[0]["groups"] == planned["groups"] and got[0]["state"] == "reserved", text)
    check(got[0]["code"] == planned["code"] and got[0]["plan"] == "PL1", text)
    check(json.loads(expect(server, 200, "GET", "/api/v1/packs?plan=PL1")[1])["packs"] == got, "packs of the plan")
    check(json.loads(expect(server, 200, "GET", f"/api/v1/packs?after={got[0]['id']}")[1])["packs"] == [], "the next page")
    expect(server, 404, "GET", "/api/v1/packs?plan=PL9", problem="not-found")
    for query in ("limit=0", "limit=501", "limit=x", "after=" + "a" * 64, "plan=%00"):
        expect(server, 400, "GET", f"/api/v1/packs?{query}", problem="wrong-input")
    apart = f"/api/v1/packs/{got[0]['code']}/apart"
    _, text = expect(server, 200, "POST", apart)
    check(json.loads(text)["cells"] == sum(map(len, planned["groups"])), text)
    expect(server, 409, "POST", apart, problem="conflict")
    expect(server, 404, "POST", "/api/v1/packs/none/apart", problem="not-found")
    expect(server, 405, "GET", apart, problem="wrong-method")
    _, text = expect(server, 200, "GET", "/api/v1/crates/K/cells")
    check(not any("pack" in cell for cell in json.loads(text)["cells"]), text)
    check(json.loads(expect(server, 200, "GET", "/api/v1/packs")[1])["packs"][0]["state"] == "apart", "it is told as apart")


def main():
    description()
    store = tempfile.mkdtemp()
    os.environ["XDG_CONFIG_HOME"] = store  # what the laptop's user has chosen
    with Server(sys.argv[1], "--store", f"{store}/w.store") as server:
        crates(server, f"{store}/w.store")
        crate_plan(server, f"{store}/w.store")
        good(server)
        wrong_calls(server)
        wrong_bodies(server)
        strangers(server)
        broken_http(server)
        server.check_memory()
        shutil.rmtree(store)
        print("memory", server.memory_kb(), "kB; answers seen:", len(covered))
    end()


main()
