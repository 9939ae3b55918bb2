"""Charts read as a person with a ruler reads them: scales from the figures at the axes, values from the marks."""

from __future__ import annotations

import math
import pathlib
import re
import xml.etree.ElementTree as ET
from typing import NamedTuple

from sample_packets import packet

from buildspec.drawings.charts import time_current
from buildspec.model import Sized
from buildspec.packet import Sheet

SVG = "{http://www.w3.org/2000/svg}"
NUMBER = re.compile(r"−?-?[\d.]+")
PER = {"ms": 1e-3}
TEXT_DOWN = 9.0
"""A figure beside a tick stands this far below it: 0.36 of 2.5 mm, in tenths of a millimetre."""


class Axis(NamedTuple):
    """Place = offset + slope × value, or × log10 of the value."""

    offset: float
    slope: float
    log: bool

    def value(self, place: float) -> float:
        found = (place - self.offset) / self.slope
        return 10**found if self.log else found


class Chart(NamedTuple):
    """One field of a sheet."""

    root: ET.Element
    name: str
    x: Axis
    y: Axis | None

    def group(self, part: str) -> ET.Element:
        return group(self.root, f"{self.name}-{part}")

    def lines(self, part: str) -> list[list[tuple[float, float]]]:
        """(x, y) values along each line of a group."""
        return [
            [(self.x.value(x), self.y.value(y) if self.y else y) for x, y in points(path.get("d", ""))]
            for path in self.group(part).iter(f"{SVG}path")
        ]

    def dots(self, part: str) -> list[tuple[float, float]]:
        assert self.y is not None
        return [
            (self.x.value(float(c.get("cx", ""))), self.y.value(float(c.get("cy", ""))))
            for c in self.group(part).iter(f"{SVG}circle")
        ]

    def bar(self, part: str) -> tuple[float, float]:
        """(left end, right end) of the bar of a group."""
        (rect,) = self.group(part).iter(f"{SVG}rect")
        left = float(rect.get("x", ""))
        return self.x.value(left), self.x.value(left + float(rect.get("width", "")))


def group(root: ET.Element, name: str) -> ET.Element:
    found = [g for g in root.iter(f"{SVG}g") if g.get("id") == name]
    assert len(found) == 1, f"{len(found)} groups {name}"
    return found[0]


def has(root: ET.Element, name: str) -> bool:
    return any(g.get("id") == name for g in root.iter(f"{SVG}g"))


def points(data: str) -> list[tuple[float, float]]:
    found = [float(n) for n in re.findall(r"-?[\d.]+", data)]
    return list(zip(found[::2], found[1::2], strict=True))


def chart(svg: str, name: str, *, log: bool = False, upright: bool = True) -> Chart:
    """A field by the name of its groups. `upright`: there are figures at its left as well."""
    root = ET.fromstring(svg)
    texts = list(group(root, f"{name}-axes").iter(f"{SVG}text"))
    across = [(float(t.get("x", "")), amount(t.text)) for t in texts if t.get("text-anchor") == "middle"]
    up = [(float(t.get("y", "")) - TEXT_DOWN, amount(t.text)) for t in texts if t.get("text-anchor") == "end"]
    ticks = [(place, v) for place, v in up if v is not None] if upright else []
    return Chart(root, name, axis(across, log=log), axis(ticks, log=log) if ticks else None)


def amount(words: str | None) -> float | None:
    """`100 ms` → 0.1, `12.25 V` → 12.25, `A` → None."""
    found = NUMBER.match(words or "")
    if found is None:
        return None
    unit = (words or "")[found.end() :].strip()
    return float(found[0].replace("−", "-")) * PER.get(unit, 1.0)


def axis(ticks: list[tuple[float, float | None]], *, log: bool) -> Axis:
    """Through the first and the last figure; those between must lie on it."""
    known = [(place, math.log10(v) if log else v) for place, v in ticks if v is not None]
    (p0, v0), (p1, v1) = min(known, key=lambda t: t[1]), max(known, key=lambda t: t[1])
    slope = (p1 - p0) / (v1 - v0)
    found = Axis(p0 - slope * v0, slope, log)
    assert all(abs(found.offset + found.slope * v - place) < 0.12 for place, v in known), (
        "ticks off their axis"
    )
    return found


def sized_of(path: pathlib.Path) -> Sized:
    return packet(path).sized


def found(sheets: tuple[Sheet, ...], name: str, *, log: bool = False, upright: bool = True) -> Chart:
    """The field of that name on whichever sheet it is."""
    (one,) = [s for s in sheets if has(ET.fromstring(s.svg), f"{name}-axes")]
    return chart(one.svg, name, log=log, upright=upright)


def drawable(sized: Sized) -> list[time_current.Characteristic]:
    return [one for one in time_current.characteristics(sized) if one.curve]
