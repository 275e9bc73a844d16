#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Plans as jobs: progress, the same plan as on the command line, stopping, repeated requests.   usage: jobs.py PROGRAM"""
import http.client
import json
import subprocess
import sys

from client import ROOT, Server, at_work, check, end, expect

BRIEF = "tests/briefs/small.json"


def events(server, job):
    """All events of a job: (name, data)."""
    connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=300)
    connection.request("GET", f"/api/v1/jobs/{job}/events")
    answer = connection.getresponse()
    check(answer.status == 200 and answer.getheader("Content-Type") == "text/event-stream", "the event stream")
    found = []
    name = None
    for line in answer:
        word, _, rest = line.decode().rstrip("\n").partition(": ")
        if word == "event":
            name = rest
        elif word == "data":
            found.append((name, json.loads(rest)))
    connection.close()
    return found


def start(server, query="", headers=None):
    answer, text = expect(server, 202, "POST", f"/api/v1/plans{query}", (ROOT / BRIEF).read_bytes(), headers)
    job = json.loads(text)["id"]
    check(answer.getheader("Location") == f"/api/v1/jobs/{job}", "Location")
    return job


def same_as_command_line(server, program):
    job = start(server, "?seed=5")
    seen = events(server, job)
    check(len(seen) > 2 and seen[-1][0] == "end" and seen[-1][1]["state"] == "done", f"events: {seen[-2:]}")
    shares = [data["done"] for name, data in seen if name == "progress"]
    check(shares == sorted(shares), "progress goes back")
    _, text = expect(server, 200, "GET", f"/api/v1/jobs/{job}")
    plan = json.loads(text)["result"]
    printed = subprocess.run([program, "plan", BRIEF, "--seed", "5", "--json"], cwd=ROOT, capture_output=True, text=True)
    check(plan == json.loads(printed.stdout), "the page and the command line disagree")
    check(events(server, job)[-1][0] == "end", "events of a job that has ended")
    expect(server, 204, "DELETE", f"/api/v1/jobs/{job}")
    expect(server, 404, "GET", f"/api/v1/jobs/{job}")
    expect(server, 404, "GET", f"/api/v1/jobs/{job}/events")
    expect(server, 404, "DELETE", f"/api/v1/jobs/{job}")


def lane_alone(server):
    """Masts for a lane as a job: the same as at one go; a brief without a lane has none."""
    brief = (ROOT / "tests/briefs/lane.json").read_bytes()
    job = json.loads(expect(server, 202, "POST", "/api/v1/plans?of=lane", brief)[1])["id"]
    check(events(server, job)[-1][1]["state"] == "done", "the lane's job did not end")
    found = json.loads(expect(server, 200, "GET", f"/api/v1/jobs/{job}")[1])["result"]
    check(found == json.loads(expect(server, 200, "POST", "/api/v1/light/search", brief)[1]), "a job finds another lane")
    expect(server, 409, "GET", f"/api/v1/jobs/{job}/sheets", problem="conflict")
    expect(server, 400, "POST", "/api/v1/plans?of=lane", (ROOT / BRIEF).read_bytes(), problem="wrong-input")
    expect(server, 400, "POST", "/api/v1/plans?of=masts", brief, problem="wrong-input")
    wide = json.loads(brief)  # takes seconds: it is stopped before it is done
    wide["want"]["lane"] |= {"length_m": 2000, "most_masts": 40, "heights_m": [3, 4, 5, 6, 7, 8], "tilts_deg": [0, 10, 20, 30, 40]}
    wide["shelf"]["heads"][1]["most_lumens"] = 9000
    job = json.loads(expect(server, 202, "POST", "/api/v1/plans?of=lane&seed=3", wide)[1])["id"]
    expect(server, 200, "DELETE", f"/api/v1/jobs/{job}")
    check(events(server, job)[-1][1]["state"] == "stopped", "the lane's job was not stopped")


def listed(server):
    """What the server remembers, newest first; a job that waits is stopped from the list."""
    before = json.loads(expect(server, 200, "GET", "/api/v1/jobs")[1])["jobs"]
    check(before[0]["name"] == "forty lamps", f"{before[0]}")
    first, second = start(server, "?seed=8"), start(server, "?seed=9")
    jobs = json.loads(expect(server, 200, "GET", "/api/v1/jobs")[1])["jobs"]
    check([job["id"] for job in jobs] == [second, first] + [job["id"] for job in before], f"{jobs}")
    check(jobs[0]["state"] == "waiting" and jobs[0]["name"] == json.loads((ROOT / BRIEF).read_text())["name"], f"{jobs[0]}")
    check(all("result" not in job for job in jobs), "results in a list")
    for job in (second, first):
        expect(server, 200, "DELETE", f"/api/v1/jobs/{job}")
        check(events(server, job)[-1][1]["state"] == "stopped", "a job of the list did not end")
    expect(server, 405, "POST", "/api/v1/jobs", {}, problem="wrong-method")


def repeated(server):
    key = {"Idempotency-Key": "walk-7"}
    first = start(server, "?seed=6", key)
    check(start(server, "?seed=6", key) == first, "a repeated request made a second job")
    expect(server, 409, "POST", "/api/v1/plans?seed=7", (ROOT / BRIEF).read_bytes(), key, problem="conflict")
    expect(server, 400, "POST", "/api/v1/plans", (ROOT / BRIEF).read_bytes(), {"Idempotency-Key": "a" * 80})
    expect(server, 400, "POST", "/api/v1/plans?seed=-1", (ROOT / BRIEF).read_bytes(), problem="wrong-input")


def stopped(server):
    jobs = [start(server, f"?seed={seed}") for seed in range(20, 26)]
    for job in reversed(jobs):
        expect(server, 200, "DELETE", f"/api/v1/jobs/{job}")
    states = [json.loads(expect(server, 200, "GET", f"/api/v1/jobs/{job}")[1])["state"] for job in jobs]
    check(states == ["stopped"] * 6, f"states after stopping: {states}")


def too_many(server):
    answers = []
    for seed in range(100, 140):
        connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=300)
        connection.request("POST", f"/api/v1/plans?seed={seed}", (ROOT / BRIEF).read_bytes(), {"Content-Type": "application/json"})
        answer = connection.getresponse()
        answers.append((answer.status, answer.getheader("Retry-After"), json.loads(answer.read())))
    refused = [one for one in answers if one[0] == 503]
    check(refused and all(one[1] == "2" for one in refused), "no end to the line of jobs")
    for status, _, body in answers:
        if status == 202:
            expect(server, 200, "DELETE", f"/api/v1/jobs/{body['id']}")


def main():
    with Server(sys.argv[1]) as server:
        same_as_command_line(server, sys.argv[1])
        lane_alone(server)
        repeated(server)
        with at_work(server):
            listed(server)
            stopped(server)
            too_many(server)
        server.check_memory()
        print("memory", server.memory_kb(), "kB")
    end()


main()
