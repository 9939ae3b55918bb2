"""The packet on paper, as an independent reader of PDF finds it: pypdf."""

from __future__ import annotations

import itertools
import pathlib
import re
import shutil
import subprocess
from collections.abc import Callable, Iterator
from typing import Any

import pypdf
import pytest
from sample_packets import EXAMPLES, NAMES, packet
from sample_pdfs import need_engine, pages_of, pdf_of, reader, rows_of, squeezed, texts
from test_accessible_pdf import OF_THE_PACKET

from buildspec import documents

ONE = pytest.mark.parametrize("path", EXAMPLES[:1], ids=NAMES[:1])
"""The whole packet takes more than a minute to lay out."""
MM = 72 / 25.4
PAPERS = {"A4": (210 * MM, 297 * MM), "Letter": (8.5 * 72, 11 * 72)}
"""ISO 216 and ANSI/ASME Y14.1 A, in points."""
MADE = [
    *((path, name) for path in EXAMPLES for name in ("handover.pdf", "label-sheets.pdf", "fuse-lid.pdf")),
    (EXAMPLES[0], "packet.pdf"),
]
MADE_NAMES = [f"{path.parent.name}-{name}" for path, name in MADE]
DRAWN = ("Drawings", "Charts", "Place sheets")
"""Documents whose pages grow with the sheets and places of a build."""
MOST_PAGES = 85
"""Of everything else: what fits a ring binder with its tabs; common practice, no source."""
WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>')


@pytest.fixture(autouse=True)
def _engine() -> None:
    need_engine()


def outline(found: list[Any], document: pypdf.PdfReader, level: int = 1) -> Iterator[tuple[int, str, int]]:
    """(level, title, page) of every bookmark."""
    for one in found:
        if isinstance(one, list):
            yield from outline(one, document, level + 1)
        else:
            yield level, one.title, document.get_destination_page_number(one)


@ONE
def test_every_page_says_which_job_and_which_page_it_is(path: pathlib.Path) -> None:
    job = packet(path).sized.build.job
    pages = texts(pdf_of(path, "packet.pdf"))
    assert len(pages) > 20
    for n, text in enumerate(pages, start=1):
        assert squeezed(f"{job.number} · {job.title} · revision {job.revision}") in text, n
        assert f"page{n}of{len(pages)}" in text


@ONE
def test_documents_do_not_spread_over_more_paper_than_they_need(path: pathlib.Path) -> None:
    document = reader(pdf_of(path, "packet.pdf"))
    starts = [(title, page) for level, title, page in outline(document.outline, document) if level == 1]
    ends = [page for _, page in starts[1:]] + [len(document.pages)]
    taken = {title: end - page for (title, page), end in zip(starts, ends, strict=True)}
    assert all(taken[title] >= 1 for title in DRAWN)
    assert 20 < sum(count for title, count in taken.items() if title not in DRAWN) <= MOST_PAGES


@ONE
def test_each_document_and_sheet_has_its_bookmark_on_its_page(path: pathlib.Path) -> None:
    content = pdf_of(path, "packet.pdf")
    document = reader(content)
    marks = list(outline(document.outline, document))
    assert [title for level, title, _ in marks if level == 1] == [d.title for d in documents.catalogue()]
    assert all(squeezed(title) in texts(content)[page] for level, title, page in marks if level < 3)
    sheets = packet(path).sheets
    drawn = [page for level, title, page in marks if re.match(r"D\d+ ", title) and level == 2]
    assert len(drawn) == len(set(drawn)) == len(sheets)


@ONE
def test_no_row_is_split_and_none_is_lost(path: pathlib.Path) -> None:
    rows = rows_of(pages_of(path)["index.html"]).rows
    pages = texts(pdf_of(path, "packet.pdf"))
    assert len(rows) > 300
    lost = [row for _, _, row in rows if not any(row in page for page in pages)]
    assert lost == []


@ONE
def test_a_table_that_runs_on_repeats_its_head(path: pathlib.Path) -> None:
    found = rows_of(pages_of(path)["index.html"])
    pages = texts(pdf_of(path, "packet.pdf"))
    title = {d.slug: squeezed(d.title) for d in documents.catalogue()}
    running = 0
    for table, head in found.heads.items():
        mine = {(section, row) for number, section, row in found.rows if number == table and len(row) > 40}
        there = {n for n, page in enumerate(pages) for s, row in mine if row in page and title[s] in page}
        running += len(there) > 1
        assert all(head in pages[n] for n in there), (head, there)
    assert running >= 5


@ONE
def test_no_text_of_the_page_is_lost(path: pathlib.Path) -> None:
    """Paragraphs, list items and headings; those that run over a page are looked for by halves."""
    pages = texts(pdf_of(path, "packet.pdf"))
    whole = "\n".join(pages)
    blocks = rows_of(pages_of(path)["index.html"]).blocks
    assert len(blocks) > 100
    lost = [
        b
        for b in blocks
        if b not in whole and not any(b[:k] in whole and b[k:] in whole for k in range(1, len(b)))
    ]
    assert lost == []


