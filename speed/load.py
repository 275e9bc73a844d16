#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A workshop's server under load: 100,000 cells and 10,000 lamps on record, 50 phones that send slips, and readers whose
waiting is measured. Prints the answers' times by percentile and the server's memory.
usage: load.py [BUILD_DIR [CELLS LAMPS PHONES SECONDS]]"""
import http.client
import json
import os
import pathlib
import random
import re
import subprocess
import sys
import tempfile
import threading
import time
import zipfile

ROOT = pathlib.Path(__file__).resolve().parent.parent


def uuid7(ms, tail):
    raw = ms.to_bytes(6, "big") + bytes([0x70 | tail[0] & 0x0F, tail[1], 0x80 | tail[2] & 0x3F]) + tail[3:]
    text = raw.hex()
    return "-".join((text[:8], text[8:12], text[12:16], text[16:20], text[20:]))


def fresh():
    return uuid7(int(time.time() * 1000), os.urandom(10))


def records(path, cells, lamps):
    """An export as `lanewick crate export` writes it, with crates of a hundred cells."""
    draw, start = random.Random(1), 1_700_000_000_000
    crates = [uuid7(start + i, draw.randbytes(10)) for i in range(cells // 100)]
    text = {"crate": "", "cell": "", "lamp": ""}
    rows = {name: [] for name in text}
    for i, crate in enumerate(crates):
        rows["crate"].append({"id": crate, "code": f"C{i:04d}", "name": "", "origin": "", "received": "", "note": ""})
    for i in range(cells):
        rows["cell"].append({"id": uuid7(start + 2000 + i, draw.randbytes(10)), "crate": crates[i // 100], "code": f"C{i // 100:04d}-{i % 100:02d}",
                             "marking": f"M{i % 37:02d}", "voltage_class": "4v2", "shape": "18650", "origin": "", "look": "",
                             "found_v": round(draw.uniform(2.5, 4.1), 3), "found_at": "", "note": "", "rated_ah": None})
    for i in range(lamps):
        rows["lamp"].append({"id": uuid7(start + 2000 + cells + i, draw.randbytes(10)), "code": f"L{i:05d}", "name": "", "lat_deg": -11.6,
                             "lon_deg": 34.2, "keeper": "", "plan": None, "pack": None, "at": "", "note": ""})
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as out:
        out.writestr("manifest.json", json.dumps({"format": "lanewick.store/1", "version": 4}))
        for name, lines in rows.items():
            out.writestr(f"{name}.jsonl", "".join(json.dumps(line) + "\n" for line in lines))


class Phone(threading.Thread):
    """Sends slips one after another, a new cell every half second, as a person with a meter may."""

    def __init__(self, port, number, until):
        super().__init__(daemon=True)
        self.port, self.number, self.until, self.sent, self.waited = port, number, until, 0, []

    def run(self):
        line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=60)
        time.sleep(random.random() * 0.5)
        while time.time() < self.until:
            slip = {"id": fresh(), "at": "2026-07-14T08:00:00Z", "kind": "cell", "crate": f"C{self.number:04d}", "code": f"P{self.number}-{self.sent}",
                    "found_v": 3.5}
            start = time.perf_counter()
            line.request("POST", "/api/v1/slips", json.dumps(slip), {"Content-Type": "application/json"})
            answer = line.getresponse()
            text = answer.read()
            if answer.status != 200:
                sys.exit(f"a slip was answered {answer.status}: {text[:200]}")
            self.waited.append(time.perf_counter() - start)
            self.sent += 1
            time.sleep(0.5)


def percentile(times, share):
    return sorted(times)[min(len(times) - 1, int(share * len(times)))] * 1000


def main():
    program = f"{sys.argv[1] if len(sys.argv) > 1 else ROOT / 'build'}/lanewick"
    cells, lamps, phones, seconds = ([int(x) for x in sys.argv[2:6]] + [100_000, 10_000, 50, 20][max(0, len(sys.argv) - 2):])[:4]
    with tempfile.TemporaryDirectory() as folder:
        export, store = f"{folder}/all.zip", f"{folder}/w.store"
        records(export, cells, lamps)
        start = time.time()
        subprocess.run([program, "crate", "load", export, "--store", store], check=True, stdout=subprocess.DEVNULL)
        print(f"{cells} cells and {lamps} lamps on record, read in {time.time() - start:.1f} s")
        server = subprocess.Popen([program, "serve", "--port", "0", "--folder", f"{folder}/keys", "--store", store], stdout=subprocess.PIPE, text=True)
        port = int(re.search(r":(\d+)/", server.stdout.readline()).group(1))
        until = time.time() + seconds
        crowd = [Phone(port, n, until) for n in range(phones)]
        for phone in crowd:
            phone.start()
        line, draw, waits = http.client.HTTPConnection("127.0.0.1", port, timeout=60), random.Random(2), {}
        while time.time() < until:
            i = draw.randrange(cells // 100)
            for name, path in (("one cell", f"/api/v1/cells/C{i:04d}-07"), ("a crate", f"/api/v1/crates/C{i:04d}/cells"), ("a search", f"/api/v1/cells?search=C{i:04d}-1&limit=50"),
                               ("unsure cells", "/api/v1/cells?verdict=unsure&limit=50"), ("a cell's tests", f"/api/v1/cells/C{i:04d}-07/tests"), ("the state", "/api/v1")):
                start = time.perf_counter()
                line.request("GET", path)
                answer = line.getresponse()
                answer.read()
                waits.setdefault(name, []).append(time.perf_counter() - start)
                if answer.status != 200:
                    sys.exit(f"{path}: {answer.status}")
            time.sleep(0.02)
        for phone in crowd:
            phone.join()
        status = pathlib.Path(f"/proc/{server.pid}/status").read_text(encoding="ascii")
        for name, times in waits.items():
            print(f"{name:16s} median {percentile(times, 0.5):6.1f} ms   99 of 100 within {percentile(times, 0.99):6.1f} ms   ({len(times)})")
        slips = [w for phone in crowd for w in phone.waited]
        print(f"{'a slip':16s} median {percentile(slips, 0.5):6.1f} ms   99 of 100 within {percentile(slips, 0.99):6.1f} ms   ({len(slips)}, {len(slips) / seconds:.0f} a second)")
        most = int(re.search(r"VmHWM:\s+(\d+)", status).group(1)) / 1024
        print(f"memory at most {most:.0f} MB")
        server.terminate()
        server.wait()


main()
