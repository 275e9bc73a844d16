# SPDX-License-Identifier: GPL-3.0-or-later
"""A server of the test's own on loopback, and answers compared with docs/api/openapi.json."""
import contextlib
import http.client
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2]
API = json.loads((ROOT / "docs/api/openapi.json").read_text(encoding="utf-8"))
STORE = {f"/built-in/schema/{path.name}": json.loads(path.read_text(encoding="utf-8"))
         for path in (ROOT / "docs/schema").glob("*.json")}
BASE = "http://api.test/openapi.json"
RESOLVER = jsonschema.RefResolver(BASE, API, {f"http://api.test{name}": schema for name, schema in STORE.items()}
                                  | {schema["$id"]: schema for schema in STORE.values() if "$id" in schema})

passed = failed = 0
covered = set()


def check(well, what):
    global passed, failed
    passed += bool(well)
    failed += not well
    if not well:
        print("FAIL", what, flush=True)
    return well


def end():
    print(f"{passed} passed, {failed} failed")
    sys.exit(1 if failed or not passed else 0)


class Server:
    def __init__(self, program, *options):
        self.program = program
        self.folder = tempfile.TemporaryDirectory()
        self.process = subprocess.Popen([program, "serve", "--port", "0", "--folder", self.folder.name, *options],
                                        stdout=subprocess.PIPE, text=True,
                                        env=os.environ | {"OMP_NUM_THREADS": "2"})  # plans take as long on many cores
        line = self.process.stdout.readline()
        self.port = int(re.search(r":(\d+)/", line).group(1))

    def __enter__(self):
        return self

    def __exit__(self, *why):
        self.process.kill()
        self.process.wait()
        self.process.stdout.close()
        self.folder.cleanup()

    def memory_kb(self):
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text(encoding="ascii")
        return int(re.search(r"VmHWM:\s+(\d+)", status).group(1))

    def check_memory(self):
        """The server's bound. The address sanitizer keeps what was freed aside, so its builds say nothing of it."""
        if b"__asan_init" not in pathlib.Path(self.program).read_bytes():
            check(self.memory_kb() < 150_000, f"{self.memory_kb()} kB of memory")


def schema_faults(schema, value):
    validator = jsonschema.Draft202012Validator(schema, resolver=RESOLVER)
    return [f"{'.'.join(map(str, fault.path))}: {fault.message[:200]}" for fault in validator.iter_errors(value)]


def described(method, path, status, kind, body):
    """Faults of an answer against the document; also notes which answers have been seen."""
    for pattern, methods in API["paths"].items():
        if not re.fullmatch(re.sub(r"\{\w+\}", "[^/]+", pattern), path.partition("?")[0]):
            continue
        operation = methods.get(method.lower())
        if operation is None:
            return [] if status == 405 else [f"{method} {pattern} is not described"]
        answer = operation["responses"].get(str(status))
        if answer is None:
            return [f"{method} {pattern} does not describe {status}"]
        covered.add((method, pattern, status))
        if "$ref" in answer:
            answer = RESOLVER.resolve(f"{BASE}{answer['$ref']}")[1]
        content = answer.get("content", {})
        if kind not in content and not (status == 204 and not body):
            return [f"{method} {pattern} {status} has type {kind}"]
        if "json" in (kind or ""):
            return schema_faults(content[kind]["schema"], json.loads(body))
        return []
    return [] if status in (404, 400, 414) else [f"{path} is not described"]


def ask(server, method, path, body=None, headers=None, timeout=300):
    """One request; status, header fields and body. Every answer is compared with the description."""
    connection = http.client.HTTPConnection("127.0.0.1", server.port, timeout=timeout)
    fields = dict(headers or {})
    if isinstance(body, (dict, list)):
        body = json.dumps(body)
    if body is not None:
        fields.setdefault("Content-Type", "application/json")
    connection.request(method, path, body, fields)
    answer = connection.getresponse()
    text = answer.read()
    connection.close()
    kind = (answer.getheader("Content-Type") or "").partition(";")[0]
    if path.startswith("/api/") and method != "HEAD":
        faults = described(method, path, answer.status, kind, text)
        check(not faults, f"{method} {path} {answer.status}: {faults[:5]} {text[:300]}")
    check(answer.getheader("X-Content-Type-Options") == "nosniff" and "frame-ancestors 'none'"
          in (answer.getheader("Content-Security-Policy") or ""), f"{path}: security fields are missing")
    return answer.status, answer, text


def expect(server, status, method, path, body=None, headers=None, problem=None):
    got, answer, text = ask(server, method, path, body, headers)
    if check(got == status, f"{method} {path}: {got} instead of {status}: {text[:300]}") and status >= 400:
        document = json.loads(text)
        check(document["status"] == status and (problem is None or document["type"].endswith("#" + problem)),
              f"{method} {path}: {document}")
    return answer, text


@contextlib.contextmanager
def at_work(server):
    """A plan that keeps the server at work for many seconds: what is asked for meanwhile waits, on the fastest machine too."""
    _, text = expect(server, 202, "POST", "/api/v1/plans", (ROOT / "tests/briefs/long.json").read_bytes())
    job = f"/api/v1/jobs/{json.loads(text)['id']}"
    yield
    expect(server, 200, "DELETE", job)
    while (state := json.loads(expect(server, 200, "GET", job)[1])["state"]) == "running":
        time.sleep(0.05)
    check(state == "stopped", f"the plan at work is {state}")
