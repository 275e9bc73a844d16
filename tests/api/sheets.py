#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Sheets through the server, read back with poppler and qpdf: the list, each sheet on each paper, all in one PDF, the
wish to be printed; wrong wishes.   usage: sheets.py PROGRAM"""
import json
import re
import subprocess
import sys
import tempfile
import time

from client import ROOT, Server, at_work, check, covered, end, expect


def plan(server, brief):
    _, text = expect(server, 202, "POST", "/api/v1/plans?seed=4", brief)
    job = json.loads(text)["id"]
    while (state := json.loads(expect(server, 200, "GET", f"/api/v1/jobs/{job}")[1])["state"]) in ("waiting", "running"):
        time.sleep(0.05)
    check(state == "done", f"the plan is {state}")
    return job


def tool(data, *words):
    with tempfile.NamedTemporaryFile(suffix=".pdf") as file:
        file.write(data)
        file.flush()
        run = subprocess.run([file.name if word == "FILE" else word for word in words], capture_output=True)
    return run.stdout.decode("utf-8", "replace"), run.returncode


def pdf(server, path):
    answer, data = expect(server, 200, "GET", path)
    check(answer.getheader("Content-Type") == "application/pdf" and data[:5] == b"%PDF-", f"{path} is no PDF")
    check(re.fullmatch(r'inline; filename="[a-z]{2}-[A-Za-z0-9-]+\.pdf"', answer.getheader("Content-Disposition") or ""),
          f"{path}: {answer.getheader('Content-Disposition')}")
    info, _ = tool(data, "pdfinfo", "FILE")
    out, code = tool(data, "qpdf", "--check", "FILE")
    check(code == 0, f"{path}: qpdf says {out}")
    return data, int(re.search(r"Pages:\s+(\d+)", info).group(1)), info


def listed(server, job):
    base = f"/api/v1/jobs/{job}/sheets"
    said = json.loads(expect(server, 200, "GET", f"{base}?language=fr")[1])
    check([one["code"] for one in said["languages"]] == ["en", "fr", "ha", "sw"], said["languages"])
    check(said["language"] == "fr" and len(said["sheets"]) >= 13, said)
    for sheet in said["sheets"]:
        data, pages, info = pdf(server, f"{base}/{sheet['name']}?language=fr")
        check(pages == sheet["pages"], f"{sheet['name']}: {pages} pages, said {sheet['pages']}")
        check(re.search(r"Title:\s+" + re.escape(sheet["title"]), info), f"{sheet['name']}: title in {info}")
        words, _ = tool(data, "pdftotext", "-layout", "FILE", "-")
        check(said["plan"] in words, f"{sheet['name']}: the plan's code is not on it")
    bench = json.loads(expect(server, 200, "GET", f"{base}?for=bench")[1])
    check({one["for"] for one in bench["sheets"]} == {"bench"}, bench)
    all_of_it, pages, _ = pdf(server, f"{base}/all?for=bench&language=sw")
    check(pages == sum(one["pages"] for one in json.loads(expect(server, 200, "GET", f"{base}?for=bench&language=sw")[1])["sheets"]),
          f"all of the bench: {pages} pages")
    check(b"/OpenAction" not in all_of_it, "a PDF wants to be printed unasked")
    data, same, _ = pdf(server, f"{base}/all?for=bench&language=sw&print=yes")
    text, _ = tool(data, "qpdf", "--json=1", "FILE")
    document = json.loads(text)
    root = document["objects"][document["objects"]["trailer"]["/Root"]]
    action = document["objects"].get(root["/OpenAction"], root["/OpenAction"]) if isinstance(root["/OpenAction"], str) else root["/OpenAction"]
    check(same == pages and action == {"/S": "/Named", "/N": "/Print"}, f"printing: {action}")
    check(root["/Lang"] == "sw", f"language {root['/Lang']}")
    pictures(server, base, said["sheets"])


def pictures(server, base, sheets):
    for page in range(1, sheets[0]["pages"] + 1):
        _, data = expect(server, 200, "GET", f"{base}/{sheets[0]['name']}?paper=png&page={page}")
        check(data[:8] == b"\x89PNG\r\n\x1a\n" and data[16:24] == b"\0\0\x04\xd9\0\0\x06\xda", "a page of 1241 x 1754 dots")
        answer, data = expect(server, 200, "GET", f"{base}/{sheets[0]['name']}?paper=svg&page={page}")
        check(answer.getheader("Content-Type") == "image/svg+xml" and b"<svg" in data[:300] and b"<script" not in data, "an SVG")
    for name in ("nothing", "pack", "..", "pack-1-nobody"):
        expect(server, 400 if name == ".." else 404, "GET", f"{base}/{name}")
    for query, field in (("language=xx", "language"), ("language=fr&language=sw", "language"), ("paper=gif", "paper"), ("page=0", "page"),
                         ("page=x", "page"), ("page=99&paper=png", "page"), ("print=maybe", "print"), ("language=" + "a" * 80, "language")):
        _, text = expect(server, 400, "GET", f"{base}/{sheets[0]['name']}?{query}", problem="wrong-input")
        check(json.loads(text)["field"] == field, text)
    expect(server, 400, "GET", f"{base}?for=nobody", problem="wrong-input")
    expect(server, 400, "GET", f"{base}/all?paper=png", problem="wrong-input")
    expect(server, 405, "POST", base, b"{}")


def grids(server, job):
    base = f"/api/v1/jobs/{job}/sheets"
    pages = {}
    for grid in ("auto", "3x8", "4x10", "2x7", "3x7"):
        said = json.loads(expect(server, 200, "GET", f"{base}?for=labels&labels={grid}")[1])["sheets"][0]["pages"]
        _, pages[grid], _ = pdf(server, f"{base}/labels?labels={grid}")
        check(pages[grid] == said, f"labels {grid}: {pages[grid]} pages, said {said}")
    check(pages["4x10"] <= pages["3x8"] <= pages["3x7"] <= pages["2x7"] and pages["4x10"] < pages["2x7"], pages)
    expect(server, 400, "GET", f"{base}/labels?labels=5x5", problem="wrong-input")


def not_there(server, brief):
    expect(server, 404, "GET", "/api/v1/jobs/0/sheets", problem="not-found")
    expect(server, 404, "GET", "/api/v1/jobs/0/sheets/all", problem="not-found")
    refused = json.loads(brief)
    refused["build"]["vent"] = False
    job = plan(server, json.dumps(refused))
    for path in ("", "/summary"):
        expect(server, 422, "GET", f"/api/v1/jobs/{job}/sheets{path}", problem="refused")
    with at_work(server):
        job = json.loads(expect(server, 202, "POST", "/api/v1/plans?seed=50", brief)[1])["id"]
        expect(server, 409, "GET", f"/api/v1/jobs/{job}/sheets", problem="conflict")
        expect(server, 200, "DELETE", f"/api/v1/jobs/{job}")


def main():
    brief = (ROOT / "demo/nsungwi.json").read_text(encoding="utf-8")
    with Server(sys.argv[1]) as server:
        job = plan(server, brief)
        listed(server, job)
        grids(server, job)
        not_there(server, brief)
        server.check_memory()
    check({("GET", f"/api/v1/jobs/{{id}}/sheets{path}", status) for path in ("", "/{name}") for status in (200, 404, 422)} <= covered,
          "not every answer was seen")
    end()


main()
