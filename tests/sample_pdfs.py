"""PDFs of the shipped examples, made once a run, and what a reader of PDF finds in them."""

from __future__ import annotations

import functools
import html.parser
import io
import pathlib
import re

import pypdf
import pytest
from sample_packets import packet

from buildspec import compile as compiling
from buildspec.compile import pdf
from buildspec.errors import UsageError

SKIPPED = {"thead", "title", "style", "nav", "desc", "header", "footer"}


def need_engine() -> None:
    """Skip where the system libraries are missing; in CI a skip is a failure."""
    try:
        pdf.engine()
    except UsageError as error:
        pytest.skip(str(error))


@functools.cache
def pages_of(path: pathlib.Path) -> dict[str, bytes]:
    """The HTML pages of a packet."""
    return {n: t.encode() for n, t in compiling.texts(packet(path)) if n.endswith(".html")}


@functools.cache
def pdf_of(path: pathlib.Path, name: str) -> bytes:
    """One PDF of a packet."""
    page = {made: page for page, made in pdf.NAMES.items()}.get(name, name.replace(".pdf", ".html"))
    return dict(pdf.files({page: pages_of(path)[page]}))[name]


@functools.cache
def reader(content: bytes) -> pypdf.PdfReader:
    """A document, opened once: that takes seconds for a packet. Nobody changes it."""
    return pypdf.PdfReader(io.BytesIO(content))


@functools.cache
def texts(content: bytes) -> tuple[str, ...]:
    """The text of each page without any space: lines break where they like."""
    return tuple(squeezed(page.extract_text()) for page in reader(content).pages)


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text.replace("\u00a0", ""))


class Rows(html.parser.HTMLParser):
    """Rows of the tables in the body of a page, and its blocks of text, without spaces."""

    def __init__(self) -> None:
        super().__init__()
        self.section = ""
        self.rows: list[tuple[int, str, str]] = []
        self.heads: dict[int, str] = {}
        self.blocks: list[str] = []
        self.table = 0
        self.pair = False
        self.inside: list[str] = []
        self.text: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag == "section":
            self.section = given.get("id") or ""
        if tag == "table":
            self.table += 1
            self.pair = "pair" in (given.get("class") or "")
        if tag in ("tr", "p", "li", "h2", "h3", "h4"):
            self.text = []
        if tag in ("thead", "svg", "nav", "header", "footer", "head"):
            self.inside.append(tag)

    def handle_data(self, data: str) -> None:
        self.text.append(data)

    def handle_endtag(self, tag: str) -> None:
        if self.inside and tag == self.inside[-1]:
            self.inside.pop()
        said = squeezed("".join(self.text))
        if not self.section or not said:
            return
        if tag == "tr":
            if self.inside == ["thead"]:
                self.heads |= {} if self.pair else {self.table: said}
            else:
                self.rows.append((self.table, self.section, said))
        elif tag in ("p", "li", "h2", "h3", "h4") and not self.inside and said != "Contents":
            self.blocks.append(said)


@functools.cache
def rows_of(page: bytes) -> Rows:
    found = Rows()
    found.feed(page.decode())
    return found
