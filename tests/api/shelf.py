#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The shelf and its prices: parts added, changed and removed, two who change the same part, several moneys, and a brief that
takes the prices. usage: shelf.py PROGRAM"""
import concurrent.futures
import json
import pathlib
import sys
import tempfile

from client import ROOT, Server, ask, check, end, expect

PATH = "/api/v1/shelf"


def shelf(server):
    return {part["name"]: part for part in json.loads(expect(server, 200, "GET", PATH)[1])["parts"]}


def post(server, status, body, problem=None):
    text = expect(server, status, "POST", PATH, body, problem=problem)[1]
    return json.loads(text) if text else None


def added(server):
    check(shelf(server) == {}, "an empty shelf")
    post(server, 400, {"name": "20 W panel", "set": {"price": 24000}}, "wrong-input")  # in which money?
    made = post(server, 200, {"name": "20 W panel", "currency": "K", "decimals": 0,
                              "set": {"price": 24000, "date": "2026-11-02", "shop": "radio shop", "at_hand": 1}})
    check(made["prices"] == [{"currency": "K", "decimals": 0, "price": 24000, "consumables": 0, "date": "2026-11-02",
                              "shop": "radio shop"}] and made["at_hand"] == 1, made)
    check(shelf(server) == {"20 W panel": made}, "the shelf tells what the change told")
    cell = post(server, 200, {"name": "reclaimed 18650, \"sorted\"", "set": {
        "price": "100", "consumables": 20, "bench_min": 6, "loss_pct": 37.5, "spares_a_year": 0.5, "at_hand": 96}})
    check((cell["bench_min"], cell["loss_pct"], cell["spares_a_year"]) == (6, 37.5, 0.5), cell)


def changed(server):
    panel = shelf(server)["20 W panel"]
    later = post(server, 200, {"name": "20 W panel", "mark": panel["mark"], "set": {"at_hand": 3}})
    check(later["at_hand"] == 3 and later["prices"] == panel["prices"] and later["mark"] != panel["mark"], later)
    answer = post(server, 409, {"name": "20 W panel", "mark": panel["mark"], "set": {"at_hand": 9}}, "conflict")
    check(answer["stored"] == later, "a conflict shows what is stored now")
    answer = post(server, 409, {"name": "20 w panel", "set": {"at_hand": 9}}, "conflict")
    check(answer["stored"]["at_hand"] == 3, "a new part of a name that is there")
    newer = post(server, 200, {"name": "20 W panel", "mark": later["mark"], "set": {"price": 26500, "date": "2026-11-20"}})
    check(newer["prices"][0]["price"] == 26500 and newer["at_hand"] == 3, newer)
    older = post(server, 200, {"name": "20 W panel", "mark": newer["mark"], "set": {"price": 1, "date": "2025-01-01"}})
    check(older["prices"] == newer["prices"], "the latest day counts")


def refused(server):
    before = shelf(server)
    mark = before["20 W panel"]["mark"]
    for change in ({"price": -1}, {"price": "much"}, {"price": 1.5}, {"date": "2026-13-01"}, {"loss_pct": 95}, {"prise": 1},
                   {"at_hand": 10 ** 9}, {"shop": "two\nlines"}, {"shop": ["x"]}, {"name": "other"}, {}):
        post(server, 400, {"name": "20 W panel", "mark": mark, "set": change}, "wrong-input")
    for body in ([], {}, {"name": "", "set": {"at_hand": 1}}, {"name": "x" * 64, "set": {"at_hand": 1}},
                 {"name": "x", "set": {"at_hand": 1}, "more": 1}, {"name": "x", "remove": True, "set": {"at_hand": 1}}):
        post(server, 400, body)
    post(server, 400, {"name": "20 W panel", "mark": mark, "currency": "K", "decimals": 2, "set": {"price": 5}})
    check(shelf(server) == before, "what was refused has left no trace")


def two_phones(server):
    """Many change the same part from the same sight of it: one is taken, each other is told."""
    mark = shelf(server)["20 W panel"]["mark"]

    def one(n):
        return ask(server, "POST", PATH, {"name": "20 W panel", "mark": mark, "set": {"at_hand": 100 + n}})[0]
    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        got = list(pool.map(one, range(8)))
    check(sorted(got) == [200] + [409] * 7, f"answers {got}")


def priced(server, brief, status=200):
    text = expect(server, status, "POST", f"{PATH}/brief", brief)[1]
    return json.loads(text)


def into_a_brief(server):
    brief = json.loads((ROOT / "demo/nsungwi.json").read_text())
    answer = priced(server, brief)
    lines = {line["name"]: line for line in answer["brief"]["shelf"]["prices"]}
    check(lines["20 W panel"]["price"] == 26500 and answer["changed"] == 0 and answer["used"] >= 1, answer["used"])
    post(server, 200, {"name": "insect mesh", "currency": "USD", "set": {"price": "1.50", "tool": True, "date": "2026-11-03"}})
    answer = priced(server, brief, 400)
    check(answer["field"] == "shelf.currency" and "insect mesh" in answer["detail"], answer)
    post(server, 400, {"name": "1 USD", "set": {"price": 2700}}, "wrong-input")  # two moneys: which one?
    post(server, 200, {"name": "1 USD", "currency": "K", "set": {"price": 2700, "date": "2026-11-01"}})
    answer = priced(server, brief)
    line = {line["name"]: line for line in answer["brief"]["shelf"]["prices"]}["insect mesh"]
    check(answer["changed"] == 1 and line["price"] == 4050 and line["told_as"] == "USD 1.50; 1 USD = K 2 700, 2026-11-01", line)
    post(server, 200, {"name": "insect mesh", "mark": shelf(server)["insect mesh"]["mark"], "currency": "K",
                       "set": {"price": 3900, "date": "2026-10-01"}})
    answer = priced(server, answer["brief"])  # the brief's own lines of before give way; its own money comes first
    line = {line["name"]: line for line in answer["brief"]["shelf"]["prices"]}["insect mesh"]
    check(answer["changed"] == 0 and line["price"] == 3900 and "told_as" not in line, line)
    expect(server, 400, "POST", f"{PATH}/brief", [1])


def removed(server):
    mesh = shelf(server)["insect mesh"]
    check(len(mesh["prices"]) == 2, mesh)
    post(server, 409, {"name": "insect mesh", "mark": "0" * 16, "remove": True}, "conflict")
    post(server, 204, {"name": "insect mesh", "mark": mesh["mark"], "remove": True})
    check("insect mesh" not in shelf(server), "it was removed")
    post(server, 404, {"name": "insect mesh", "mark": mesh["mark"], "set": {"at_hand": 1}}, "not-found")
    post(server, 404, {"name": "insect mesh", "mark": mesh["mark"], "remove": True}, "not-found")
    again = post(server, 200, {"name": "insect mesh", "set": {"at_hand": 1}})
    check(again["prices"] == [], "its prices went with it")


def main():
    with tempfile.TemporaryDirectory() as folder:
        with Server(sys.argv[1], "--store", str(pathlib.Path(folder) / "w.store")) as server:
            for part in (added, changed, refused, two_phones, into_a_brief, removed):
                part(server)
    end()


main()
