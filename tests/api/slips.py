#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Slips from the bench: taken once, in order, two versions shown where two people wrote, bad input refused without a
trace. usage: slips.py PROGRAM"""
import concurrent.futures
import itertools
import json
import os
import random
import subprocess
import sys
import tempfile
import time

from client import Server, ask, check, end, expect

PATH = "/api/v1/slips"
AT = "2026-07-14T08:00:00Z"


ticks = itertools.count(int(time.time() * 1000) << 12)


def uuid7():
    """RFC 9562, section 5.7; each sorts after the one before (6.2)."""
    tick, tail = next(ticks), os.urandom(8)
    raw = (tick >> 12).to_bytes(6, "big") + bytes([0x70 | tick >> 8 & 0x0F, tick & 0xFF, 0x80 | tail[0] & 0x3F]) + tail[1:]
    text = raw.hex()
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


def slip(kind, **more):
    return {"id": uuid7(), "at": AT, "kind": kind, **more}


def post(server, status, body, problem=None):
    return json.loads(expect(server, status, "POST", PATH, body, problem=problem)[1])


def row_counts(store):
    """By another program's eyes."""
    counts = {}
    for table in ("crate", "cell", "test", "result", "standing", "slip", "run", "run_reading"):
        answer = subprocess.run(["python3", "-c", "import sqlite3,sys; print(sqlite3.connect(sys.argv[1]).execute("
                                 f"'select count(*) from {table}').fetchone()[0])", store], capture_output=True, text=True)
        counts[table] = int(answer.stdout)
    return counts


def first(server):
    post(server, 404, slip("cell", crate="K", code="K1"), "not-found")  # no store yet
    post(server, 404, slip("change", cell=uuid7(), was={"note": ""}, set={"note": "x"}), "not-found")
    made = post(server, 200, slip("crate", code="K", name="kitchen table"))
    check(made["crate"]["name"] == "kitchen table", made)
    answer = post(server, 409, slip("crate", code="k", name="other"), "conflict")
    check(answer["stored"]["name"] == "kitchen table" and answer["sent"]["name"] == "other", answer)
    check(answer["stored"]["id"] == made["id"], answer)


def once(server, store):
    cell = slip("cell", crate="K", code="K1", found_v=3.62, voltage_class="nmc", marking="ICR18650-22")
    _, one = expect(server, 200, "POST", PATH, cell)
    before = row_counts(store)
    _, two = expect(server, 200, "POST", PATH, cell)
    _, three = expect(server, 200, "POST", PATH, json.dumps(dict(reversed(cell.items())), indent=3))
    check(one == two == three, "the same slip, the same answer")
    check(row_counts(store) == before, "a slip that comes again stores nothing")
    check(json.loads(one)["cell"]["voltage_class"] == "4v2" and json.loads(one)["cell"]["verdict"] == "unsure", one)
    post(server, 412, cell | {"found_v": 3.63}, "reused")
    post(server, 409, slip("cell", crate="K", code="K1", found_v=3.1), "conflict")
    post(server, 404, slip("cell", crate="Z", code="Z1"), "not-found")
    check(row_counts(store) == before, "what is refused leaves no trace")
    return cell["id"]


def change(server, cell):
    def with_(field, was, now):
        return slip("change", cell=cell, was={field: was}, set={field: now})
    got = post(server, 200, with_("look", "", "rust dent"))
    check(got["cell"]["look"] == "dent rust", got)  # the words in their order
    post(server, 200, with_("note", "", "from the blue pack"))  # another field of the same cell: no conflict
    post(server, 200, with_("marking", "", "ICR18650-22"))  # what is wanted is there already
    answer = post(server, 409, with_("look", "", "swollen"), "conflict")
    check(answer["field"] == "look" and answer["stored"]["look"] == "dent rust" and answer["sent"]["look"] == "swollen", answer)
    got = post(server, 200, with_("look", "dent rust", "swollen"))  # the person has decided
    check(got["cell"]["verdict"] == "scrap", got)
    post(server, 200, with_("look", "swollen", ""))
    post(server, 200, with_("found_v", 3.62, None))
    got = post(server, 200, with_("found_v", None, 3.6))
    check(got["cell"]["found_v"] == 3.6, got)
    post(server, 400, with_("found_v", 3.6, 42.0), "wrong-input")
    post(server, 400, slip("change", cell=cell, was={"note": "a"}, set={"look": "dent"}), "wrong-input")
    post(server, 400, slip("change", cell=cell, was={}, set={}), "wrong-input")
    post(server, 404, slip("change", cell=uuid7(), was={"note": ""}, set={"note": "x"}), "not-found")


