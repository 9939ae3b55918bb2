"""The sheet of places and looms: front to rear, every run once with its length, its wires, its holes."""

from __future__ import annotations

import math
import pathlib
import re
from collections.abc import Callable

import pytest
from generated import Shape, checked
from generated import spec as random_spec
from sample_builds import CASES, built, example, spec

from buildspec import show
from buildspec.drawings import checks, looms_columns, looms_table, sheet_set
from buildspec.drawings.marks import Box, Group, Page, Rect, Stroke, Text
from buildspec.looms import holes
from buildspec.model import Sized

ROOT = pathlib.Path(__file__).parent.parent
EXAMPLES = sorted((ROOT / "examples").glob("*/*.build.yaml"))
BUILDS: dict[str, Callable[[], Sized]] = {
    **{path.stem: lambda path=path: example(path) for path in EXAMPLES},
    "sixty": lambda: built(spec(**CASES["sixty"])),
    **{f"seed {n}": lambda n=n: checked(random_spec(n, Shape(2, 1, 14, 2)))[0] for n in range(3, 9)},
    "thirty places": lambda: many_places(30),
    "ninety places": lambda: many_places(90),
}


def many_places(count: int) -> Sized:
    """A vehicle with a place every hand's width, each joined to one before it, and a circle closed."""
    data = spec(6)
    names = [f"spot-{n}" for n in range(count)]
    data["places"] |= {
        name: {"environment": "cabin", "station": f"{n * 0.05:.2f} m", "words": f"spot {n} on the long shelf"}
        for n, name in enumerate(names)
    }
    data["runs"] += [
        {"between": [names[n // 2] if n else "bulkhead", name], "length": "0.4 m"}
        for n, name in enumerate(names)
        if names[n // 2] != name or not n
    ]
    data["runs"].append({"between": [names[-1], "bulkhead"], "length": "9 m"})
    return built(data)


@pytest.fixture(scope="module", params=[*BUILDS])
def drawn(request: pytest.FixtureRequest) -> tuple[Sized, tuple[Page, ...]]:
    sized = BUILDS[request.param]()
    return sized, tuple(p for p in sheet_set.pages(sized) if p.title.startswith("Places and looms"))


Drawn = tuple[Sized, tuple[Page, ...]]


def texts(group: Group) -> list[str]:
    return [mark.text for mark in group.marks if isinstance(mark, Text)]


def groups(pages: tuple[Page, ...], pattern: str) -> list[Group]:
    return [g for p in pages for g in p.groups if re.fullmatch(rf"d\d+-{pattern}", g.id)]


def places_of(pages: tuple[Page, ...]) -> dict[str, Box]:
    return {g.title: g.body for g in groups(pages, "at-.+") if g.body is not None}


def test_there_is_such_a_sheet_and_nothing_lies_on_anything(drawn: Drawn) -> None:
    _, pages = drawn
    assert pages
    for page in pages:
        found = checks.checked(page)
        assert found[1:] == (0, 0, 0), (page.title, found)


def test_no_loom_runs_through_a_place_or_a_text(drawn: Drawn) -> None:
    """By hand: each straight piece as a rectangle against each box and each text."""
    _, pages = drawn
    for page in pages:
        boxes = [g.body for g in page.groups if g.body is not None]
        words = [checks.text_box(m) for g in page.groups for m in g.marks if isinstance(m, Text)]
        for group in groups((page,), r"R\d+"):
            for mark in group.marks:
                if not isinstance(mark, Stroke):
                    continue
                half = 0.0 if mark.colour == "#ffffff" else mark.width / 2
                for (x0, y0), (x1, y1) in zip(mark.points, mark.points[1:], strict=False):
                    assert x0 == x1 or y0 == y1, group.id
                    left, right = min(x0, x1) + 1, max(x0, x1) - 1
                    top, bottom = min(y0, y1) - half, max(y0, y1) + half
                    for box in (*boxes, *words):
                        apart = (
                            right <= box.left or left >= box.right or bottom <= box.top or top >= box.bottom
                        )
                        assert apart, (page.title, group.title, box)


def test_every_run_is_listed_once_with_its_length(drawn: Drawn) -> None:
    sized, pages = drawn
    rows = groups(pages, r"R\d+-row")
    assert len(rows) == len(sized.build.runs)
    for run, row in zip(sized.build.runs, rows, strict=True):
        assert show.length(run.length_m, sized.build.practice) in texts(row)
    tags = groups(pages, r"R\d+-tag")
    assert tags == [] or len(tags) == len(sized.build.runs)


def test_every_wire_stands_at_every_run_it_takes_and_nowhere_else(drawn: Drawn) -> None:
    sized, pages = drawn
    for number, run in enumerate(sized.build.runs, start=1):
        wanted = {
            w.designation
            for c in sized.build.circuits
            if not c.existing
            for w in (*c.feeds, *c.returns)
            if run in w.route.runs
        }
        listed = [
            text
            for g in groups(pages, rf"R{number}-[A-Z0-9]+")
            if g.circuit and " " not in g.circuit
            for text in texts(g)
            if re.fullmatch(r"W\d+", text)
        ]
        assert sorted(listed) == sorted(wanted), run.name


def test_loom_diameter_is_that_of_its_wires(drawn: Drawn) -> None:
    """The circle round n wires holds at least their sections, and at most those of a loosely packed bundle."""
    sized, _ = drawn
    for leg in sheet_legs(sized):
        words = list(looms_table.loom_words(sized.build.practice, leg.loom))
        if leg.loom.inner and sized.build.practice.units == "metric":
            shown_mm = float(re.findall(r"⌀ ([\d.]+)", words[0])[0])
            solid_mm = 1000 * math.sqrt(sum(one.diameter_m**2 for one in leg.loom.inner))
            assert solid_mm - 0.06 <= shown_mm <= 1.5 * solid_mm + 0.06, leg.number


def sheet_legs(sized: Sized) -> tuple[looms_table.Leg, ...]:
    from buildspec.drawings import looms_picture
    from buildspec.looms import runs

    return looms_picture.legs_of(sized.build, runs.looms(sized))


def test_holes_that_a_run_passes_stand_in_its_row(drawn: Drawn) -> None:
    sized, pages = drawn
    rows = groups(pages, r"R\d+-row")
    for run, row in zip(sized.build.runs, rows, strict=True):
        joined = " ".join(texts(row))
        assert all(hole.name in joined for hole in holes.passed(sized.build, run)), run.name


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
def test_places_stand_from_front_to_rear(path: pathlib.Path) -> None:
    """A place that is drawn further right is not further to the front."""
    sized = example(path)
    pages = sheet_set.pages(sized)
    boxes = places_of(pages)
    stations = {p.words: p.station_m for p in sized.build.places.values() if p.station_m is not None}
    drawn_places = [(boxes[words].left, station) for words, station in stations.items() if words in boxes]
    assert len(drawn_places) == len(looms_columns.places(sized.build)) >= 8
    for left, station in drawn_places:
        assert all(other <= station for x, other in drawn_places if x < left - 1)


def test_too_many_places_for_a_picture_leave_the_table(drawn: Drawn) -> None:
    sized, pages = drawn
    boxes = groups(pages, "at-.+")
    assert len(boxes) in (0, len(looms_columns.places(sized.build)))
    assert boxes or len(sized.build.runs) > 30


def test_places_without_a_station_follow_the_runs() -> None:
    sized = built(spec(3))
    found = looms_columns.stations(sized.build)
    assert found["engine-bay"] == 0.0 and found["roof-rail"] == pytest.approx(2 * 1.4)
    assert looms_columns.columns(found, 3)[0] == ["engine-bay", "bulkhead"]


def test_a_place_is_a_band_with_an_edge() -> None:
    pages = sheet_set.pages(example(EXAMPLES[0]))
    for group in groups(pages, "at-.+"):
        assert any(isinstance(m, Rect) and m.colour != "none" for m in group.marks), group.id
