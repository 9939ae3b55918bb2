"""Form of the charts: legible, named, told apart without colour; and what is said where a chart has no figures."""

from __future__ import annotations

import pathlib
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from itertools import combinations

import pytest
import sample_builds
import test_mass
from chart_readings import SVG, drawable, found, group, has, sized_of
from sample_packets import EXAMPLES, NAMES, packet

from buildspec import compile as compiling
from buildspec.documents import charts as document
from buildspec.drawings.charts import chart_set, charts, naming, sheet
from buildspec.drawings.marks import Box, Page, Rect, Text
from buildspec.drawings.palette import PAPER
from buildspec.model import Sized

EACH = pytest.mark.parametrize("path", EXAMPLES, ids=NAMES)
POINT = 254 / 72
"""In tenths of a millimetre."""


# ------------------------------------------------------------------------------ what is missing


def test_charts_without_their_figures_are_missing_and_the_document_says_why() -> None:
    data = sample_builds.spec(0, houses=0, chargers=0, panels=0, blocks=0, alternator=False)
    sized = sample_builds.built(data)
    names = [page.id.partition("-")[2] for page in chart_set.pages(sized)]
    assert names == ["battery-1"], "a start battery alone still stands until it no longer starts"
    said = " ".join(document.missing(sized))
    for words in ("no protective device", "no load in this build", "wheelbase, limits", "gross rating"):
        assert words in said, words


def test_places_without_a_station_are_named() -> None:
    sized = test_mass.build(cargo=[{"what": "sand", "mass": "10 kg", "at": "bulkhead"}])
    assert any("no station for bulkhead" in line for line in document.missing(sized))


# ------------------------------------------------------------------------------ form


def texts(page: Page) -> Iterator[tuple[str, Text]]:
    for one in page.groups:
        for mark in one.marks:
            if isinstance(mark, Text):
                yield one.id, mark


BUILDS = {name: lambda path=path: sized_of(path) for name, path in zip(NAMES, EXAMPLES, strict=True)}
BUILDS["generated"] = lambda: sample_builds.built(sample_builds.spec(**sample_builds.CASES["usual"]))


@pytest.fixture(scope="module", params=list(BUILDS))
def pages(request: pytest.FixtureRequest) -> tuple[Sized, tuple[Page, ...]]:
    sized = BUILDS[request.param]()
    return sized, chart_set.pages(sized)


def test_no_text_meets_another_or_leaves_the_frame(pages: tuple[Sized, tuple[Page, ...]]) -> None:
    sized, found_pages = pages
    inner = sheet.area(sized.build)
    for page in found_pages:
        boxes = [(name, t.text, naming.text_box(t)) for name, t in texts(page) if "title-block" not in name]
        for name, words, box in boxes:
            inside = box.left >= inner.left and box.right <= inner.right
            assert inside and box.top >= inner.top and box.bottom <= inner.bottom, (page.id, name, words)
        for (one, a, box), (other, b, beside) in combinations(boxes, 2):
            assert not naming.meets(box.grown(-1.0), beside.grown(-1.0)), (page.id, one, a, other, b)


def test_every_text_can_be_read(pages: tuple[Sized, tuple[Page, ...]]) -> None:
    """7 pt and more (2.47 mm), 4.5 : 1 against paper, bands and fills (WCAG 2.1, 1.4.3)."""
    _, found_pages = pages
    for page in found_pages:
        for name, text in texts(page):
            assert text.size >= 7 * POINT, (page.id, name, text.text)
            assert contrast(text.colour, PAPER) >= 4.5, (name, text.colour)
            for ground in grounds(page, naming.text_box(text)):
                assert contrast(text.colour, ground) >= 4.5, (page.id, name, text.text, ground)


def grounds(page: Page, box: Box) -> Iterator[str]:
    """Fills that lie under a text."""
    for one in page.groups:
        for mark in one.marks:
            if isinstance(mark, Rect) and mark.fill not in ("none", PAPER) and naming.meets(mark.box, box):
                yield mark.fill


def contrast(one: str, other: str) -> float:
    """WCAG 2.1, relative luminance."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def luminance(colour: str) -> float:
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


@EACH
def test_lines_differ_in_more_than_colour(path: pathlib.Path) -> None:
    """Within a field no two kinds of line share width, dash and shape: told apart in a grey print."""
    for one in drawable(sized_of(path)):
        root = found(packet(path).charts, one.device.designation, log=True).root
        looks = {}
        for part in ("load", "usual", "conductor", "far", "soonest"):
            if has(root, f"{one.device.designation}-{part}"):
                line = next(group(root, f"{one.device.designation}-{part}").iter(f"{SVG}path"))
                looks[part] = (line.get("stroke-width"), line.get("stroke-dasharray"))
        assert len(set(looks.values())) == len(looks), looks


@EACH
def test_every_chart_is_described_and_named_once(path: pathlib.Path) -> None:
    for one in packet(path).charts:
        root = ET.fromstring(one.svg)
        ids = [e.get("id") for e in root.iter() if e.get("id")]
        assert len(ids) == len(set(ids))
        for part in (root, *root.iter(f"{SVG}g")):
            assert (part.findtext(f"{SVG}title") or "").strip() and (
                part.findtext(f"{SVG}desc") or ""
            ).strip()


@EACH
def test_the_packet_holds_the_numbers_and_every_chart_behind_them(path: pathlib.Path) -> None:
    made = packet(path)
    files = compiling.files_of(made)
    html = files["index.html"].decode()
    for one in made.charts:
        assert files[f"drawings/{one.id}.svg"].decode() == one.svg
        assert f'<h3 id="charts-c{one.number}-in-numbers"' in html
    last = html.index(f'<h3 id="charts-c{made.charts[-1].number}-in-numbers"')
    drawn = [html.index(f'<figure id="{one.id}"') for one in made.charts]
    assert last < drawn[0] and drawn == sorted(drawn)


def test_the_same_build_gives_the_same_bytes() -> None:
    first, second = (charts(sample_builds.built(sample_builds.spec(8, links=1))) for _ in range(2))
    assert [s.svg for s in first] == [s.svg for s in second] and len(first) > 2