def readings(server, cell):
    """The example of docs/crate.md, told by the phone; the command line computes the same from it."""
    run = slip("test", cell=cell, method="resistor", load_ohm=4.02, temp_c=26, times_s=[0, 1800, 3600, 5400, 7200, 8100],
               volts_v=[4.02, 3.8, 3.64, 3.54, 3.34, 3.0], open_before_v=4.12, open_after_v=3.12, open_after_s=0)
    got = post(server, 200, run)
    kinds = {r["kind"]: r["value"] for r in got["results"]}
    check(abs(kinds["drawn_ah"] - 2.021) < 0.002, kinds)  # as printed there
    for _ in range(3):
        check(post(server, 200, run) == got, "the same readings again")
    post(server, 200, slip("test", cell=cell, method="two_pulse", pulse_v=[3.95, 3.83], pulse_a=[0.4, 2.0]))
    got = post(server, 200, slip("test", cell=cell, method="hold", volts_v=[4.12]))
    check(got["cell"]["verdict"] == "sound", got)
    post(server, 422, slip("test", cell=cell, method="resistor", load_ohm=4, times_s=[0, 60], volts_v=[4.0, 3.99]), "not-computable")
    post(server, 400, slip("test", cell=cell, method="resistor", load_ohm=4, times_s=[0, 60, 30], volts_v=[4.0, 3.9, 3.8]), "wrong-input")
    post(server, 400, slip("test", cell=cell, method="resistor", load_ohm=4, times_s=[0, 60], volts_v=[4.0]), "wrong-input")
    post(server, 400, slip("test", cell=cell, method="resistor", resistor="no such", times_s=[0, 60], volts_v=[4, 3.9]), "wrong-input")
    post(server, 400, slip("test", cell=cell, method="x"), "wrong-input")
    _, text = expect(server, 200, "GET", "/api/v1/cells/K1/tests?limit=2")
    page = json.loads(text)
    check([t["method"] for t in page["tests"]] == ["resistor", "two_pulse"] and page["after"], page)
    check(page["tests"][0]["readings"]["volts_v"][1] == 3.8 and len(page["tests"][0]["results"]) > 2, page)
    _, text = expect(server, 200, "GET", f"/api/v1/cells/K1/tests?after={page['after']}")
    check([t["method"] for t in json.loads(text)["tests"]] == ["hold"] and json.loads(text)["after"] is None, text)
    expect(server, 200, "GET", "/api/v1/cells/K1")
    expect(server, 404, "GET", "/api/v1/cells/none", problem="not-found")
    expect(server, 404, "GET", "/api/v1/cells/none/tests", problem="not-found")
    for query in ("limit=0", "limit=x", "limit=501", "after=" + "a" * 64):
        expect(server, 400, "GET", f"/api/v1/cells/K1/tests?{query}", problem="wrong-input")
    _, text = expect(server, 200, "GET", "/api/v1/cells?search=K")
    check(len(json.loads(text)["cells"]) == 1, text)
    return run


