"""The owner's sheet as PDF: two sides on either paper, whole, legible; and what happens when that cannot be."""

from __future__ import annotations

import hashlib
import html
import importlib.abc
import os
import pathlib
import re
import subprocess
import sys
from collections.abc import Iterator
from typing import Any

import pytest
from sample_packets import EXAMPLES, NAMES, ROOT, packet
from sample_pdfs import need_engine, pdf_of, reader, squeezed, texts
from test_print import PAPERS, smallest

from buildspec import cli
from buildspec.compile import pdf
from buildspec.compile.spoken import in_language
from buildspec.documents import handover
from buildspec.packet import Packet
from buildspec.tongues import plain

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)


def on(path: pathlib.Path, paper: str) -> Packet:
    """The packet of an example on a paper."""
    made = packet(path)
    build = made.sized.build
    sized = made.sized._replace(build=build._replace(practice=build.practice._replace(paper=paper)))
    return made._replace(sized=sized)


def with_notes(made: Packet, count: int) -> Packet:
    build = made.sized.build
    notes = tuple(
        f"Note {n}: keep the vents of the locker free at all times of the year." for n in range(count)
    )
    job = build.job._replace(notes=notes)
    return made._replace(sized=made.sized._replace(build=build._replace(job=job)))


def sheet(made: Packet) -> bytes:
    return dict(pdf.files({"handover.html": handover.html(made).encode()}))["handover.pdf"]


NOT_TOLD = ("picture", "id", "use", "swatch", "title", "headline", "number")
"""Parts of the view that are drawn, sort things, or stand in the frame of a document."""
UNSEEN = ("place", "key", "keys", "service")
"""Labels of the Markdown sheet alone."""


def told(value: Any) -> Iterator[str]:
    """Every text of a view."""
    if isinstance(value, dict):
        for key, one in value.items():
            if key not in NOT_TOLD:
                yield from told(one)
    elif isinstance(value, (list, tuple)):
        for one in value:
            yield from told(one)
    elif isinstance(value, str) and value:
        yield value


def words(view: dict[str, Any]) -> list[str]:
    """Everything that the owner is told; a step in one piece, with the key that is held in it."""
    labels = {key: text for key, text in view["labels"].items() if key not in UNSEEN}
    fuses = view["fuses"] if view["fuses"]["limited"] else {**view["fuses"], "limited_lead": ""}
    start = {**view["start"], "steps": ["".join(step.values()) for step in view["start"]["steps"]]}
    return list(told({**view, "labels": labels, "start": start, "fuses": fuses}))


def lacking(view: dict[str, Any], text: str) -> list[str]:
    return [said for said in words(view) if squeezed(plain(said)) not in text]


def page_text(page: str) -> str:
    """What a reader of the page sees, without spaces."""
    body = re.sub(r"<(style|svg|title)\b.*?</\1>", "", page, flags=re.S)
    return squeezed(html.unescape(re.sub(r"<[^>]+>", "", body)))


SPOKEN = [(path, lang) for path in EXAMPLES for lang in packet(path).sized.build.practice.languages]


@pytest.mark.parametrize(
    ("path", "lang"), SPOKEN, ids=[f"{path.parent.name}-{lang}" for path, lang in SPOKEN]
)
def test_every_language_of_every_example_takes_two_sides_with_every_text(
    path: pathlib.Path, lang: str
) -> None:
    """Each text of the view is on the page and in its PDF, at 7 pt or more."""
    need_engine()
    made = in_language(packet(path), lang)
    view, page, content = handover.view(made), handover.html(made), sheet(made)
    assert len(words(view)) > 150
    assert lacking(view, page_text(page)) == []
    assert lacking(view, "".join(texts(content))) == []
    assert '<main class="long">' not in page
    pages = reader(content).pages
    assert len(pages) == 2
    assert min(smallest(side) for side in pages) >= 6.99


@EACH
@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_two_sides_with_every_word(path: pathlib.Path, paper: str) -> None:
    need_engine()
    made = on(path, paper)
    own = paper == packet(path).sized.build.practice.paper
    content = pdf_of(path, "handover.pdf") if own else sheet(made)
    pages = reader(content).pages
    assert len(pages) == 2
    for page in pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            PAPERS[paper], abs=0.5
        )
        assert smallest(page) >= 6.99
    assert lacking(handover.view(made), "".join(texts(content))) == []
    assert "side1of2" in texts(content)[0] and "side2of2" in texts(content)[1]


