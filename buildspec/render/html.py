"""Markdown → HTML for one section of a page: tables that fold on a phone, and words that lead somewhere."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache

from markdown_it import MarkdownIt
from markdown_it.token import Token

LONG_FROM = 10
"""Rows above which a narrow table is set in two columns on paper."""
HALF_UPRIGHT, HALF_ACROSS = 70, 118
"""Characters that half a page holds in one row, upright and across, with two for the gap after each cell."""
BY_HAND = 16
"""Characters that a cell to fill in by hand counts for."""
WIDE_FROM = 8
"""Columns from which a table is set smaller."""
MARKED = {"": "fill", "☐": "tick", "HOLD": "hold"}
"""Cells that are more than text, and their class: to fill in by hand, to tick, to stop at."""

OTHER_DOCUMENT = re.compile(r'href="([a-z-]+)\.md"')
"""Another document is a section of the same page."""


@cache
def _parser() -> MarkdownIt:
    return MarkdownIt("commonmark", {"html": False}).enable("table")


def section(
    text: str,
    *,
    name: str,
    anchors: Mapping[str, str],
    links: Mapping[str, str],
    circuits: Mapping[str, Sequence[str]],
) -> str:
    """HTML of a document that becomes a section of a page.

    Headings move one level down and get ids under `name`. The first table row whose first cell is a key of
    `anchors` gets that id. Words in table cells that are keys of `links` lead to that address. A row says
    which circuits it is about: `circuits` holds them by designation.
    """
    tokens = _parser().parse(text)
    _headings(tokens, name)
    _tables(tokens)
    _anchors(tokens, dict(anchors))
    _circuits(tokens, circuits)
    _links(tokens, links)
    made = str(_parser().renderer.render(_wrapped(tokens), _parser().options, {}))
    return OTHER_DOCUMENT.sub(r'href="#\1"', made)


def slug(text: str) -> str:
    """`Near the battery` → `near-the-battery`."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")


def _headings(tokens: Sequence[Token], name: str) -> None:
    taken: dict[str, int] = {}
    for n, token in enumerate(tokens):
        if token.type not in ("heading_open", "heading_close"):
            continue
        level = int(token.tag[1])
        token.tag = f"h{min(level + 1, 6)}"
        if token.type == "heading_open" and level > 1:
            base = f"{name}-{slug(tokens[n + 1].content)}"
            taken[base] = taken.get(base, 0) + 1
            token.attrSet("id", base if taken[base] == 1 else f"{base}-{taken[base]}")


def _tables(tokens: Sequence[Token]) -> None:
    """Mark cells with the heading of their column, cells to fill in, boxes to tick; tables by their width."""
    heads: list[str] = []
    column, rows, opened = 0, 0, tokens[0] if tokens else None
    longest: dict[int, int] = {}
    for n, token in enumerate(tokens):
        if token.type == "table_open":
            heads, rows, opened, longest = [], 0, token, {}
        elif token.type == "thead_close" and opened is not None:
            opened.attrSet(
                "class", "wide" if len(heads) >= WIDE_FROM else "fold" if len(heads) > 2 else "pair"
            )
        elif token.type == "tr_open":
            column, rows = 0, rows + 1
        elif token.type == "table_close" and opened is not None and rows > LONG_FROM:
            opened.meta["half"] = _half(sum(longest.values()) + 2 * len(longest))
        elif token.type == "th_open":
            heads.append(plain(tokens[n + 1]))
            token.attrSet("scope", "col")
        elif token.type == "td_open":
            content = plain(tokens[n + 1])
            room = len(content) or BY_HAND
            longest[column] = max(longest.get(column, len(heads[column])), room)
            _cell(token, content, heads[column])
            column += 1


def _half(characters: int) -> str:
    """Where two columns of such a table find room: on any page, on one across, or on none."""
    return "half" if characters <= HALF_UPRIGHT else "half-across" if characters <= HALF_ACROSS else ""


def _cell(token: Token, content: str, heading: str) -> None:
    token.attrSet("data-label", heading)
    if content in MARKED:
        token.attrSet("class", MARKED[content])
    align = token.attrGet("style")
    if align:
        token.attrs.pop("style")
        token.attrJoin("class", "number")


def plain(inline: Token) -> str:
    """The words of an inline token, without markup."""
    return "".join(child.content for child in inline.children or [])


def _rows(tokens: Sequence[Token]) -> Iterator[tuple[Token, str]]:
    """(row, words of its first cell) of every row in the body of a table."""
    for n, token in enumerate(tokens):
        if token.type == "tr_open" and tokens[n + 1].type == "td_open":
            yield token, plain(tokens[n + 2])


def _anchors(tokens: Sequence[Token], anchors: dict[str, str]) -> None:
    for row, first in _rows(tokens):
        if first in anchors:
            row.attrSet("id", anchors.pop(first))


def _circuits(tokens: Sequence[Token], circuits: Mapping[str, Sequence[str]]) -> None:
    """A row is about the circuits of its first cell, or, where that names none, about all that it names."""
    if not circuits:
        return
    words = _words(circuits)
    for start, end in _spans(tokens):
        cells = [plain(token) for token in tokens[start:end] if token.type == "inline"]
        first, rest = words.findall(cells[0]), [word for cell in cells for word in words.findall(cell)]
        found = [number for word in first or rest for number in circuits[word]]
        if found:
            tokens[start].attrSet("data-circuit", " ".join(dict.fromkeys(found)))


def _spans(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """(first token, last token) of every row in the body of a table."""
    start = 0
    for n, token in enumerate(tokens):
        if token.type == "tr_open":
            start = n
        elif token.type == "tr_close" and tokens[start + 1].type == "td_open":
            yield start, n


def _words(known: Iterable[str]) -> re.Pattern[str]:
    """Any of some designations where it stands alone, the longest first."""
    longest_first = sorted(known, key=lambda word: (-len(word), word))
    return re.compile(rf"(?<![\w.])({'|'.join(map(re.escape, longest_first))})(?![\w.])")


def _links(tokens: Sequence[Token], links: Mapping[str, str]) -> None:
    if not links:
        return
    words = _words(links)
    for n, token in enumerate(tokens):
        if token.type == "inline" and tokens[n - 1].type == "td_open":
            children = token.children or []
            token.children = [piece for child in children for piece in _linked(child, words, links)]


def _linked(token: Token, words: re.Pattern[str], links: Mapping[str, str]) -> Iterator[Token]:
    if token.type != "text":
        yield token
        return
    for piece in words.split(token.content):
        if piece in links:
            yield Token("link_open", "a", 1, attrs={"href": links[piece]})
            yield Token("text", "", 0, content=piece)
            yield Token("link_close", "a", -1)
        elif piece:
            yield Token("text", "", 0, content=piece)


def _wrapped(tokens: Sequence[Token]) -> list[Token]:
    """Each table in a box that scrolls by itself, so that the page never does sideways."""
    found: list[Token] = []
    for token in tokens:
        if token.type == "table_open":
            kind = " ".join(filter(None, ("table", token.meta.get("half"))))
            found.append(Token("table_box", "div", 1, attrs={"class": kind}, block=True))
        found.append(token)
        if token.type == "table_close":
            found.append(Token("table_box", "div", -1, block=True))
    return found
