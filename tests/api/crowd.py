#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A thousand half-open connections, slow clients, and a graceful end; on loopback only.   usage: crowd.py PROGRAM"""
import json
import resource
import signal
import socket
import sys
import time

from client import ROOT, Server, check, end, expect


def half_open(server, count):
    """Connections that begin a request and stop in the middle of a header."""
    held = []
    for _ in range(count):
        connection = socket.create_connection(("127.0.0.1", server.port))
        connection.sendall(b"GET /api/v1 HTTP/1.1\r\nHost: 127.0.0.1")
        held.append(connection)
    return held


def crowd(server):
    held = half_open(server, 1000)
    check(len(held) == 1000, "connections")
    for _ in range(20):
        expect(server, 200, "GET", "/api/v1/figures/normal_quantile")
    held += half_open(server, 400)  # now it is crowded: the slow ones go first
    deadline = time.monotonic() + 120
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
    connection = socket.create_connection(("127.0.0.1", server.port))
    closed = False
    try:
        connection.sendall(b"GET /api/v1 HTTP/1.1\r\nX: ")
        for _ in range(120):
            if closed := is_closed(connection):
                break
            connection.setblocking(True)
            connection.sendall(b"x")
            time.sleep(1)
    except OSError:
        closed = True
    check(closed, "a connection that drips was kept")
    connection.close()


def accepts(server):
    try:
        socket.create_connection(("127.0.0.1", server.port)).close()
    except OSError:
        return False
    return True


def graceful(server):
    """What is under way is answered; then the program ends with 0."""
    brief = (ROOT / "tests/briefs/small.json").read_bytes()
    _, text = expect(server, 202, "POST", "/api/v1/plans?seed=1", brief)
    body = json.dumps({"system": json.loads((ROOT / "tests/lamps/b.json").read_text(encoding="utf-8")), "years": 30,
                       "place": {"lat_deg": -11.62, "lon_deg": 34.27}}).encode()
    with socket.create_connection(("127.0.0.1", server.port)) as connection:
        connection.sendall(f"POST /api/v1/nights HTTP/1.1\r\nHost: 127.0.0.1:{server.port}\r\nContent-Type: application/json\r\n"
                           f"Content-Length: {len(body)}\r\nExpect: 100-continue\r\n\r\n".encode())
        check(b" 100 " in connection.recv(4096), "the server does not ask for the body (RFC 9110, 10.1.1)")
        connection.sendall(body[:-1])  # it has the request in hand, and ends before the last byte comes
        server.process.send_signal(signal.SIGTERM)
        while accepts(server):
            time.sleep(0.01)
        connection.sendall(body[-1:])
        answer = b""
        while piece := connection.recv(65536):
            answer += piece
    check(server.process.wait() == 0, "the exit code")
    check(answer.startswith(b"HTTP/1.1 200 ") and answer.endswith(b"}"), f"the request under way was answered {answer[:80]}")


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
