#!/usr/bin/env python3
"""The page's server under load and under attack, as a process of its own.

usage: under_load.py PROGRAM [--rough]    --rough: fewer requests, memory not watched (builds with sanitizers)

10,000 requests over 64 connections (wrk), none lost or wrong, memory flat; then senders that are slow or silent, bodies
too large, foreign names and malformed requests by the thousand: others are answered meanwhile, and these are told why.
"""
import collections
import concurrent.futures
import json
import pathlib
import random
import re
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time

WRK = pathlib.Path(__file__).with_name("under_load.lua")
LONGEST_ANSWER = 5.0  # seconds anybody may wait while others are slow


class Server:
    def __init__(self, program):
        self.process = subprocess.Popen([program, "serve", "--port", "0"], stdout=subprocess.PIPE, text=True)
        self.port = int(re.search(r"127\.0\.0\.1:(\d+)", self.process.stdout.readline()).group(1))

    def memory(self):
        """MiB that are resident."""
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text()
        return int(re.search(r"VmRSS:\s*(\d+)", status).group(1)) / 1024

    def open_files(self):
        return len(list(pathlib.Path(f"/proc/{self.process.pid}/fd").iterdir()))

    def connect(self):
        connection = socket.create_connection(("127.0.0.1", self.port), timeout=30)
        return connection

    def raw(self, request, patience=60.0):
        """What comes back for these bytes, until the server hangs up. Where nothing comes for so long, more is being
        waited for: then our side is closed, and the server hangs up."""
        with self.connect() as connection:
            connection.settimeout(patience)
            answer = b""
            try:
                connection.sendall(request)
            except OSError:
                pass  # it may refuse before all is sent
            while True:
                try:
                    piece = connection.recv(65536)
                except TimeoutError:
                    connection.shutdown(socket.SHUT_WR)
                    continue
                except ConnectionResetError:
                    break
                if not piece:
                    break
                answer += piece
            return answer

    def request(self, method, path, body=b"", **headers):
        lines = {"Host": f"127.0.0.1:{self.port}", "Content-Length": len(body), "Content-Type": "application/json"}
        lines |= {name.replace("_", "-"): value for name, value in headers.items()}
        head = "".join(f"{name}: {value}\r\n" for name, value in lines.items() if value is not None)
        return self.raw(f"{method} {path} HTTP/1.1\r\n{head}\r\n".encode() + body)

    def stop(self):
        self.process.send_signal(signal.SIGTERM)
        return self.process.wait(timeout=60)


def status(answer):
    return int(answer.split(b" ", 2)[1]) if answer.startswith(b"HTTP/1.1 ") else 0


def body(answer):
    return answer.split(b"\r\n\r\n", 1)[-1]


def told(answer):
    """The first message of an error."""
    return json.loads(body(answer))["error"]["messages"][0]


def check(held, what):
    if not held:
        sys.exit(f"under_load: {what}")


def ask_plan(server):
    score = json.loads(body(server.request("POST", "/api/demo", b'{"demo":"first-steps"}')))["score"]
    asked = {"score": score, "instrument": "treble-recorder", "bars": "1-4"}
    return json.dumps(asked).encode(), body(server.request("POST", "/api/plan", json.dumps(asked).encode())).decode()


def load(server, requests, connections=64):
    """wrk asks for a file, the catalogue and a plan in turn, and compares what comes back with what came back alone."""
    asked, plan = ask_plan(server)
    token = json.loads(plan)["plan"]
    expected = {"page": body(server.request("GET", "/page/page.js")).decode(),
                "program": body(server.request("GET", "/api/program")).decode(),
                "planned": plan.split(token)[1], "plan": asked.decode()}
    with tempfile.TemporaryDirectory() as folder:
        for name, text in expected.items():
            pathlib.Path(folder, name).write_text(text)
        command = ["wrk", "--threads", "2", "--connections", str(connections), "--duration", "3s", "--timeout", "30s",
                   "--script", WRK, f"http://127.0.0.1:{server.port}", "--", folder]
        counts = collections.Counter()
        for _ in range(60):  # wrk counts seconds, not requests
            run = subprocess.run(command, capture_output=True, text=True, timeout=120, check=False)
            found = re.findall(r"(\w+)=(\d+)", run.stdout)
            check(run.returncode == 0 and found, run.stdout + run.stderr)
            counts.update({name: int(count) for name, count in found})
            if counts["right"] >= requests or counts["wrong"] or counts["lost"]:
                break
    return dict(counts)


class OthersAreAnswered:
    """While this lasts somebody asks again and again, and must never wait long."""

    def __init__(self, server, what):
        self.server, self.what, self.longest, self.asked = server, what, 0.0, 0
        self.over = threading.Event()
        self.thread = threading.Thread(target=self.ask)

    def ask(self):
        while not self.over.is_set():
            start = time.monotonic()
            try:
                good = status(self.server.request("GET", "/api/program")) == 200
            except OSError:
                good = False
            self.longest = max(self.longest, time.monotonic() - start if good else 1e9)
            self.asked += 1
            time.sleep(0.05)

    def __enter__(self):
        self.thread.start()
        return self

    def __exit__(self, *_):
        self.over.set()
        self.thread.join()
        print(f"{self.what}: {self.asked} others asked meanwhile, the longest wait {self.longest:.2f} s", flush=True)
        check(self.asked > 0 and self.longest < LONGEST_ANSWER, f"{self.what}: others had to wait {self.longest:.1f} s")


