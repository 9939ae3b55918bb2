"""Pages of a packet → PDF: tagged, with bookmarks, the same bytes for the same pages. Needs the extra `pdf`."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.compile import tagging
from buildspec.compile.paper import for_paper, no_collection
from buildspec.compile.spoken import in_language
from buildspec.compile.typesetting import engine, fonts
from buildspec.documents import handover
from buildspec.errors import UsageError
from buildspec.packet import Packet

NAMES = {"index.html": "packet.pdf", "label-sheets.html": "label-sheets.pdf", "fuse-lid.html": "fuse-lid.pdf"}
"""Page → its PDF; the owner's sheet is set apart, since it must fit on two sides."""
OWNER = re.compile(r"handover(?:\.([^/]+))?\.html")
SIDES = 2
FLOOR_PT = 8.5
"""No type on the owner's sheet is smaller."""
STEP_PT = 0.25
SIZE = re.compile(r"\.(first|second) \{ font-size: ([\d.]+)pt; \}")
LEFT_OUT = 'left-out"'
"""Marks a line that says how many rows the sheet leaves to the packet."""


def files(pages: Mapping[str, bytes], packet: Packet) -> Iterator[tuple[str, bytes]]:
    """(name, bytes) of each PDF of the pages that are there.

    Raises UsageError where the engine is missing, and where the owner's sheet does not fit on two sides.
    """
    for name in sorted(pages):
        if name in NAMES:
            yield NAMES[name], written(laid_out(pages[name].decode()), pages[name])
        elif OWNER.fullmatch(name):
            yield name.removesuffix(".html") + ".pdf", best_sheet(name, pages[name].decode(), packet)


def best_sheet(name: str, html: str, packet: Packet) -> bytes:
    """The sheet with every row where that fits: widths from a table are cautious. Else as the page has it."""
    if LEFT_OUT not in html:
        return owners_sheet(name, html)
    found = OWNER.fullmatch(name)
    spoken = in_language(packet, found[1]) if found and found[1] else packet
    try:
        return owners_sheet(name, handover.html(spoken, whole=True))
    except UsageError:
        return owners_sheet(name, html)


def laid_out(html: str) -> Any:
    """The page laid out on paper; nothing outside of it is read."""
    weasyprint = engine()
    nothing = weasyprint.urls.URLFetcher(allowed_protocols=())
    with no_collection():
        return weasyprint.HTML(string=for_paper(html), url_fetcher=nothing).render(font_config=fonts())


def written(document: Any, source: bytes) -> bytes:
    """The PDF of what was laid out. Its identifier follows from the page it is made from; it holds no date."""
    with no_collection():
        made: bytes = document.write_pdf(
            pdf_variant="pdf/ua-1",
            pdf_identifier=hashlib.sha256(source).digest()[:16],
            finisher=tagging.finish,
        )
    return made


def owners_sheet(name: str, html: str) -> bytes:
    """The sheet on two sides, as large as it fits; raises UsageError where it does not fit at the least size."""
    for first, second in sizes(html):
        style = (
            ".side { height: auto; min-height: var(--side); overflow: visible; padding-bottom: 16mm; }"
            f".first {{ font-size: {first}pt; }} .second {{ font-size: {second}pt; }}"
        )
        document = laid_out(html.replace("</style>", f"{style}</style>", 1))
        if len(document.pages) == SIDES:
            return written(document, html.encode())
    raise UsageError(too_long(name, f"{len(document.pages)} sides"))


def sizes(html: str) -> Iterator[tuple[float, float]]:
    """Type sizes of both sides, from those of the page down to the least."""
    found = {side: float(size) for side, size in SIZE.findall(html)}
    first, second = found["first"], found["second"]
    while True:
        yield first, second
        if max(first, second) <= FLOOR_PT:
            return
        first, second = max(FLOOR_PT, first - STEP_PT), max(FLOOR_PT, second - STEP_PT)


def too_long(name: str, how: str) -> str:
    return (
        f"{name} does not fit on two sides at {FLOOR_PT} pt ({how}); shorten the notes of the job and the "
        "`owner` texts of accessories, or compile without --pdf"
    )
