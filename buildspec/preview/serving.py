"""HTTP on the loopback address: the files of the packet from memory, and a stream that says when to load again."""

from __future__ import annotations

import contextlib
import errno
import os
import re
import socketserver
import sys
from collections.abc import Iterator
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from threading import Thread
from urllib.parse import unquote

from buildspec.errors import UsageError
from buildspec.preview import pages
from buildspec.preview.board import Board

LOOPBACK = "127.0.0.1"
OURS = re.compile(r"(localhost|127\.0\.0\.1|\[::1\])(:[0-9]{1,5})?", re.IGNORECASE)
"""Names under which a browser on this machine asks; another one is somebody's name that points here."""
EVENTS, SCRIPT = "-/events", "-/reload.js"
"""Paths of the server itself; no file of a packet is in a folder of that name."""
BEAT_S = 10.0
"""A silent stream says this often that it lives, and notices that its reader has left."""
PATIENCE_S = 30.0
POLL_S = 0.05
HEADERS = {
    "Cache-Control": "no-store",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'unsafe-inline'; img-src 'self' data:; script-src 'self'; "
        "connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    ),
}
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".json": "application/json",
    ".csv": "text/csv; charset=utf-8",
    ".md": "text/markdown; charset=utf-8",
    ".pdf": "application/pdf",
    ".xlsx": "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
}


@contextlib.contextmanager
def served(board: Board, port: int) -> Iterator[str]:
    """Serves the board while the block runs; gives the address. Raises UsageError where the port cannot be had."""
    try:
        server = _Server((LOOPBACK, port), handler(board))
    except OSError as error:
        raise UsageError(refusal(port, error)) from error
    with server:
        Thread(target=server.serve_forever, args=(POLL_S,), daemon=True).start()
        try:
            yield f"http://{LOOPBACK}:{server.server_address[1]}/"
        finally:
            board.end()
            server.shutdown()


def refusal(port: int, error: OSError) -> str:
    if error.errno == errno.EADDRINUSE:
        return f"port {port} is in use; name another with --port, or 0 for any that is free"
    return f"cannot listen on port {port}: {(error.strerror or 'unknown fault').lower()}; name another with --port"


class _Server(ThreadingHTTPServer):
    daemon_threads = True
    block_on_close = False
    allow_reuse_address = os.name == "posix"
    """Elsewhere it would let two programs listen on one port."""

    def server_bind(self) -> None:
        """Without a look-up of the machine's name, which may take long."""
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = LOOPBACK, int(self.server_address[1])

    def handle_error(self, request: object, client_address: object) -> None:
        """A reader that leaves is no fault."""
        if not isinstance(sys.exc_info()[1], OSError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


def handler(board: Board) -> type[BaseHTTPRequestHandler]:
    """What answers requests from a board."""

    class Handler(_Handler):
        shown = board

    return Handler


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server_version, sys_version = "buildspec", ""
    timeout = PATIENCE_S
    shown: Board

    def do_GET(self) -> None:
        self.answer()

    def do_HEAD(self) -> None:
        self.answer()

    def refuse_method(self) -> None:
        self.plain(HTTPStatus.METHOD_NOT_ALLOWED, "only GET and HEAD are answered", {"Allow": "GET, HEAD"})

    do_POST = do_PUT = do_PATCH = do_DELETE = do_OPTIONS = refuse_method

    def log_message(self, format: str, *args: object) -> None:
        """Requests are nobody's news."""

    def answer(self) -> None:
        hosts = self.headers.get_all("Host") or []
        if len(hosts) != 1 or not OURS.fullmatch(hosts[0].strip()):
            self.plain(HTTPStatus.FORBIDDEN, "this preview answers only to 127.0.0.1, localhost and [::1]")
            return
        path, _, query = self.path.partition("?")
        name = unquote(path.removeprefix("/")) or "index.html"
        if name == EVENTS:
            self.stream(query.removeprefix("mark="))
            return
        content = pages.script() if name == SCRIPT else pages.content(self.shown.now(), name)
        if content is None:
            self.plain(HTTPStatus.NOT_FOUND, "no such file in the packet")
        else:
            self.whole(
                HTTPStatus.OK, TYPES.get(os.path.splitext(name)[1], "application/octet-stream"), content
            )

    def plain(self, status: HTTPStatus, text: str, more: dict[str, str] | None = None) -> None:
        """A short text; what follows the request on the same connection is not read."""
        self.close_connection = True
        self.whole(
            status, "text/plain; charset=utf-8", f"{text}\n".encode(), {"Connection": "close", **(more or {})}
        )

    def whole(
        self, status: HTTPStatus, kind: str, content: bytes, more: dict[str, str] | None = None
    ) -> None:
        self.head(status, {"Content-Type": kind, "Content-Length": str(len(content)), **(more or {})})
        if self.command != "HEAD":
            self.wfile.write(content)

    def head(self, status: HTTPStatus, headers: dict[str, str]) -> None:
        self.send_response(status)
        for name, value in {**HEADERS, **headers}.items():
            self.send_header(name, value)
        self.end_headers()

    def stream(self, mark: str) -> None:
        """Server-sent events: one whenever something else is shown than what `mark` stands for."""
        self.close_connection = True
        self.head(HTTPStatus.OK, {"Content-Type": "text/event-stream; charset=utf-8", "Connection": "close"})
        if self.command == "HEAD":
            return
        self.wfile.write(b"retry: 500\n\n")
        while (showing := self.shown.other_than(mark, within_s=BEAT_S)) is not None:
            news = f"event: built\ndata: {showing.mark}\n\n" if showing.mark != mark else ": no change\n\n"
            self.wfile.write(news.encode())
            mark = showing.mark
