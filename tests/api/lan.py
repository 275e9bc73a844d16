#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The local network: certificates, pairing, roles, removal. Runs in a network namespace of its own with an address
192.168.77.1 where the system allows one, else on loopback. The made root is the only trust; certificate errors are
never ignored.   usage: lan.py PROGRAM"""
import http.client
import json
import os
import pathlib
import re
import shutil
import signal
import ssl
import subprocess
import sys
import tempfile
import time

from client import check, described, end

PORT = 18650
ADDRESS = "127.0.0.1"


def own_network():
    """Enters a namespace with an address of a local network; false: the system does not allow it."""
    if os.environ.get("LW_OWN_NETWORK"):
        return True
    probe = subprocess.run(["unshare", "-rn", "sh", "-c", "ip link set lo up && ip addr add 192.168.77.1/24 dev lo"],
                           capture_output=True)
    if probe.returncode != 0:
        return False
    os.execvpe("unshare", ["unshare", "-rn", "sh", "-c", 'ip link set lo up; ip addr add 192.168.77.1/24 dev lo; exec "$@"',
                           "sh", sys.executable, "-B", *sys.argv], os.environ | {"LW_OWN_NETWORK": "1"})


class Lan:
    def __init__(self, program, folder):
        self.folder = pathlib.Path(folder)
        self.process = subprocess.Popen([program, "serve", "--lan", "--port", str(PORT), "--folder", folder],
                                        stdout=subprocess.PIPE, text=True)
        lines = ""
        while "Code for one" not in lines:
            line = self.process.stdout.readline()
            if not line:
                break
            lines += line
        self.lines = lines
        self.code = re.search(r"[2-9A-Z]{4}-[2-9A-Z]{4}", lines).group(0)

    def stop(self):
        self.process.send_signal(signal.SIGTERM)
        check(self.process.wait(timeout=300) == 0, "the exit code")


def trust(root):
    context = ssl.create_default_context(cafile=root)
    context.verify_flags |= ssl.VERIFY_X509_STRICT
    return context


def ask(connection, method, path, body=None, token=None, headers=None, describe=True):
    fields = dict(headers or {})
    if body is not None:
        fields["Content-Type"] = "application/json"
        body = json.dumps(body)
    if token:
        fields["Authorization"] = f"Bearer {token}"
    connection.request(method, path, body, fields)
    answer = connection.getresponse()
    text = answer.read()
    connection.close()
    if describe and path.startswith("/api/"):
        faults = described(method, path, answer.status, (answer.getheader("Content-Type") or "").partition(";")[0], text)
        check(not faults, f"{method} {path}: {faults}")
    return answer.status, answer, json.loads(text) if text and "json" in (answer.getheader("Content-Type") or "") else text


def local(method, path, body=None, token=None):
    return ask(http.client.HTTPConnection("127.0.0.1", PORT, timeout=300), method, path, body, token)


def phone(root, method, path, body=None, token=None, headers=None):
    return ask(http.client.HTTPSConnection(ADDRESS, PORT + 1, context=trust(root), timeout=300), method, path, body, token,
               headers)


def install_door(lan, copy):
    def get(path, method="GET", headers=None):
        return ask(http.client.HTTPConnection(ADDRESS, PORT + 2, timeout=300), method, path, headers=headers, describe=False)
    status, _, text = get("/")
    fingerprint = re.search(r"Fingerprint: +(\S+)", lan.lines).group(1)
    check(b"@" not in text and b"Let this phone trust the workshop" in text and b'lang="en"' in text, "in English")
    _, _, said = get("/", headers={"Accept-Language": "de-DE,sw;q=0.8,fr;q=0.5"})
    check(b'lang="sw"' in said and "Simu hii iiamini karakana".encode() in said and fingerprint.encode() in said, "in Swahili")
    check(status == 200 and fingerprint.encode() in text and f"https://{ADDRESS}:{PORT + 1}/".encode() in text, "the steps")
    status, answer, text = get("/workshop-root.crt")
    check(status == 200 and answer.getheader("Content-Type") == "application/x-x509-ca-cert", "the root on offer")
    copy.write_bytes(text)
    told = subprocess.run(["openssl", "x509", "-in", copy, "-noout", "-fingerprint", "-sha256"], capture_output=True, text=True)
    check(told.stdout.strip().rpartition("=")[2] == fingerprint, f"openssl: {told.stdout} {fingerprint}")
    for path in ("/api/v1", "/api/v1/figures", "/phones", "/index.html", "/root.key", "/leaf.key"):
        check(get(path)[0] == 404, f"the plain door gives {path}")
    check(get("/", "POST")[0] == 405, "the plain door takes POST")
    check(get("/", headers={"Host": "evil.example"})[0] == 421, "the plain door under another name")


def certificates(lan, root):
    openssl = ["openssl", "verify", "-x509_strict", "-CAfile", root]
    good = subprocess.run([*openssl, "-verify_ip", ADDRESS, lan.folder / "leaf.crt"], capture_output=True, text=True)
    check(good.returncode == 0, f"openssl verify: {good.stdout}{good.stderr}")
    for context, name in ((ssl.create_default_context(), ADDRESS), (trust(root), "shop.example")):
        try:
            with context.wrap_socket(__import__("socket").create_connection((ADDRESS, PORT + 1)), server_hostname=name):
                check(False, f"TLS as {name} without reason to trust")
        except ssl.SSLCertVerificationError:
            check(True, "")
    old = subprocess.run(["openssl", "s_client", "-connect", f"{ADDRESS}:{PORT + 1}", "-tls1_1"], stdin=subprocess.DEVNULL,
                         capture_output=True, text=True, timeout=300)
    check("BEGIN CERTIFICATE" not in old.stdout, "TLS 1.1 is spoken")
    curl = subprocess.run(["curl", "-sS", "--cacert", root, f"https://{ADDRESS}:{PORT + 1}/api/v1"], capture_output=True, text=True)
    check(json.loads(curl.stdout)["role"] == "none", curl.stdout + curl.stderr)
    for name in ("root.key", "leaf.key", "root.crt", "devices.txt"):
        path = lan.folder / name
        check(not path.exists() or path.stat().st_mode & 0o777 == 0o600, f"mode of {name}")


def stolen_root(lan, root):
    """Even with the root's key nobody can stand in for an address of the internet (name constraints)."""
    with tempfile.TemporaryDirectory() as folder:
        place = pathlib.Path(folder)
        (place / "san").write_text("subjectAltName=DNS:bank.example,IP:8.8.8.8\n", encoding="ascii")
        run = lambda *words: subprocess.run(["openssl", *words], check=True, capture_output=True)
        run("req", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-keyout", place / "k", "-out", place / "r",
            "-subj", "/CN=bank.example")
        run("x509", "-req", "-in", place / "r", "-CA", root, "-CAkey", lan.folder / "root.key", "-CAcreateserial",
            "-CAserial", place / "serial", "-out", place / "c", "-extfile", place / "san")
        judged = subprocess.run(["openssl", "verify", "-CAfile", root, place / "c"], capture_output=True, text=True)
        check(judged.returncode != 0 and "permitted subtree violation" in judged.stderr, judged.stdout + judged.stderr)


