"""Packets of the shipped examples, made once a run, and the tables in a Markdown text."""

from __future__ import annotations

import functools
import pathlib
import re

from buildspec import compile as compiling
from buildspec import documents, pipeline
from buildspec.packet import Packet
from buildspec.render import templates

ROOT = pathlib.Path(__file__).parent.parent
EXAMPLES = sorted(ROOT.glob("examples/*/*.build.yaml"))
NAMES = [path.parent.name for path in EXAMPLES]


@functools.cache
def packet(path: pathlib.Path) -> Packet:
    outcome = pipeline.check_file(path)
    assert outcome.build is not None, [d.message for d in outcome.diagnostics]
    return compiling.packet_of(outcome)


@functools.cache
def written(path: pathlib.Path) -> dict[str, str]:
    """Document name → its Markdown."""
    made = packet(path)
    return {d.name: templates.markdown(d.name, documents.context(d, made)) for d in documents.catalogue()}


def tables(text: str) -> list[list[dict[str, str]]]:
    """Every table of a Markdown text as rows of heading → cell; escaped pipes stay inside their cell."""
    found: list[list[dict[str, str]]] = []
    head: list[str] = []
    for line in text.splitlines():
        if not line.startswith("|"):
            head = []
            continue
        cells = [cell.strip() for cell in re.split(r"(?<!\\)\|", line)[1:-1]]
        if not head:
            head = cells
            found.append([])
        elif not all(re.fullmatch(r"-+:?", cell) for cell in cells):
            found[-1].append(dict(zip(head, cells, strict=True)))
    return found


def by_first(text: str, heading: str) -> dict[str, dict[str, str]]:
    """First cell → row, of the tables that have a column."""
    rows = [row for table in tables(text) for row in table if heading in row]
    return {next(iter(row.values())): row for row in rows}