def take_back(server, cell, run):
    post(server, 400, slip("remove", row=cell), "wrong-input")  # it has tests
    got = post(server, 200, slip("remove", row=run["id"]))
    check("capacity_ah" not in got["cell"], got)
    check(post(server, 200, run)["cell"]["capacity_ah"] > 1.9, "the readings again: the answer of then, nothing stored")
    _, text = expect(server, 200, "GET", "/api/v1/cells/K1/tests")
    check(run["id"] not in text.decode(), "a slip that comes late does not bring back what was taken away")
    wrong = slip("cell", crate="K", code="K2")
    post(server, 200, wrong)
    gone = slip("remove", row=wrong["id"])
    post(server, 200, gone)
    post(server, 200, gone)
    post(server, 404, slip("remove", row=wrong["id"]), "not-found")
    post(server, 200, slip("cell", crate="K", code="K2"))


def wrong(server, store):
    before = row_counts(store)
    good = slip("cell", crate="K", code="K9", found_v=3.5)
    for key, value in (("id", "7"), ("id", good["id"].upper()), ("id", good["id"][:-1]), ("id", "00000000-0000-4000-8000-000000000000"), ("id", None),
                       ("at", "yesterday"), ("at", 5), ("kind", "pack"), ("kind", 1), ("code", ""), ("code", "a b"), ("code", "x" * 33), ("crate", 7),
                       ("found_v", "3.5"), ("found_v", 42), ("found_v", -1), ("look", "purple"), ("voltage_class", "nimh"), ("note", "x" * 401),
                       ("note", "a\u0000b"), ("unknown", 1), ("rated_ah", 1e9)):
        post(server, 400, good | {key: value}, "wrong-input" if value != "a\u0000b" else None)
    for key in ("id", "at", "kind", "crate", "code"):
        post(server, 400, {k: v for k, v in good.items() if k != key})
    for rows in ([], [1, "x"], [[1]], {"0": 1}, [1] * 5001):
        post(server, 400, slip("test", cell=good["id"], method="rest", times_s=rows, volts_v=rows))
    check(row_counts(store) == before, "bad slips leave no trace")


def crowd(server, store):
    """Forty slips at once, each sent three times by three senders: every one stored once; of two that claim one label
    one wins and the other is told."""
    before = row_counts(store)
    slips = [slip("cell", crate="K", code=f"M{i}", found_v=3.0 + i / 100) for i in range(40)]
    sends = slips * 3
    random.Random(7).shuffle(sends)
    def send(one):
        for _ in range(20):
            status, _, text = ask(server, "POST", PATH, one)
            if status != 503:
                return status, text
        return status, text
    with concurrent.futures.ThreadPoolExecutor(12) as pool:
        answers = list(pool.map(send, sends))
    check(all(status == 200 for status, _ in answers), [text for status, text in answers if status != 200][:2])
    check(row_counts(store)["cell"] == before["cell"] + 40, "each cell once")
    rivals = [slip("cell", crate="K", code="RIVAL", found_v=3.0 + i / 100) for i in range(8)]
    with concurrent.futures.ThreadPoolExecutor(8) as pool:
        answers = list(pool.map(send, rivals))
    check(sorted(status for status, _ in answers) == [200] + [409] * 7, [status for status, _ in answers])