@ONE
def test_drawings_stand_on_pages_of_their_own_at_true_size(path: pathlib.Path) -> None:
    """Type on the sheets is 7.1 pt or more; a page upright or a scaled drawing would make it less."""
    content = pdf_of(path, "packet.pdf")
    document = reader(content)
    marks = {title: page for _, title, page in outline(document.outline, document)}
    for sheet in packet(path).sheets:
        page = marks[f"D{sheet.number} {sheet.title}"]
        box = document.pages[page].mediabox
        assert float(box.width) == pytest.approx(sheet.width_mm * MM, abs=0.5)
        assert float(box.height) == pytest.approx(sheet.height_mm * MM, abs=0.5)
        said = [squeezed(t) for t in re.findall(r"<text[^>]*>([^<&]+)</text>", sheet.svg)]
        assert said and all(text in texts(content)[page] for text in said)
        assert smallest(document.pages[page]) >= 7.0


@ONE
def test_nothing_is_printed_over_the_edge_of_a_drawing(path: pathlib.Path, tmp_path: pathlib.Path) -> None:
    """Job and page stand below the frame at the left and in the middle; zones above it stay as drawn."""
    if shutil.which("pdftotext") is None:
        pytest.skip("poppler is not installed")
    content = pdf_of(path, "packet.pdf")
    file = tmp_path / "packet.pdf"
    file.write_bytes(content)
    document = reader(content)
    marks = {title: page + 1 for _, title, page in outline(document.outline, document)}
    for sheet in packet(path).sheets:
        number = marks[f"D{sheet.number} {sheet.title}"]
        found = [w for w in words_of(file, number) if w[1] > MM]  # the caption in the corner is clipped away
        high = sheet.height_mm * MM
        edges = [w for w in found if w[1] + w[3] < 15 * MM or w[1] + w[3] > 2 * (high - 9 * MM)]
        below = " ".join(word for _, top, _, _, word in edges if top > high / 2)
        assert f"page {number} of {len(document.pages)}" in below and "checked as drawn" in below
        assert all(word.isdigit() for _, top, _, _, word in edges if top < high / 2)
        over = [
            (a[4], b[4])
            for a, b in itertools.combinations(edges, 2)
            if min(a[2], b[2]) - max(a[0], b[0]) > 0.1 and min(a[3], b[3]) - max(a[1], b[1]) > 0.1
        ]
        assert over == [], sheet.title


def words_of(file: pathlib.Path, page: int) -> list[tuple[float, float, float, float, str]]:
    """(left, top, right, bottom [pt], word) of every word on a page."""
    command = ["pdftotext", "-bbox", "-f", str(page), "-l", str(page), str(file), "-"]
    said = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    return [(float(a), float(b), float(c), float(d), word) for a, b, c, d, word in WORD.findall(said)]


def smallest(page: pypdf.PageObject) -> float:
    """Least type size on a page [pt]: the font's, through both matrices."""
    sizes: list[float] = []

    def seen(text: str, cm: list[float], tm: list[float], _font: Any, size: float) -> None:
        if text.strip():
            sizes.append(abs(size * tm[3] * cm[3]) or abs(size * tm[1] * cm[2]))

    page.extract_text(visitor_text=seen)
    return min(sizes)


@pytest.mark.parametrize(("path", "name"), MADE, ids=MADE_NAMES)
def test_each_pdf_is_tagged_and_says_its_language_and_title(path: pathlib.Path, name: str) -> None:
    """ISO 14289-1 (PDF/UA-1), clauses 5, 7.1 and 7.2."""
    document = reader(pdf_of(path, name))
    root: Any = document.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"] is not False and root["/MarkInfo"]["/Marked"]
    owners = packet(path).sized.build.practice.languages[0]
    assert root["/Lang"] == (owners if name == "handover.pdf" else "en")
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert root["/StructTreeRoot"]["/K"]
    assert b"pdfuaid:part" in root["/Metadata"].get_data()
    assert document.metadata is not None and document.metadata.title
    assert "/CreationDate" not in document.metadata and "/ModDate" not in document.metadata


@pytest.mark.parametrize(("path", "name"), MADE, ids=MADE_NAMES)
def test_paper_is_that_of_the_practice(path: pathlib.Path, name: str) -> None:
    want = PAPERS[packet(path).sized.build.practice.paper]
    for page in reader(pdf_of(path, name)).pages:
        size = sorted((float(page.mediabox.width), float(page.mediabox.height)))
        assert size == pytest.approx(want, abs=0.5)


@ONE
@pytest.mark.parametrize("check", OF_THE_PACKET, ids=[check.__name__ for check in OF_THE_PACKET])
def test_the_packet_can_be_listened_to(
    path: pathlib.Path, check: Callable[[pathlib.Path, str], None]
) -> None:
    check(path, "packet.pdf")
