"""What a sheet consists of before it is text: marks in groups, in tenths of a millimetre."""

from __future__ import annotations

from typing import NamedTuple

from buildspec.drawings.measure import SMALL
from buildspec.drawings.palette import INK, LINE

Point = tuple[float, float]


class Box(NamedTuple):
    """A rectangle by its corners."""

    left: float
    top: float
    right: float
    bottom: float

    def grown(self, by: float) -> Box:
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)


class Text(NamedTuple):
    """One line of text; `full` is what it was before it was shortened."""

    x: float
    y: float
    text: str
    size: float = SMALL
    bold: bool = False
    anchor: str = "start"
    colour: str = INK
    kind: str = ""
    """`wire-tag`, `circuit-tag` or ``."""


class Stroke(NamedTuple):
    """Lines through points; filled when `fill` names a colour."""

    points: tuple[Point, ...]
    width: float = LINE
    colour: str = INK
    fill: str = "none"
    closed: bool = False
    dash: str = ""


class Round(NamedTuple):
    """A circle."""

    x: float
    y: float
    r: float
    width: float = LINE
    colour: str = INK
    fill: str = "none"


class Arc(NamedTuple):
    """A free path, as SVG path data."""

    d: str
    width: float = LINE
    colour: str = INK
    fill: str = "none"


class Rect(NamedTuple):
    box: Box
    fill: str = "none"
    colour: str = "none"
    width: float = LINE
    radius: float = 0.0
    dash: str = ""


class Line(NamedTuple):
    """A conductor: ground colour with a dark edge, tracer dashes, dashed as a whole for a reserve."""

    points: tuple[Point, ...]
    letters: str
    """IEC 60757; `` for the vehicle's own, whose colour nobody knows here: plain grey without an edge."""
    width: float
    dashed: bool = False
    halo: bool = False
    """A clear edge, where it may cross another conductor."""


Mark = Text | Stroke | Round | Arc | Rect | Line


class Group(NamedTuple):
    """Marks that belong to one thing. `body` is the box that no conductor may cross."""

    id: str
    title: str
    desc: str
    marks: tuple[Mark, ...]
    circuit: str = ""
    body: Box | None = None
    layer: int = 2
    """0 bands, 1 conductors, 2 things, 3 tags and text over all."""
    anchor: str = ""
    """Name under which another sheet refers to it."""


class Page(NamedTuple):
    """One drawn sheet before it is written out."""

    id: str
    number: int
    title: str
    desc: str
    width: float
    height: float
    groups: tuple[Group, ...]