def runs(server, store):
    """A discharge that one phone begins and another goes on with; finished once, by whoever comes first."""
    made = slip("cell", crate="K", code="RUN1", found_v=4.1, voltage_class="nmc")
    post(server, 200, made)
    cell = made["id"]
    listed = lambda: json.loads(expect(server, 200, "GET", "/api/v1/runs")[1])["runs"]
    begin = slip("run", cell=cell, load_ohm=4.02, every_s=1800, temp_c=26, open_before_v=4.12)
    got = post(server, 200, begin)
    check(got["run"]["code"] == "RUN1" and got["run"]["readings"] == [] and "cell" not in got, got)
    reading = lambda volts, minute: slip("reading", run=begin["id"], volts=volts) | {"at": f"2026-07-14T{8 + minute // 60:02d}:{minute % 60:02d}:00Z"}
    volts = (4.02, 3.8, 3.64, 3.54, 3.34, 3.0)
    some = [reading(v, minute) for v, minute in zip(volts, (0, 30, 60, 90, 120, 135))]
    for one in (some[1], some[0], some[0], *some[2:]):  # another phone's came late, one came twice
        post(server, 200, one)
    run = listed()[0]
    check(tuple(r["volts"] for r in run["readings"]) == volts and "ended" not in run, run)
    mistake = reading(1.0, 70)
    post(server, 200, mistake)
    check(len(post(server, 200, slip("remove", row=mistake["id"]))["run"]["readings"]) == 6, "a reading is taken back")
    got = post(server, 200, slip("reading", run=begin["id"], disconnected=True))
    check(got["run"]["ended"] == AT, got)
    before = row_counts(store)
    for body, status, problem in ((slip("reading", run=uuid7(), volts=3), 404, "not-found"), (slip("run", cell=uuid7(), load_ohm=4), 404, "not-found"),
                                  (slip("reading", run=begin["id"], volts=3) | {"at": "2026-07-14T07:00:00Z"}, 400, "wrong-input"),
                                  (slip("reading", run=begin["id"]), 400, "wrong-input"), (slip("reading", run=begin["id"], volts=9), 400, "wrong-input"),
                                  (slip("reading", run=begin["id"], volts=3, disconnected=True), 400, "wrong-input"), (slip("run", cell=cell), 400, "wrong-input"),
                                  (slip("run", cell=cell, load_ohm=4, resistor="r"), 400, "wrong-input"), (slip("run", cell=cell, resistor="none"), 400, "wrong-input"),
                                  (slip("run", cell=cell, load_ohm=0), 400, "wrong-input"), (slip("run", cell=cell, load_ohm=4, every_s=1e9), 400, "wrong-input"),
                                  (slip("remove", row=cell), 400, "wrong-input")):
        post(server, status, body, problem)
    check(row_counts(store) == before and len(listed()) == 1, "what is refused leaves no trace")
    finish = lambda: slip("test", cell=cell, run=begin["id"], method="resistor", load_ohm=4.02, temp_c=26, times_s=[0, 1800, 3600, 5400, 7200, 8100], volts_v=list(volts), open_before_v=4.12)
    post(server, 422, finish() | {"times_s": [0, 60], "volts_v": [4.0, 3.99]}, "not-computable")
    check(len(listed()) == 1, "a test that gives nothing finishes nothing")
    got = post(server, 200, finish())
    check(abs({r["kind"]: r["value"] for r in got["results"]}["drawn_ah"] - 2.021) < 0.002, got)  # as in docs/crate.md
    check(listed() == [], "a finished discharge is under way no more")
    post(server, 409, finish(), "conflict")  # the other phone was slower
    post(server, 409, reading(2.9, 140), "conflict")
    begin = slip("run", cell=cell, load_ohm=4.02)
    post(server, 200, begin)
    post(server, 200, reading(4.0, 5))
    post(server, 200, slip("remove", row=begin["id"]))
    check(listed() == [], "thrown away")


def main():
    with tempfile.TemporaryDirectory() as folder:
        store = f"{folder}/w.store"
        with Server(sys.argv[1], "--store", store) as server:
            first(server)
            cell = once(server, store)
            change(server, cell)
            run = readings(server, cell)
            take_back(server, cell, run)
            subprocess.run([sys.argv[1], "crate", "tool", "R4", "--ohm", "4.02", "--tolerance", "1", "--store", store], check=True, capture_output=True)
            _, text = expect(server, 200, "GET", "/api/v1/tools")
            check(json.loads(text)["tools"][0]["ohm"] == 4.02, text)
            runs(server, store)
            wrong(server, store)
            crowd(server, store)
        sound = subprocess.run([sys.argv[1], "crate", "check", "--store", store], capture_output=True, text=True)
        check(sound.returncode == 0, sound.stdout + sound.stderr)
    end()


main()
