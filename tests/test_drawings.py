"""Circuit-diagram sheets: everything is on them once, inside the sheet, and nothing lies on anything else."""

from __future__ import annotations

import hashlib
import os
import pathlib
import re
import subprocess
import sys
import xml.etree.ElementTree as ET
from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

import pytest
from sample_builds import CASES, NASTY, built, example, spec

from buildspec import drawings
from buildspec.drawings import measure, placement, routing, sheet_set, titleblock
from buildspec.drawings.marks import Box, Group, Line, Page, Text
from buildspec.drawings.palette import BAND, BAND_INNER, EDGE, INK, PAPER, QUIET
from buildspec.errors import UsageError
from buildspec.model import Sized

SVG = "{http://www.w3.org/2000/svg}"
ROOT = pathlib.Path(__file__).parent.parent
EXAMPLES = sorted((ROOT / "examples").glob("*/*.build.yaml"))
POINT_MM = 25.4 / 72


BUILDS = {**{name: lambda given=given: built(spec(**given)) for name, given in CASES.items()}}
BUILDS["on Letter"] = lambda: letter()


def letter() -> Sized:
    sized = built(spec(**CASES["usual"]))
    practice = sized.build.practice._replace(paper="Letter", units="imperial")
    return sized._replace(build=sized.build._replace(practice=practice))


@pytest.fixture(scope="module", params=[*BUILDS, *(path.stem for path in EXAMPLES)])
def drawn(request: pytest.FixtureRequest) -> tuple[Sized, tuple[Page, ...]]:
    found = {path.stem: path for path in EXAMPLES}
    sized = example(found[request.param]) if request.param in found else BUILDS[request.param]()
    return sized, sheet_set.pages(sized)


def texts(page: Page) -> Iterator[tuple[Group, Text, Box]]:
    for group in page.groups:
        for mark in group.marks:
            if isinstance(mark, Text):
                yield group, mark, text_box(mark)


def text_box(mark: Text) -> Box:
    """Where a text stands by the table of widths, without the room on top."""
    wide = measure.width(mark.text, mark.size, bold=mark.bold) / measure.ROOM
    left = mark.x - {"start": 0, "middle": wide / 2, "end": wide}[mark.anchor]
    return Box(left, mark.y - mark.size * 0.74, left + wide, mark.y + mark.size * 0.2)


def conductors(page: Page) -> Iterator[tuple[Group, Box]]:
    """Every straight piece of every conductor, as wide as it is drawn."""
    for group in page.groups:
        for mark in group.marks:
            if isinstance(mark, Line):
                half = mark.width / 2 + EDGE
                for (x0, y0), (x1, y1) in pairwise(mark.points):
                    assert x0 == x1 or y0 == y1, f"{group.id} is not orthogonal"
                    across = half if y0 == y1 else 0
                    along = half if x0 == x1 else 0
                    yield (
                        group,
                        Box(
                            min(x0, x1) - along,
                            min(y0, y1) - across,
                            max(x0, x1) + along,
                            max(y0, y1) + across,
                        ),
                    )


def overlap(a: Box, b: Box, by: float = 0.5) -> bool:
    return a.left < b.right - by and b.left < a.right - by and a.top < b.bottom - by and b.top < a.bottom - by


# ------------------------------------------------------------------------------------ what is there


