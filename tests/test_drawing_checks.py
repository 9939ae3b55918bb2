"""Sheets of any build: nothing lies on anything, few crossings, references that lead back, type and contrast."""

from __future__ import annotations

import json
import pathlib
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator

import pytest
from generated import Shape, checked
from generated import spec as random_spec
from sample_builds import CASES, built, example, spec
from sample_packets import packet

from buildspec import compile as compiling
from buildspec.drawings import checks, plan, sheet_set
from buildspec.drawings.marks import Box, Group, Line, Page, Rect, Stroke, Text
from buildspec.drawings.palette import EDGE, FUSES, INK, WIRES
from buildspec.model import Sized

ROOT = pathlib.Path(__file__).parent.parent
EXAMPLES = sorted((ROOT / "examples").glob("*/*.build.yaml"))
REFERENCE = re.compile(r"sheet (\d+)/([A-D][1-6])")
CROSSINGS = {"examples": 2, "generated": 6}
"""The most that one sheet may have."""


def sixteen(loads: int) -> Sized:
    """A build that grows with its loads: 3 loads are 5 circuits, 105 loads more than 120."""
    return built(
        spec(
            loads,
            houses=min(2, loads // 12),
            chargers=min(2, loads // 8),
            links=min(2, loads // 20),
            panels=loads // 20,
            blocks=1 + loads // 14,
            direct=min(4, loads // 10),
        )
    )


def random_build(seed: int, panels: int, blocks: int, loads: int) -> Sized:
    return checked(random_spec(seed, Shape(panels, blocks, loads, 2)))[0]


BUILDS: dict[str, Callable[[], Sized]] = {
    **{path.stem: lambda path=path: example(path) for path in EXAMPLES},
    **{f"{n} loads": lambda n=n: sixteen(n) for n in (3, 8, 16, 33, 60, 105)},
    **{f"seed {n}": lambda n=n: random_build(n, 1 + n % 3, n % 3, 4 + 5 * n) for n in (1, 2, 5, 8)},
    "many direct loads": lambda: built(spec(**CASES["many direct loads"])),
    "three house batteries": lambda: built(spec(**CASES["three house batteries"])),
}


@pytest.fixture(scope="module", params=[*BUILDS])
def drawn(request: pytest.FixtureRequest) -> tuple[str, Sized, tuple[Page, ...]]:
    sized = BUILDS[request.param]()
    return request.param, sized, sheet_set.pages(sized)


Drawn = tuple[str, Sized, tuple[Page, ...]]


def texts(group: Group) -> Iterator[Text]:
    yield from (mark for mark in group.marks if isinstance(mark, Text))


def test_the_largest_build_has_more_than_a_hundred_and_twenty_circuits() -> None:
    assert len(BUILDS["3 loads"]().build.circuits) <= 6
    assert len(BUILDS["105 loads"]().build.circuits) >= 120


def test_nothing_lies_on_anything_and_little_crosses(drawn: Drawn) -> None:
    name, _, pages = drawn
    most = CROSSINGS["examples" if name.endswith(".build") else "generated"]
    for page in pages:
        found = checks.checked(page)
        assert found[1:] == (0, 0, 0), (page.title, found)
        assert found.crossings <= most, (page.title, found)


def test_no_sheet_has_more_than_sixteen_rows_of_a_source(drawn: Drawn) -> None:
    _, sized, _ = drawn
    ladders = sheet_set.outline(sized).split.ladders
    assert max([0, *(len(s.rows) for page in ladders for s in page.sections)]) <= plan.MOST_ROWS == 16
    rows = [c.key for page in ladders for s in page.sections for c in s.rows]
    assert len(rows) == len(set(rows))


def test_nothing_is_cut_short(drawn: Drawn) -> None:
    for page in drawn[2]:
        cut = [mark.text for g in page.groups for mark in texts(g) if "…" in mark.text]
        assert cut == [], page.title


# ------------------------------------------------------------------------------- references both ways


def words(group: Group) -> str:
    return " ".join([group.title, group.desc, *(mark.text for mark in texts(group))])


def zone_of(group: Group, page: Page) -> str:
    """By hand: six fields across and four down inside a margin of 8 mm."""
    if group.body is not None:
        x, y = (group.body.left + group.body.right) / 2, (group.body.top + group.body.bottom) / 2
    else:
        first = next(texts(group))
        x, y = first.x, first.y
    column = min(5, int((x - 80) * 6 / (page.width - 160)))
    row = min(3, int((y - 80) * 4 / (page.height - 160)))
    return f"{'ABCD'[row]}{column + 1}"


def test_every_reference_leads_to_a_zone_from_which_one_leads_back(drawn: Drawn) -> None:
    _, _, pages = drawn
    referring = [
        (page, group, found)
        for page in pages
        for group in page.groups
        if (found := set(REFERENCE.findall(words(group)))) and next(texts(group), None)
    ]
    assert referring
    for page, group, found in referring:
        for number, zone in found:
            there = pages[int(number) - 1]
            back = [g for p, g, _ in referring if p is there and zone_of(g, p) == zone]
            assert int(number) != page.number, (page.title, words(group))
            assert any(f"sheet {page.number}/" in words(g) for g in back), (page.title, words(group), zone)


def test_no_reference_is_left_without_its_zone(drawn: Drawn) -> None:
    for page in drawn[2]:
        for group in page.groups:
            joined = " ".join(mark.text for mark in texts(group))
            bare = re.findall(r"[→←] sheet \d+(?!\d|/[A-D][1-6])", joined)
            assert bare == [], (page.title, joined)


def test_each_end_of_a_feeder_names_the_zone_of_the_other(drawn: Drawn) -> None:
    _, sized, pages = drawn
    for circuit in (c for c in sized.build.circuits if c.kind == "feeder"):
        ends = {
            g.anchor.partition(":")[0]: (page, g)
            for page in pages
            for g in reversed(page.groups)
            if g.anchor in (f"to:{circuit.key}", f"from:{circuit.key}")
        }
        assert ends.keys() == {"to", "from"}, circuit.number
        (page_a, a), (page_b, b) = ends["to"], ends["from"]
        if page_a is not page_b:
            assert f"sheet {page_b.number}/{zone_of(b, page_b)}" in words(a), circuit.number
            assert f"sheet {page_a.number}/{zone_of(a, page_a)}" in words(b), circuit.number


# ----------------------------------------------------------------------------- type, colour, contrast


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.1."""
    parts = [int(colour[n : n + 2], 16) / 255 for n in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(a: str, b: str) -> float:
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


def grounds(page: Page) -> list[tuple[int, Box, str]]:
    """Every filled area in the order of drawing."""
    ordered = sorted(page.groups, key=lambda g: g.layer)
    marks = [mark for group in ordered for mark in group.marks]
    return [(n, m.box, m.fill) for n, m in enumerate(marks) if isinstance(m, Rect) and m.fill != "none"]


def ground_at(found: list[tuple[int, Box, str]], place: int, x: float, y: float) -> str:
    under = [
        fill
        for n, box, fill in found
        if n < place and box.left <= x <= box.right and box.top <= y <= box.bottom
    ]
    return under[-1] if under else "#ffffff"


def test_every_text_and_line_stands_out_from_what_it_is_on(drawn: Drawn) -> None:
    for page in drawn[2]:
        found = grounds(page)
        ordered = sorted(page.groups, key=lambda g: g.layer)
        for n, mark in enumerate(mark for group in ordered for mark in group.marks):
            if isinstance(mark, Text):
                middle = checks.text_box(mark)
                below = ground_at(
                    found, n, (middle.left + middle.right) / 2, (middle.top + middle.bottom) / 2
                )
                assert contrast(mark.colour, below) >= 4.5, (page.title, mark.text, mark.colour, below)
            elif isinstance(mark, Stroke) and mark.colour != "#ffffff":
                below = ground_at(found, n, *mark.points[0])
                assert contrast(mark.colour, below) >= 3.0, (page.title, mark, below)


def test_wires_and_chips_have_an_edge_that_stands_out() -> None:
    """Whatever their own colour: WCAG 2.1, 1.4.11, against white paper and against the bands."""
    assert EDGE >= 1.5
    for ground in ("#ffffff", "#f2f4f5", "#e7ebee"):
        assert contrast(INK, ground) >= 3.0
    assert WIRES.keys() == {"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "TQ"}
    light = [c for c in (*WIRES.values(), *FUSES.values()) if contrast(c, "#ffffff") < 3.0]
    assert light and all(contrast(INK, c) >= 3.0 for c in light)


def test_two_colours_are_drawn_as_two() -> None:
    """Two pairs of IEC 60757 letters are a ground and a tracer; the letters stand beside the wire."""
    pages = sheet_set.pages(example(EXAMPLES[-1]))
    traced = [
        m for p in pages for g in p.groups for m in g.marks if isinstance(m, Line) and len(m.letters) == 4
    ]
    shown = {m.text[:4] for p in pages for g in p.groups for m in texts(g)}
    assert traced and {m.letters for m in traced} <= shown


STANDARD_COLOURS = {
    1.0: "black", 2.0: "grey", 3.0: "violet", 4.0: "pink", 5.0: "tan", 7.5: "brown", 10.0: "red", 15.0: "blue",
    20.0: "yellow", 25.0: "clear", 30.0: "green", 40.0: "orange",
}  # fmt: skip
"""ISO 8820-3 type C, as published tables and makers' sheets repeat it."""


def test_a_blade_fuse_shows_its_rating_and_colour(drawn: Drawn) -> None:
    _, sized, pages = drawn
    for circuit in sized.build.circuits:
        for device in sized.sizings[circuit.key].devices:
            if device.family == "blade" and device.rating_a in STANDARD_COLOURS:
                wanted = f"{device.rating_a:g} A {STANDARD_COLOURS[device.rating_a]}"
                group = next(
                    g for p in pages for g in p.groups if g.title.startswith(f"{device.designation} · ")
                )
                assert any(mark.text.startswith(wanted) for mark in texts(group)), device.designation
                assert any(
                    isinstance(m, Rect) and m.fill == FUSES[STANDARD_COLOURS[device.rating_a]]
                    for m in group.marks
                )


def test_terminals_stand_beside_contacts_and_coils() -> None:
    """DIN 72552: 30 and 87 at a relay's contact, 86 and 85 at its coil."""
    sized = example(EXAMPLES[0])
    pages = sheet_set.pages(sized)
    relays = {
        c.designation for circuit in sized.build.circuits for c in circuit.contacts if c.kind == "relay"
    }
    assert relays
    for name in relays:
        contact = next(g for p in pages for g in p.groups if g.anchor == f"contact:{name}")
        assert {"30", "87"} <= {mark.text for mark in texts(contact)}
        assert any(g.title.startswith(f"{name} · coil 86–85") for p in pages for g in p.groups), name


# ------------------------------------------------------------------------------- the counts themselves


def page_of(*groups: Group) -> Page:
    return Page("d1-x", 1, "x", "x", 2970, 2100, groups)


def wire(name: str, *points: tuple[float, float]) -> Group:
    return Group(name, name, name, (Line(points, "RD", 8.0),), layer=1)


def test_what_lies_on_something_is_counted() -> None:
    across = wire("a", (100, 500), (900, 500))
    down = wire("b", (400, 200), (400, 800), (700, 800))
    text = Group("t", "t", "t", (Text(200, 505, "words"),), layer=3)
    twice = Group("u", "u", "u", (Text(210, 508, "more"),), layer=3)
    thing = Group("k", "k", "k", (), body=Box(380, 600, 460, 700))
    assert checks.checked(page_of(across, down)) == (1, 0, 0, 0)
    assert checks.checked(page_of(across, text)) == (0, 0, 1, 0)
    assert checks.checked(page_of(text, twice)) == (0, 1, 0, 0)
    assert checks.checked(page_of(across, down, thing)) == (1, 0, 0, 1)


def test_wires_that_meet_or_turn_do_not_cross() -> None:
    ends_there = wire("b", (400, 200), (400, 500))
    assert checks.checked(page_of(wire("a", (100, 500), (900, 500)), ends_there)) == (0, 0, 0, 0)
    bent = wire("c", (100, 100), (300, 100), (300, 300), (200, 300), (200, 50))
    assert checks.checked(page_of(bent)) == (0, 0, 0, 0)


def test_the_counts_stand_on_the_sheet_and_in_the_packet() -> None:
    made = packet(EXAMPLES[-1])
    listed = json.loads(compiling.files_of(made)["packet.json"])["drawing_checks"]
    assert [item["file"] for item in listed] == [f"drawings/{sheet.id}.svg" for sheet in made.sheets]
    for item, sheet in zip(listed, made.sheets, strict=True):
        counts = re.findall(r">checked as drawn: (\d+) crossings?, no overlaps</text>", sheet.svg)
        assert [int(n) for n in counts] == [item["crossings"]]


def test_every_drawing_of_a_packet_has_a_title_and_a_description() -> None:
    for path in EXAMPLES:
        made = packet(path)
        for sheet in (*made.sheets, *made.strips):
            root = ET.fromstring(sheet.svg)
            for name in ("title", "desc"):
                found = root.find(f"{{http://www.w3.org/2000/svg}}{name}")
                assert found is not None and found.text and found.text.strip(), (sheet.id, name)