def slow_senders(server, count, seconds):
    """Each sends a byte now and then, and never comes to an end."""
    connections = [server.connect() for _ in range(count)]
    head = f"POST /api/plan HTTP/1.1\r\nHost: 127.0.0.1:{server.port}\r\nX: "
    for number, connection in enumerate(connections):
        connection.sendall(head.encode() if number % 2 else head.encode()[:-3] + b"Content-Length: 5000\r\n\r\n")
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        for connection in connections:
            try:
                connection.send(b"a")
            except OSError:
                pass  # it was hung up on, as it should be in the end
        time.sleep(0.5)
    for connection in connections:
        connection.close()


def silent(server, count, seconds):
    """Connections that say nothing, and such that stop in the middle of a request."""
    connections = [server.connect() for _ in range(count)]
    for connection in connections[::2]:
        connection.sendall(b"GET /api/pro")
    time.sleep(seconds)
    for connection in connections:
        connection.close()


def too_large(server):
    answer = server.request("POST", "/api/plan", b" " * (3 << 20))
    check(status(answer) == 413 and "larger than 1 MiB" in told(answer), f"an oversized body: {answer[:200]}")
    answer = server.request("POST", "/api/scores?name=a", b"x" * (33 << 20), Content_Type="application/octet-stream")
    check(status(answer) == 413 and "larger than 32 MiB" in told(answer), f"an oversized score: {answer[:200]}")
    # A length that is only claimed: nothing is set aside for it.
    answer = server.request("POST", "/api/plan", b"{}", Content_Length=10**15)
    check(status(answer) in (400, 413), f"a claimed length: {answer[:200]}")


def wrong_host(server, count):
    for number in range(count):
        host = ("elsewhere.example", f"127.0.0.1:{server.port + 1}", "", None)[number % 4]
        answer = server.request("GET", "/api/program", Host=host)
        check(status(answer) == 403 and "answers to 127.0.0.1" in told(answer), f"Host {host}: {answer[:200]}")


def malformed(server, count):
    """Good requests with bytes changed, and plain noise: each gets an answer, or is hung up on, and is never a fault."""
    drawn = random.Random(8)
    text, _ = ask_plan(server)
    host = f"Host: 127.0.0.1:{server.port}\r\n".encode()
    good = b"POST /api/plan HTTP/1.1\r\n" + host + b"Content-Type: application/json\r\nContent-Length: %d\r\n\r\n%s" % (
        len(text), text)
    requests = []
    for number in range(count):
        request = bytearray(good)
        if number % 10 == 0:
            request = bytearray(drawn.randbytes(drawn.randrange(1, 400)))
        else:
            start = len(good) - len(text) if number % 2 else 0  # the body alone, or anywhere
            for _ in range(drawn.randrange(1, 6)):
                request[drawn.randrange(start, len(good))] = drawn.randrange(256)
        requests.append(bytes(request))
    with concurrent.futures.ThreadPoolExecutor(16) as senders:
        answers = list(senders.map(lambda request: server.raw(request, patience=0.5), requests))
    seen = collections.Counter(status(answer) for answer in answers)
    for request, answer in zip(requests, answers):
        code = status(answer)
        check(code in (0, 200) or 400 <= code < 500, f"{request!r}: {answer[:300]!r}")
        check(code < 400 or told(answer), f"refused without a word: {request!r}")
    print("malformed requests:", ", ".join(f"{n} x {code or 'hung up'}" for code, n in sorted(seen.items())), flush=True)
    check(seen.get(400, 0) > count / 10, "malformed requests are not told")


def attack(server, rough):
    load(server, 500)  # what is kept once and for all is there from now on
    before = server.memory()
    counts = load(server, 1000 if rough else 10_000)
    after = server.memory()
    print(f"load: {counts}, memory {before:.0f} -> {after:.0f} MiB", flush=True)
    check(counts["lost"] == 0 and counts["wrong"] == 0 and counts["right"] >= (1000 if rough else 10_000), f"{counts}")
    check(rough or after < before + 40, f"memory grew from {before:.0f} to {after:.0f} MiB")
    files = server.open_files()
    for what, how in (("slow senders", lambda: slow_senders(server, 100, 8)),
                      ("silent and half-open connections", lambda: silent(server, 200, 4)),
                      ("oversized bodies", lambda: too_large(server)),
                      ("foreign names", lambda: wrong_host(server, 200)),
                      ("malformed requests", lambda: malformed(server, 400 if rough else 3000))):
        with OthersAreAnswered(server, what):
            how()
    time.sleep(0.5)
    check(server.open_files() <= files + 5, f"{server.open_files() - files} connections are still open")
    check(rough or server.memory() < after + 60, f"memory grew from {after:.0f} to {server.memory():.0f} MiB")
    check(server.stop() == 0, "it did not end well")


def main():
    program, rough = sys.argv[1], "--rough" in sys.argv
    server = Server(program)
    try:
        attack(server, rough)
    finally:
        server.process.kill()


if __name__ == "__main__":
    main()
