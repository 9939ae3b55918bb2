"""The owner's sheet as PDF: two sides on either paper, whole, legible; and what happens when that cannot be."""

from __future__ import annotations

import hashlib
import importlib.abc
import os
import pathlib
import subprocess
import sys
from typing import Any

import pytest
from sample_packets import EXAMPLES, NAMES, ROOT, packet
from sample_pdfs import need_engine, pdf_of, reader, squeezed, texts
from test_print import PAPERS, smallest

from buildspec import cli
from buildspec.compile import pdf
from buildspec.documents import handover
from buildspec.errors import UsageError
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
    return dict(pdf.files({"handover.html": handover.html(made).encode()}, made))["handover.pdf"]


def words(view: dict[str, Any]) -> list[str]:
    """Everything that the owner is told."""
    said = [view["name"], view["meta"], view["service"], view["start"]["caution"], view["park"]["note"]]
    said += [view["later"]["lead"], view["fuses"]["lead"], *view["call"].values()]
    said += [view["payload"][part] for part in ("big", "small")]
    said += [
        row[part] for name in ("fuses", "later") for row in view[name]["rows"] for part in ("what", "text")
    ]
    said += [
        key[part] for panel in view["panels"] for key in panel["keys"] for part in ("name", "does", "when")
    ]
    said += ["".join(step.values()) for step in view["start"]["steps"]] + view["notes"]
    said += [part for number in view["park"]["numbers"] for part in (number["big"], number["small"])]
    said += [row[part] for s in view["sections"] for row in s["rows"] for part in ("what", "text")]
    return [squeezed(plain(text)) for text in said]


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
        assert smallest(page) >= 8.49
    whole = "".join(texts(content))
    view = handover.view(made)
    assert len(words(view)) > 60
    assert [text for text in words(view) if text not in whole] == []
    assert "side1of2" in texts(content)[0] and "side2of2" in texts(content)[1]


def test_too_many_notes_are_said_and_nothing_is_cut() -> None:
    with pytest.raises(
        UsageError, match=r"does not fit on two sides at 8\.5 pt; shorten the notes of the job"
    ):
        handover.html(with_notes(packet(EXAMPLES[0]), 60))


def lengthened(html: str, rows: int) -> str:
    """The page with more rows on its second side than anything has reckoned with."""
    more = "".join(
        f'<p class="row"><b>Row {n}:</b> what stands in this row of the list</p>' for n in range(rows)
    )
    return html.replace('<div class="columns">', f'<div class="columns">{more}', 1)


def test_type_shrinks_until_it_fits_and_no_further() -> None:
    need_engine()
    html = handover.html(packet(EXAMPLES[1]))
    sizes = [
        smallest(reader(pdf.owners_sheet("handover.html", lengthened(html, n))).pages[1]) for n in (0, 4)
    ]
    assert sizes[0] >= sizes[1] >= 8.49


def test_what_does_not_fit_at_the_least_size_is_said() -> None:
    need_engine()
    html = lengthened(handover.html(packet(EXAMPLES[1])), 70)
    with pytest.raises(
        UsageError, match=r"handover\.html does not fit on two sides at 8\.5 pt \(\d sides\); shorten"
    ):
        pdf.owners_sheet("handover.html", html)


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
for name, content in pdf.files(pages, packet):
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
