#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A thousand half-open connections, slow clients, and a graceful end; on loopback only.   usage: crowd.py PROGRAM"""
import json
import resource
import signal
import socket
import sys
import threading
import time

from client import ROOT, Server, ask, check, end, expect


def half_open(server, count):
    """Connections that begin a request and stop in the middle of a header."""
    held = []
    for _ in range(count):
        connection = socket.create_connection(("127.0.0.1", server.port), timeout=10)
        connection.sendall(b"GET /api/v1 HTTP/1.1\r\nHost: 127.0.0.1")
        held.append(connection)
    return held


def crowd(server):
    held = half_open(server, 1000)
    check(len(held) == 1000, "connections")
    for _ in range(20):
        expect(server, 200, "GET", "/api/v1/figures/normal_quantile")
    held += half_open(server, 400)  # now it is crowded: the slow ones go first
    deadline = time.monotonic() + 30
    closed = 0
    while closed < len(held) - 20 and time.monotonic() < deadline:
        time.sleep(0.5)
        closed = sum(is_closed(connection) for connection in held)
    check(closed >= len(held) - 20, f"{closed} of {len(held)} half-open connections were closed")
    expect(server, 200, "GET", "/api/v1")
    for connection in held:
        connection.close()


def is_closed(connection):
    connection.setblocking(False)
    try:
        return connection.recv(1) == b""
    except BlockingIOError:
        return False
    except OSError:
        return True


def drip(server):
    """One byte now and then does not hold a connection for ever."""
    connection = socket.create_connection(("127.0.0.1", server.port), timeout=10)
    began = time.monotonic()
    try:
        connection.sendall(b"GET /api/v1 HTTP/1.1\r\nX: ")
        while time.monotonic() - began < 60 and not is_closed(connection):
            connection.setblocking(True)
            connection.sendall(b"x")
            time.sleep(1)
    except OSError:
        pass
    check(time.monotonic() - began < 50, "a connection that drips was kept")
    connection.close()


def graceful(server):
    """What is under way is answered; then the program ends with 0."""
    brief = (ROOT / "tests/briefs/small.json").read_bytes()
    _, text = expect(server, 202, "POST", "/api/v1/plans?seed=1", brief)
    body = json.dumps({"system": json.loads((ROOT / "tests/lamps/b.json").read_text(encoding="utf-8")), "years": 300,
                       "place": {"lat_deg": -11.62, "lon_deg": 34.27}})
    answers = []
    thread = threading.Thread(target=lambda: answers.append(ask(server, "POST", "/api/v1/nights", body)[0]))
    thread.start()
    time.sleep(0.15)
    server.process.send_signal(signal.SIGTERM)
    check(server.process.wait(timeout=30) == 0, "the exit code")
    thread.join()
    check(answers == [200], f"the request under way was answered {answers}")


def main():
    resource.setrlimit(resource.RLIMIT_NOFILE, (min(4096, resource.getrlimit(resource.RLIMIT_NOFILE)[1]),) * 2)
    with Server(sys.argv[1]) as server:
        crowd(server)
        drip(server)
        server.check_memory()
        print("memory", server.memory_kb(), "kB")
        graceful(server)
    end()


main()