def pairing(lan, root):
    check(phone(root, "GET", "/api/v1/figures")[0] == 401, "figures without a token")
    check(phone(root, "GET", "/phones")[0] == 404, "the laptop's page on a phone")
    check(phone(root, "GET", "/")[0] == 200, "the page itself")
    status, _, body = phone(root, "POST", "/api/v1/pair", {"code": "AAAA-2222", "name": "stranger"})
    check(status == 403 and body["type"].endswith("#wrong-code"), body)
    status, _, body = phone(root, "POST", "/api/v1/pair", {"code": lan.code.lower().replace("-", " "), "name": "bench phone"})
    check(status == 200 and body["device"]["role"] == "bench", body)
    token = body["token"]
    check(phone(root, "POST", "/api/v1/pair", {"code": lan.code, "name": "again"})[0] == 403, "a code was used twice")
    kept = (lan.folder / "devices.txt").read_text(encoding="utf-8")
    check(token.partition(".")[2] not in kept and token.partition(".")[0] in kept, "the token itself is kept")
    check(phone(root, "GET", "/api/v1/figures", token=token)[0] == 200, "figures with a token")
    check(phone(root, "GET", "/api/v1", token=token)[2]["role"] == "bench", "the role")
    check(phone(root, "GET", "/api/v1/shelf", token=token)[0] == 200, "the bench sees the shelf")
    for method, path, body in (("POST", "/api/v1/plans", {}), ("GET", "/api/v1/devices", None), ("POST", "/api/v1/pairing", {}),
                               ("POST", "/api/v1/shelf", {"name": "x", "set": {"at_hand": 1}}), ("POST", "/api/v1/shelf/brief", {}),
                               ("POST", "/api/v1/owner/passphrase", {"passphrase": "mine now, mine"})):
        check(phone(root, method, path, body, token)[0] == 403, f"bench may {method} {path}")
    for bad in (token[:-1], token + "x", token.upper(), "x", "", ".", "0" * 16 + "." + token.partition(".")[2]):
        check(phone(root, "GET", "/api/v1/figures", token=bad or " ")[0] == 401, f"the token {bad}")
    check(phone(root, "GET", "/api/v1/figures", token=token, headers={"Origin": "https://evil.example"})[0] == 403, "origin")
    check(phone(root, "GET", "/api/v1/figures", token=token, headers={"Host": "evil.example"})[0] == 421, "host")
    return token