def test_every_circuit_and_conductor_has_one_tag(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    """A conductor of the vehicle itself has none: nobody puts a sleeve on it."""
    sized, pages = drawn
    tags = Counter((mark.kind, mark.text) for page in pages for _, mark, _ in texts(page) if mark.kind)
    wanted = [("circuit-tag", c.number) for c in sized.build.circuits]
    wanted += [("wire-tag", w.designation) for c in sized.build.circuits if not c.existing
               for w in (*c.feeds, *c.returns)]  # fmt: skip
    assert tags == Counter(wanted)


def test_every_device_is_drawn_with_its_rating(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    sized, pages = drawn
    names = Counter(
        group.title.partition(" · ")[0] for page in pages for group in page.groups if " · " in group.title
    )
    words = {group.title for page in pages for group in page.groups}
    for circuit in sized.build.circuits:
        for device in sized.sizings[circuit.key].devices:
            assert names[device.designation] >= 1, device.designation
            rating = f"{device.rating_a:g} A" if device.rating_a >= 0.1 else ""
            assert any(w.startswith(f"{device.designation} · {rating}") for w in words), device


def test_the_titles_hold_what_a_column_cannot(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    sized, pages = drawn
    titles = " ".join(group.title + group.desc for page in pages for group in page.groups)
    long = [c for c in sized.build.circuits if NASTY in c.title]
    assert all(c.title in titles for c in long)


def test_references_lead_both_ways(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    sized, pages = drawn
    shown = [g for page in pages for g in page.groups]
    for circuit in (c for c in sized.build.circuits if c.kind == "feeder"):
        ahead = [g for g in shown if g.circuit == circuit.number and "→ " in g.desc]
        back = [g for g in shown if g.circuit == circuit.number and "← " in g.desc]
        assert ahead and back, circuit.number
        if "this sheet" in ahead[0].desc:
            assert "this sheet" in back[0].desc
            continue
        there = int(re.findall(r"→ sheet (\d+)/", ahead[0].desc)[0])
        assert any(g.circuit == circuit.number and "← " in g.desc for g in pages[there - 1].groups)


def test_the_sentence_names_every_way_between_both_sides(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    sized, pages = drawn
    roles = {n: b.role for n, b in sized.build.batteries.items()}
    sentence = next(g.desc for g in pages[0].groups if g.id.endswith("-meeting"))
    for item in sized.build.isolation.values():
        if roles[item.ends[0]] != roles[item.ends[1]]:
            assert item.designation in sentence.split("Body studs")[0]


# ----------------------------------------------------------------------------------------- the form


def test_ids_are_unique_and_everything_is_described(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    sized, _ = drawn
    ids: Counter[str] = Counter()
    for sheet in drawings.sheets(sized):
        root = ET.fromstring(sheet.svg)
        ids.update(e.get("id", "") for e in root.iter() if e.get("id"))
        assert root.get("width") == f"{sheet.width_mm:g}mm" and root.get("height") == f"{sheet.height_mm:g}mm"
        assert root.find(f"{SVG}title") is not None and root.find(f"{SVG}desc") is not None
        for group in root.iter(f"{SVG}g"):
            title, desc = group.find(f"{SVG}title"), group.find(f"{SVG}desc")
            assert title is not None and title.text and desc is not None and desc.text, group.get("id")
        assert not list(root.iter(f"{SVG}script"))
    assert [name for name, count in ids.items() if count > 1] == []
    assert all(re.fullmatch(r"d\d+-[^\s.]+", name) for name in ids)


def test_text_is_never_smaller_than_seven_points_nor_outside(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    _, pages = drawn
    for page in pages:
        inner = Box(
            titleblock.MARGIN,
            titleblock.MARGIN,
            page.width - titleblock.MARGIN,
            page.height - titleblock.MARGIN,
        )
        for group, mark, box in texts(page):
            assert mark.size / 10 / POINT_MM >= 7, (group.id, mark.text)
            if group.id.endswith(("-zones", "-checks")):
                assert box.left >= 40 and box.right <= page.width - 40 and box.top >= 40, mark.text
                assert box.bottom <= page.height - 40, mark.text
                continue
            roomy = box.right - box.left
            assert inner.left <= box.left and box.left + roomy * measure.ROOM <= inner.right + roomy * 0.04, (
                group.id,
                mark.text,
            )
            assert inner.top <= box.top and box.bottom <= inner.bottom, (group.id, mark.text)


def test_no_text_lies_on_another(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    for page in drawn[1]:
        found = list(texts(page))
        hits = [
            (a.text, b.text)
            for n, (_, a, box) in enumerate(found)
            for _, b, other in found[n + 1 :]
            if overlap(box, other)
        ]
        assert hits == [], page.title


def test_no_conductor_runs_through_a_text(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    for page in drawn[1]:
        lines = list(conductors(page))
        hits = [
            (g.id, mark.text) for _, mark, box in texts(page) for g, line in lines if overlap(box, line, 1)
        ]
        assert hits == [], page.title


def test_no_conductor_runs_on_top_of_another(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    """Crossing is allowed, running along another one is not."""
    for page in drawn[1]:
        lines = [(g.id, box, box.right - box.left > box.bottom - box.top) for g, box in conductors(page)]
        hits = [
            (a, b)
            for n, (a, box, level) in enumerate(lines)
            for b, other, same in lines[n + 1 :]
            if a != b and level == same and overlap(box, other, 1)
        ]
        assert hits == [], page.title


def test_no_conductor_runs_through_a_thing(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    for page in drawn[1]:
        bodies = [(g.id, g.body) for g in page.groups if g.body is not None]
        hits = [
            (g.id, name) for g, line in conductors(page) for name, body in bodies if overlap(body, line, 7)
        ]
        assert hits == [], page.title


def test_things_do_not_overlap(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    for page in drawn[1]:
        bodies = [(g.id, g.body) for g in page.groups if g.body is not None]
        hits = [(a, b) for n, (a, x) in enumerate(bodies) for b, y in bodies[n + 1 :] if overlap(x, y)]
        assert hits == [], page.title


def test_everything_stays_above_the_title_block(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    for page in drawn[1]:
        bottom = page.height - titleblock.MARGIN - titleblock.HEIGHT
        low = [
            g.id
            for g in page.groups
            if g.body and g.body.bottom > bottom and not g.id.endswith("title-block")
        ]
        outside = ("title-block", "-zones", "-checks")
        low += [g.id for g, _, box in texts(page) if box.bottom > bottom and not g.id.endswith(outside)]
        assert low == [], page.title


def test_reserves_are_dashed_and_nothing_else_is(drawn: tuple[Sized, tuple[Page, ...]]) -> None:
    sized, pages = drawn
    kinds = {c.number: c.kind for c in sized.build.circuits}
    for page in pages:
        for group in page.groups:
            for mark in group.marks:
                if isinstance(mark, Line):
                    assert mark.dashed == (kinds[group.circuit] == "reserve"), group.id


# -------------------------------------------------------------------------------- the same each time

DIGEST = """
import hashlib, sys
sys.path[:0] = [{root!r}, {tests!r}]
from sample_builds import CASES, built, spec
from buildspec import drawings
text = "".join(s.svg for s in drawings.sheets(built(spec(**CASES["three house batteries"]))))
print(hashlib.sha256(text.encode()).hexdigest())
"""


def test_the_same_build_gives_the_same_bytes() -> None:
    script = DIGEST.format(root=str(ROOT), tests=str(ROOT / "tests"))
    made = {
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    here = "".join(s.svg for s in drawings.sheets(built(spec(**CASES["three house batteries"]))))
    assert made == {hashlib.sha256(here.encode()).hexdigest() + "\n"}


@pytest.mark.parametrize("loads", range(3, 61, 6))
def test_any_number_of_circuits_is_drawn(loads: int) -> None:
    sized = built(
        spec(
            loads,
            houses=loads % 3,
            chargers=loads % 2,
            links=loads % 4,
            panels=1 + loads // 12,
            blocks=1 + loads // 20,
        )
    )
    sheets = drawings.sheets(sized)
    assert [s.number for s in sheets] == list(range(1, len(sheets) + 1))
    text = "".join(s.svg for s in sheets)
    assert all(f">{c.number}</text>" in text for c in sized.build.circuits)


# ------------------------------------------------------------------------------- contrast and lanes


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.1 (definition of relative luminance)."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: str, b: str) -> float:
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("ground", [PAPER, BAND, BAND_INNER])
@pytest.mark.parametrize("ink", [INK, QUIET])
def test_text_has_the_contrast_of_wcag_aa(ink: str, ground: str) -> None:
    assert contrast(ink, ground) >= 4.5


def test_lanes_take_the_order_that_crosses_least() -> None:
    nets = [
        routing.Net("a", (0.0,), (100.0,)),
        routing.Net("b", (50.0,), (150.0,)),
        routing.Net("c", (200.0,), (200.0,)),
    ]
    assert [net.key for net in routing.lanes(nets)] == ["b", "a"]
    assert routing.cost(routing.lanes(nets)) == 0


def test_parallel_conductors_have_lanes_of_their_own() -> None:
    nets = [routing.Net(f"n{n}", (100.0 * n,), (900.0 - 100.0 * n,)) for n in range(9)]
    lanes = routing.lane_positions(nets, 0, 300)
    places = sorted(lanes.values())
    assert len(places) == 9
    assert min(b - a for a, b in pairwise(places)) > 20


def test_boxes_of_one_column_never_overlap() -> None:
    nodes = [placement.Node(f"n{n}", n % 3, 400, 60 + 20 * n) for n in range(18)]
    edges = [placement.Edge(f"n{n}", f"n{n + 1}") for n in range(17) if n % 3 < 2]
    heights = placement.place(nodes, edges, 22)
    for a in nodes:
        for b in nodes:
            if a.key < b.key and a.rank == b.rank:
                assert abs(heights[a.key] - heights[b.key]) >= (a.height + b.height) / 2 + 20


def test_an_unknown_layout_engine_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BUILDSPEC_LAYOUT", "nonsense")
    with pytest.raises(UsageError, match="write `dot`"):
        placement.engine()


def test_text_is_shortened_and_wrapped_into_its_room() -> None:
    assert measure.fit("short", 500) == "short"
    cut = measure.fit("a text that is much too long for its room", 200)
    assert cut.endswith("…") and measure.width(cut) <= 200
    lines = measure.wrap("40 A out, 55 A in at most", 150)
    assert all(measure.width(line) <= 150 for line in lines)
    assert not any(line.endswith(("40", "55")) for line in lines)
