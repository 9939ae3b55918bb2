"""The packet in a browser while its spec is written: built in memory at each save, served to this machine only."""

from __future__ import annotations

import contextlib
from collections.abc import Callable
from pathlib import Path

from buildspec.errors import UsageError
from buildspec.preview import building, serving, watching
from buildspec.preview.board import Board
from buildspec.reports import summary

HIGHEST_PORT = 65535


def run(spec: Path, *, port: int, say: Callable[[str], None]) -> None:
    """Serve the packet of `spec` until Ctrl-C; `say` prints a line. Nothing is written.

    Raises UsageError for a spec that is not there, a port that cannot be had, or where watchfiles is missing.
    """
    if not spec.is_file():
        raise UsageError(f"cannot read {spec}: no such file")
    if not 0 <= port <= HIGHEST_PORT:
        raise UsageError(f"port {port} is not one of 0 to {HIGHEST_PORT}; 0 takes any that is free")
    watching.need()
    board = Board(building.NOTHING)
    with contextlib.suppress(KeyboardInterrupt), serving.served(board, port) as address:
        say(f"preview of {spec} at {address} (Ctrl-C ends it)\n")
        for _ in watching.saves(spec):
            before = board.now()
            after = building.follow(before, building.build(spec))
            if after.mark != before.mark:
                board.show(after)
                say(f"build {after.number}: {said(after)}\n")


def said(showing: building.Showing) -> str:
    """`2 errors, 1 warning`."""
    counts = summary(showing.diagnostics)
    words = [
        f"{counts[word]} {word}{'' if counts[word] == 1 else 's'}"
        for word in ("error", "warning", "note")
        if counts[word]
    ]
    return showing.trouble.partition("\n")[0] or ", ".join(words) or "no findings"