def lock_out(root):
    status, _, code = local("POST", "/api/v1/pairing", {"role": "planner"})
    check(status == 200 and code["role"] == "planner", code)
    if ADDRESS != "127.0.0.1":
        check(code["page"] == f"https://{ADDRESS}:{PORT + 1}/#pair={code['code']}" and code["page_qr"].startswith("<?xml"), code["page"])
    states = [phone(root, "POST", "/api/v1/pair", {"code": f"AAAA-BBB{i}"})[0] for i in range(2, 9)]
    check(states == [403] * 5 + [429] * 2, f"wrong codes: {states}")
    status, answer, _ = phone(root, "POST", "/api/v1/pair", {"code": code["code"]})
    check(status == 429 and 0 < int(answer.getheader("Retry-After")) <= 60, f"{status} while locked")
    code = local("POST", "/api/v1/pairing", {"role": "planner"})[2]["code"]
    status, _, body = phone(root, "POST", "/api/v1/pair", {"code": code, "name": "planner phone"})
    check(status == 200, body)
    token = body["token"]
    check(phone(root, "POST", "/api/v1/plans", {}, token)[0] == 400, "a planner may ask for plans")
    check(phone(root, "POST", "/api/v1/shelf", {"name": "", "set": {}}, token)[0] == 400, "a planner may change the shelf")
    check(phone(root, "GET", "/api/v1/devices", token=token)[0] == 403, "a planner may not see devices")
    check(phone(root, "POST", "/api/v1/language?code=sw", token=token)[0] == 403, "a phone chooses the laptop's language")
    local("POST", "/api/v1/pairing", {"role": "owner"})
    check(local("DELETE", "/api/v1/pairing")[0] == 204, "closing a code")
    return token


def removal(root, bench, planner):
    devices = local("GET", "/api/v1/devices")[2]["devices"]
    names = {device["name"]: device["id"] for device in devices}
    check(set(names) == {"bench phone", "planner phone"}, names)
    check(phone(root, "DELETE", f"/api/v1/devices/{names['planner phone']}", token=bench)[0] == 403, "removing another")
    check(phone(root, "DELETE", f"/api/v1/devices/{names['planner phone']}", token=planner)[0] == 204, "removing itself")
    check(phone(root, "GET", "/api/v1/figures", token=planner)[0] == 401, "a removed token")
    check(local("DELETE", f"/api/v1/devices/{names['planner phone']}")[0] == 404, "removing twice")


