"""One picture for each name of the catalogue, all of one family."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree

import pytest

from buildspec import resources
from buildspec.drawings import pictograms

TRAITS = json.loads((resources.folder("schemas") / "traits.schema.json").read_text(encoding="utf-8"))
ARGUMENTS = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "A": 7, "Z": 0}


def enumerated(node: object) -> set[str]:
    """The enumeration under the first key `pictogram`, wherever the schema has it."""
    if isinstance(node, dict):
        if "enum" in node.get("pictogram", {}):
            return set(node["pictogram"]["enum"])
        return set().union(*(enumerated(child) for child in node.values()))
    return set().union(*(enumerated(child) for child in node)) if isinstance(node, list) else set()


def points(d: str) -> list[tuple[float, float]]:
    """Ends of every step of a path, absolute."""
    x = y = 0.0
    found = []
    for letter, numbers in re.findall(r"([A-Za-z])([^A-Za-z]*)", d):
        values = [float(v) for v in re.findall(r"-?\d*\.?\d+", numbers)]
        count = ARGUMENTS[letter.upper()]
        for n in range(0, len(values), count or 1):
            step = values[n : n + count]
            relative = letter.islower()
            if letter.upper() == "H":
                x = step[0] + (x if relative else 0)
            elif letter.upper() == "V":
                y = step[0] + (y if relative else 0)
            else:
                x, y = step[-2] + (x if relative else 0), step[-1] + (y if relative else 0)
            found.append((x, y))
    return found


def test_every_name_of_the_schema_has_a_picture():
    names = enumerated(TRAITS)
    assert len(names) == 26
    assert set(pictograms.PICTURES) == names


@pytest.mark.parametrize("name", pictograms.PICTURES)
def test_a_picture_stays_on_its_grid(name):
    drawn = points(pictograms.PICTURES[name].d)
    edge = pictograms.STROKE / 2
    assert all(edge <= v <= pictograms.GRID - edge for point in drawn for v in point)


@pytest.mark.parametrize("name", sorted(set(pictograms.PICTURES) - {"blank", "antenna"}))
def test_a_picture_fills_its_grid(name):
    """A family has one visual size: the larger extent is most of the grid."""
    drawn = points(pictograms.PICTURES[name].d)
    wide = max(x for x, _ in drawn) - min(x for x, _ in drawn)
    high = max(y for _, y in drawn) - min(y for _, y in drawn)
    assert max(wide, high) >= 0.6 * pictograms.GRID


def test_no_two_pictures_are_alike():
    assert len({p.d for p in pictograms.PICTURES.values()}) == len(pictograms.PICTURES)
    assert len({p.title for p in pictograms.PICTURES.values()}) == len(pictograms.PICTURES)


def test_left_and_right_are_mirrors():
    left, right = (points(pictograms.PICTURES[f"scene-{side}"].d) for side in ("left", "right"))
    inner_left = [p for p in left if p[0] < 9]
    inner_right = [(pictograms.GRID - x, y) for x, y in right if x > 15]
    assert len(inner_left) == len(inner_right)
    for one, other in zip(sorted(inner_left), sorted(inner_right), strict=True):
        assert one == pytest.approx(other)


def test_a_line_at_8_mm_is_half_a_millimetre_or_more():
    """ISO 3098 takes a line of 0.5 mm as the next after 0.35 mm for what must be read at a distance."""
    group = ElementTree.fromstring(pictograms.group("fan", x=1, y=2, size=8, ink="#000"))
    scale = float(re.search(r"scale\(([\d.]+)\)", group.attrib["transform"])[1])
    assert scale * float(group.attrib["stroke-width"]) >= 0.5
    assert group.attrib["transform"].startswith("translate(1.00 2.00)")


def test_only_a_reserved_picture_is_dashed():
    assert "stroke-dasharray" not in pictograms.group("fan", x=0, y=0, size=8, ink="#000")
    assert "stroke-dasharray" in pictograms.group("fan", x=0, y=0, size=8, ink="#000", dashed=True)