def test_too_many_notes_take_more_sides_and_nothing_is_cut() -> None:
    need_engine()
    made = with_notes(packet(EXAMPLES[0]), 120)
    assert '<main class="long">' in handover.html(made)
    content = sheet(made)
    assert len(reader(content).pages) > 2
    assert lacking(handover.view(made), "".join(texts(content))) == []
    assert min(smallest(side) for side in reader(content).pages) >= 6.99


def lengthened(page: str, rows: int) -> str:
    """The page with more rows on its second side than anything has reckoned with."""
    more = "".join(
        f'<p class="row"><b>Row {n}:</b> what stands in this row of the list</p>' for n in range(rows)
    )
    first, cut, second = page.partition('<section class="side second">')
    return first + cut + second.replace('<div class="columns">', f'<div class="columns">{more}', 1)


def test_type_shrinks_until_it_fits_and_no_further() -> None:
    need_engine()
    page = handover.html(packet(EXAMPLES[0]))
    sheets = [reader(pdf.owners_sheet(lengthened(page, n))) for n in (0, 16)]
    assert [len(one.pages) for one in sheets] == [2, 2]
    sizes = [smallest(one.pages[1]) for one in sheets]
    assert sizes[0] > sizes[1] >= 6.99


def test_what_does_not_fit_at_the_least_size_flows_on() -> None:
    need_engine()
    content = pdf.owners_sheet(lengthened(handover.html(packet(EXAMPLES[1])), 150))
    assert len(reader(content).pages) > 2
    whole = "".join(texts(content))
    assert all(f"Row{n}:whatstandsinthisrow" in whole for n in range(150))
    assert min(smallest(side) for side in reader(content).pages) >= 6.99


class Missing(importlib.abc.MetaPathFinder):
    """Stands for a machine without a package, or without the libraries under it."""

    def __init__(self, error: Exception) -> None:
        self.error = error

    def find_spec(self, name: str, path: Any = None, target: Any = None) -> None:
        if name == "weasyprint":
            print("advice of the package itself")
            raise self.error


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (ModuleNotFoundError("No module named 'weasyprint'"), "pip install 'buildspec[pdf]'"),
        (OSError("cannot load library 'libpango-1.0-0'"), "libpango-1.0-0 libpangoft2-1.0-0"),
    ],
)
def test_what_is_missing_is_said_and_nothing_is_written(
    error: Exception,
    said: str,
    tmp_path: pathlib.Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    for name in [n for n in sys.modules if n.split(".")[0] == "weasyprint"]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(sys, "meta_path", [Missing(error), *sys.meta_path])
    out = tmp_path / "packet"
    assert cli.main(["compile", str(EXAMPLES[0]), "--pdf", "--out", str(out)]) == 2
    told = capsys.readouterr()
    assert said in told.err and "advice" not in told.out
    assert list(tmp_path.iterdir()) == []


PROGRAM = """
import hashlib, pathlib, sys
sys.path.insert(0, {tests!r})
from sample_builds import built, spec
from buildspec import drawings, compile as compiling
from buildspec.compile import pdf
from buildspec.drawings import legend
from buildspec.packet import Packet
sized = built(spec(1))
packet = Packet(sized, (), drawings.sheets(sized), legend.strips(sized))
pages = {{n: t.encode() for n, t in compiling.texts(packet) if n.endswith(".html")}}
for name, content in pdf.files(pages):
    print(name, hashlib.sha256(content).hexdigest(), len(content))
"""


def made_by(folder: pathlib.Path, **changed: str) -> subprocess.Popen[str]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **changed}
    program = PROGRAM.format(tests=str(ROOT / "tests"))
    return subprocess.Popen(
        [sys.executable, "-c", program], cwd=folder, env=environment, stdout=subprocess.PIPE, text=True
    )


def test_the_same_bytes_on_another_day_in_another_folder(tmp_path: pathlib.Path) -> None:
    need_engine()
    with (
        made_by(ROOT, PYTHONHASHSEED="1", TZ="UTC") as one,
        made_by(
            tmp_path, PYTHONHASHSEED="77", TZ="Asia/Tokyo", SOURCE_DATE_EPOCH="86400", LC_ALL="C"
        ) as other,
    ):
        first, again = one.communicate()[0], other.communicate()[0]
    assert one.returncode == other.returncode == 0
    assert len(first.splitlines()) == 4
    assert first == again
    assert hashlib.sha256(b"").hexdigest() not in first