def owner(root):
    check(local("POST", "/api/v1/owner/passphrase", {"passphrase": "short"})[0] == 400, "a short passphrase")
    check(local("POST", "/api/v1/owner/passphrase", {"passphrase": "four plain words here"})[0] == 204, "setting it")
    check(local("GET", "/api/v1/devices")[0] == 401, "the laptop is still owner")
    check(local("GET", "/api/v1")[2]["role"] == "planner", "the laptop's role")
    check(local("POST", "/api/v1/owner", {"passphrase": "four plain word"})[0] == 403, "a wrong passphrase")
    token = local("POST", "/api/v1/owner", {"passphrase": "four plain words here"})[2]["token"]
    check(local("GET", "/api/v1/devices", token=token)[0] == 200, "the owner's token")
    check(phone(root, "GET", "/api/v1/devices", token=token)[0] == 200, "the owner's token from a phone")
    change = {"passphrase": "another four words now", "before": "wrong one"}
    check(local("POST", "/api/v1/owner/passphrase", change, token)[0] == 403, "changed without the old one")
    change = {"passphrase": "", "before": "four plain words here"}
    check(local("POST", "/api/v1/owner/passphrase", change, token)[0] == 204, "taken away")
    check(local("GET", "/api/v1/devices")[0] == 200, "the laptop is owner again")


def later(program, lan, root, bench):
    """A new start keeps the root and the devices; an expired token is void; damage is told."""
    lan.stop()
    before = root.read_bytes()
    lan = Lan(program, str(lan.folder))
    check((lan.folder / "root.crt").read_bytes() == before, "a new root was made")
    check(phone(root, "GET", "/api/v1/figures", token=bench)[0] == 200, "a token after a new start")
    lan.stop()
    devices = lan.folder / "devices.txt"
    words = devices.read_text(encoding="utf-8")
    devices.write_text(re.sub(r"(device \S+ bench) \d+ \d+", r"\1 1000000000 1100000000", words), encoding="utf-8")
    lan = Lan(program, str(lan.folder))
    check(phone(root, "GET", "/api/v1/figures", token=bench)[0] == 401, "an expired token")
    lan.stop()
    for damage in (words[:-9], words.replace("bench", "king"), "nonsense\n", "lanewick.devices/1\ndevice x\n"):
        devices.write_text(damage, encoding="utf-8")
        run = subprocess.run([program, "serve", "--port", "0", "--folder", str(lan.folder)], capture_output=True, text=True, timeout=300)
        check(run.returncode == 4 and "damaged" in run.stderr, f"{run.returncode} {run.stderr}")
    devices.unlink()
    lan.folder.chmod(0o777)
    run = subprocess.run([program, "serve", "--port", "0", "--folder", str(lan.folder)], capture_output=True, text=True, timeout=300)
    check(run.returncode == 4 and "nobody else" in run.stderr, f"{run.returncode} {run.stderr}")


def main():
    global ADDRESS
    if own_network():
        ADDRESS = "192.168.77.1"
    folder = tempfile.mkdtemp()
    try:
        root = pathlib.Path(folder) / "phone-root.crt"
        lan = Lan(sys.argv[1], folder + "/kept/here")
        install_door(lan, root)
        certificates(lan, root)
        stolen_root(lan, root)
        if ADDRESS != "127.0.0.1":
            try:
                http.client.HTTPConnection(ADDRESS, PORT, timeout=5).connect()
                check(False, "the local door is open to the network")
            except ConnectionRefusedError:
                check(True, "")
        bench = pairing(lan, root)
        planner = lock_out(root)
        removal(root, bench, planner)
        owner(root)
        later(sys.argv[1], lan, root, bench)
    finally:
        shutil.rmtree(folder, ignore_errors=True)
    print("at", ADDRESS)
    end()


main()
