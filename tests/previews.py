"""A running `buildspec preview` for tests: started as a user starts it, asked over HTTP, ended with Ctrl-C."""

from __future__ import annotations

import contextlib
import http.client
import os
import pathlib
import queue
import re
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from typing import NamedTuple

ROOT = pathlib.Path(__file__).parent.parent
PATIENCE_S = 180.0
"""For a build on a machine that does much else at the same time."""


class Answer(NamedTuple):
    status: int
    headers: dict[str, str]
    body: bytes


class Preview(NamedTuple):
    process: subprocess.Popen[str]
    port: int
    lines: queue.Queue[str]

    def ask(self, path: str, *, method: str = "GET", host: str | None = None) -> Answer:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE_S)
        with contextlib.closing(connection):
            connection.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
            if host != "":
                connection.putheader("Host", host or f"127.0.0.1:{self.port}")
            connection.endheaders()
            got = connection.getresponse()
            return Answer(got.status, {k.lower(): v for k, v in got.getheaders()}, got.read())

    def page(self) -> str:
        return self.ask("/").body.decode()

    def line(self, pattern: str) -> str:
        """The next line printed, which must be such a line."""
        line = self.lines.get(timeout=PATIENCE_S)
        assert re.search(pattern, line), line
        return line

    def stop(self) -> int:
        """Ctrl-C, and the exit code."""
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(timeout=PATIENCE_S)


SPEC = """buildspec: 1
job: {number: T-1, title: Trial, revision: C, date: 2026-10-05, approved_by: shop lead, owner: {name: Fernhollow}}
vehicle: {description: Double-cab pickup, system: 12 V}
places: {bed: {environment: cabin}}
grounds: {stud: {at: bed}}
batteries: {house: {chemistry: agm, capacity: 75 Ah, cranking: 520 A, at: bed}}
accessories:
  lamps: {part: led-work-10, quantity: 3, at: bed, fed_from: house}
sources: {shore: {type: shore, title: Charger, at: bed, to: house, output: 10 A}}
"""


def job(folder: pathlib.Path) -> pathlib.Path:
    """A small job with files of all kinds in a folder of its own; gives its spec."""
    folder.mkdir(exist_ok=True)
    (folder / "practice.yaml").write_text("practice: 1\n")
    (folder / "own.parts.yaml").write_text(
        "parts:\n  led-work-10: {extends: led-work-10, price: 22.90 EUR}\n"
    )
    (folder / "trial.numbers.yaml").write_text("numbers: {}\n")
    spec = folder / "trial.build.yaml"
    spec.write_text(SPEC)
    return spec


@contextlib.contextmanager
def running(spec: pathlib.Path) -> Iterator[Preview]:
    """A preview on a port that the system chooses."""
    environ = {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONUNBUFFERED": "1"}
    words = [sys.executable, "-m", "buildspec", "preview", spec.name, "--port", "0"]
    process = subprocess.Popen(
        words, cwd=spec.parent, env=environ, text=True, stdout=subprocess.PIPE, stderr=subprocess.STDOUT
    )
    lines: queue.Queue[str] = queue.Queue()
    reader = threading.Thread(target=drain, args=(process, lines), daemon=True)
    reader.start()
    try:
        first = lines.get(timeout=PATIENCE_S)
        found = re.fullmatch(r"preview of \S+ at http://127\.0\.0\.1:(\d+)/ \(Ctrl-C ends it\)\n", first)
        assert found is not None, first
        yield Preview(process, int(found[1]), lines)
    finally:
        process.kill()
        process.wait()
        reader.join()
        assert process.stdout is not None
        process.stdout.close()


def drain(process: subprocess.Popen[str], lines: queue.Queue[str]) -> None:
    assert process.stdout is not None
    for line in process.stdout:
        lines.put(line)


@contextlib.contextmanager
def stream(preview: Preview, mark: str) -> Iterator[Iterator[str]]:
    """Marks as the stream of events says them."""
    connection = http.client.HTTPConnection("127.0.0.1", preview.port, timeout=PATIENCE_S)
    with contextlib.closing(connection):
        connection.request("GET", f"/-/events?mark={mark}")
        response = connection.getresponse()
        assert response.headers["Content-Type"].startswith("text/event-stream")
        yield (
            line[6:].decode().strip() for line in iter(response.readline, b"") if line.startswith(b"data: ")
        )


def mark_of(page: str) -> str:
    found = re.search(r'data-mark="(\w+)"', page)
    assert found is not None
    return found[1]
