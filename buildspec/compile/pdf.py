"""Pages of a packet → PDF: tagged, with bookmarks, the same bytes for the same pages. Needs the extra `pdf`."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator, Mapping
from typing import Any

from buildspec.compile import tagging
from buildspec.compile.paper import for_paper, no_collection
from buildspec.compile.typesetting import engine, fonts

NAMES = {"index.html": "packet.pdf", "label-sheets.html": "label-sheets.pdf", "fuse-lid.html": "fuse-lid.pdf"}
"""Page → its PDF; the owner's sheet is set apart, since it must fit on two sides."""
OWNER = re.compile(r"handover(?:\.([^/]+))?\.html")
SIDES = 2
FLOOR_PT = 7.0
"""No type on the owner's sheet is smaller."""
STEP_PT = 0.25
SIZE = re.compile(r"\.(first|second) \{ font-size: ([\d.]+)pt; \}")
LONG = '<main class="long">'
"""In the page of a sheet that takes more than two sides at the least size."""
FLOW = (
    "@page { margin: 11mm 11mm 17mm; @bottom-center { content: element(foot); width: 100%; vertical-align: top; } }"
    " .side { width: auto; height: auto; min-height: 0; padding: 0; }"
    " footer { position: running(foot); left: 0; right: 0; }"
)
"""The foot stands in the margin, so that what fills a side can never reach or push it off the paper."""


def files(pages: Mapping[str, bytes]) -> Iterator[tuple[str, bytes]]:
    """(name, bytes) of each PDF of the pages that are there. Raises UsageError where the engine is missing."""
    for name in sorted(pages):
        if name in NAMES:
            yield NAMES[name], written(laid_out(pages[name].decode()), pages[name])
        elif OWNER.fullmatch(name):
            yield name.removesuffix(".html") + ".pdf", owners_sheet(pages[name].decode())


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


def owners_sheet(html: str) -> bytes:
    """The sheet on two sides, as large as it fits; on more where the page itself says that two are too few."""
    document = None
    for first, second in sizes(html):
        sized = f".first {{ font-size: {first}pt; }} .second {{ font-size: {second}pt; }}"
        document = laid_out(html.replace("</style>", f"{FLOW}{sized}</style>", 1))
        if len(document.pages) == SIDES or LONG in html:
            break
    return written(document, html.encode())


def sizes(html: str) -> Iterator[tuple[float, float]]:
    """Type sizes of both sides, from those of the page down to the least."""
    found = {side: float(size) for side, size in SIZE.findall(html)}
    first, second = found["first"], found["second"]
    while True:
        yield first, second
        if max(first, second) <= FLOOR_PT:
            return
        first, second = max(FLOOR_PT, first - STEP_PT), max(FLOOR_PT, second - STEP_PT)
